using System.CommandLine;
using System.CommandLine.Completions;
using WaterScript.Cli.Files;
using WaterScript.Model;

namespace WaterScript.Cli.Shells;

/// <summary>Names that the file on an unfinished line has, to go on with.</summary>
internal static class SiteNames
{
    /// <summary>Names of a site that is named before.</summary>
    /// <param name="file">The argument with the file.</param>
    /// <param name="names">Which names.</param>
    /// <param name="terminal">What paths start from.</param>
    public static Func<CompletionContext, IEnumerable<CompletionItem>> Of(
        Argument<string> file, Func<Site, IEnumerable<string>> names, Terminal terminal) => context =>
    {
        if (context.ParseResult.GetResult(file) is not { Tokens: [var path, ..] } || path.Value == SiteSource.Standard) return [];
        try
        {
            var site = SiteSource.Open(path.Value, expectedRoot: null, terminal).Read().Site;
            return site is null ? [] : names(site).Select(name => new CompletionItem(name));
        }
        catch (CommandException)
        {
            // A file that cannot be read has no names; that it cannot is said when the line is carried out.
            return [];
        }
    };
}
