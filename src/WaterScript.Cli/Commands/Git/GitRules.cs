using WaterScript.Answers.Diff.Rules;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Cli.Commands.Git;

/// <summary>
/// What <c>git log -p</c> compares in place of the lines of a file: its rules, and what they come to in a year. Of a site with includes git gives one file
/// only; the others are those of the commit that has it.
/// </summary>
internal static class GitRules
{
    private const int MostLineBytes = 1 << 12;

    /// <summary>Writes the rules of a file.</summary>
    public static int Show(string path, Terminal terminal)
    {
        using var stream = RegularFile.OpenNamed(path, terminal.Surroundings);
        var source = new SourceFolder(terminal.Surroundings.Here, terminal.Surroundings).Decode(path, stream);
        var tree = SiteSearch.TreeOf(source);
        var version = SiteSearch.HasSite(tree) ? Version(path, source, tree, terminal) : null;
        if (tree is null)
        {
            terminal.Text.Page(source.Text);
            return ExitCode.Success;
        }

        YearOfRules.Write(version?.Reading.Files ?? [tree], version?.Reading.Site, terminal.Text);
        return ExitCode.Success;
    }

    /// <summary>The site, where it and all that it includes can be read.</summary>
    private static (SiteSource Source, Binding.SiteReading Reading)? Version(string path, SourceText source, FileNode? tree, Terminal terminal)
    {
        try
        {
            var site = tree?.Statements.OfType<IncludeNode>().Any() == true ? WithIncludes(path, source, terminal) : SiteSource.Open(path, null, terminal);
            var reading = site?.Read();
            return reading is { Site: not null, Findings.HasErrors: false } ? (site!, reading) : null;
        }
        catch (CommandException)
        {
            return null;
        }
    }

    private static SiteSource? WithIncludes(string path, SourceText source, Terminal terminal)
    {
        var repository = GitRepository.At(path, terminal.Surroundings);
        var whole = terminal.Surroundings.Whole(path);
        var isInTree = RealPath.IsInside(RealPath.Of(path, terminal.Surroundings), RealPath.Of(repository.Top, terminal.Surroundings));
        if (isInTree) return SiteSource.Open(path, null, terminal);
        var blob = repository.Run(MostLineBytes, "hash-object", "--no-filters", "--", whole).Line;
        return BlobContext.Of(blob, null, repository) is { } context
            ? SiteSource.Among(new OverlaidFiles(context.Files(), context.Path, source), context.Path, terminal.TimeZones) : null;
    }
}
