using System.Collections.Immutable;
using System.CommandLine;
using WaterScript.Binding;
using WaterScript.Checks;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript check FILE…</c>: says what is found, and what was looked at.</summary>
internal static class CheckCommand
{
    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var files = new Argument<string[]>("FILE") { Description = "Files with a site, folders to look for them in, or - for standard input.", Arity = ArgumentArity.OneOrMore };
        var strict = Arguments.Switch("--strict", "A warning counts like an error for the exit status.");
        var root = Arguments.Root();
        var command = new Command("check", "Reads sites and says what is found in them.") { files, strict, root };
        command.SetAction(parsed => Run(parsed.GetValue(files)!, parsed.GetValue(strict), parsed.GetValue(root), terminal));
        return command;
    }

    private static int Run(string[] paths, bool isStrict, string? root, Terminal terminal)
    {
        var worst = Severity.Advice;
        foreach (var path in paths)
        {
            var sites = Directory.Exists(path) ? SitesIn(path, terminal) : [path];
            foreach (var site in sites) worst = Max(worst, Check(SiteFile.Read(site, root, terminal), site, terminal));
        }

        return worst >= (isStrict ? Severity.Warning : Severity.Error) ? ExitCode.Findings : ExitCode.Success;
    }

    /// <summary>The sites in a folder; files that belong to none are named, so that nobody takes silence for "fine".</summary>
    private static ImmutableArray<string> SitesIn(string folder, Terminal terminal)
    {
        var search = SiteSearch.In(folder);
        foreach (var stray in search.Strays) terminal.Text.Write($"{ShownPath.Of(stray)}: not checked, it has no site and no site here includes it.\n");
        return !search.Sites.IsEmpty ? search.Sites : throw new CommandException($"no .water file with a site in {folder}");
    }

    private static Severity Check(SiteReading reading, string path, Terminal terminal)
    {
        var report = reading is { Site: { } site, Findings.HasErrors: false } ? Linter.Check(site, CheckHorizon.Of(site)) : null;
        List<Finding> findings = [.. reading.Findings, .. report?.Findings ?? []];
        new FindingPrinter(terminal.Text, terminal.TextHasColour).Print(findings);
        terminal.Text.Write(Verdict.Of(reading, path, findings, report?.Horizon) + "\n");
        return findings.Select(finding => finding.Severity).DefaultIfEmpty(Severity.Advice).Max();
    }

    private static Severity Max(Severity first, Severity second) => first > second ? first : second;
}
