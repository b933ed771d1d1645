using System.Collections.Immutable;
using System.CommandLine;
using NodaTime;
using WaterScript.Checks;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript check FILE…</c>: says what is found, and what was looked at.</summary>
internal sealed class CheckCommand
{
    private readonly Terminal _terminal;
    private readonly Argument<string[]> _files = new("FILE") { Description = "Files with a site, folders to look for them in, or - for standard input.", Arity = ArgumentArity.OneOrMore };
    private readonly Option<bool> _strict = Arguments.Switch("--strict", "A warning counts like an error for the exit status.");
    private readonly Option<string?> _from = Arguments.Text("--from", "DATE", "First date to look at. Default: the site's effective date.");
    private readonly Option<bool> _showAccepted = Arguments.Switch("--show-accepted", "Show what is accepted too, with the reason.");
    private readonly Option<string?> _root = Arguments.Root();

    private CheckCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new CheckCommand(terminal);
        var command = new Command("check", "Reads sites and says what is found in them.") { self._files, self._strict, self._from, self._showAccepted, self._root };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        LocalDate? from = parsed.GetValue(_from) is { } date ? DateOptions.Date(_from.Name, date) : null;
        var report = new TextReport(_terminal.Text, _terminal.TextHasColour, parsed.GetValue(_showAccepted));
        var gravest = Severity.Advice;
        foreach (var site in CheckAll(Targets(parsed.GetValue(_files)!), parsed.GetValue(_root), from))
        {
            report.Print(site);
            if (site.Worst > gravest) gravest = site.Worst.Value;
        }

        return gravest >= (parsed.GetValue(_strict) ? Severity.Warning : Severity.Error) ? ExitCode.Findings : ExitCode.Success;
    }

    /// <summary>The root files that the arguments name, in order.</summary>
    private ImmutableArray<string> Targets(string[] paths) => [.. paths.SelectMany(path => Directory.Exists(path) ? SitesIn(path) : [path])];

    /// <summary>The sites in a folder; files that belong to none are named, so that nobody takes silence for "fine".</summary>
    private ImmutableArray<string> SitesIn(string folder)
    {
        var search = SiteSearch.In(folder);
        foreach (var stray in search.Strays) _terminal.Text.Write($"{ShownPath.Of(stray)}: not checked, it has no site and no site here includes it.\n");
        return !search.Sites.IsEmpty ? search.Sites : throw new CommandException($"no .water file with a site in {folder}");
    }

    /// <summary>Checks sites side by side; hands them out in their order, each as soon as it and all before it are ready.</summary>
    private IEnumerable<CheckedSite> CheckAll(ImmutableArray<string> paths, string? root, LocalDate? from)
    {
        if (paths is [var only]) return [Check(only, root, from)];
        var checks = paths.Select(path => Task.Run(() => Check(path, root, from))).ToList();
        return checks.Select(check => check.GetAwaiter().GetResult());
    }

    private CheckedSite Check(string path, string? root, LocalDate? from)
    {
        var source = SiteSource.Open(path, root, _terminal);
        return CheckedSite.Of(source.Root.Path, source.Read(), from);
    }
}
