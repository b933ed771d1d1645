using System.CommandLine;
using NodaTime;
using WaterScript.Answers.Diff;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;
using WaterScript.Text;

namespace WaterScript.Cli.Commands.Comparing;

/// <summary><c>waterscript diff OLD NEW</c>: what changes between two versions of a site, or of all sites in a folder.</summary>
internal sealed class DiffCommand
{
    /// <summary>What stands for a version that is not there, as git has it.</summary>
    private const string Nothing = "/dev/null";

    private readonly Terminal _terminal;
    private readonly Argument<string> _old =
        new("OLD")
        {
            Description = "A file with the site as it was, REV:path for one in a revision of git, REV..REV for two revisions, a timetable in YAML that is " +
                "deployed, or - for standard input."
        };
    private readonly Argument<string> _new =
        new("NEW") { Description = "The site as it is: a file, REV:path or -; or a folder, behind REV..REV or a revision." };
    private readonly Option<LocalDate?> _from = OptionValues.Date("--from", "First date to compare. Default: the earlier effective date of the two.");
    private readonly Option<LocalDate?> _until = OptionValues.Date("--until", "Stop before this date. Default: as far as check looks.");
    private readonly Option<DiffScope?> _only = OptionValues.Choice("--only", "Compare only this. Default: all of it.",
        ("water", DiffScope.Water), ("devices", DiffScope.Devices), ("findings", DiffScope.Findings));
    private readonly Option<ReportForm?> _report = ReportOption.OfAnswer();
    private readonly Option<string?> _output = Arguments.Output();
    private readonly Option<string?> _root = Arguments.Root();

    private DiffCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new DiffCommand(terminal);
        var command = new Command("diff", "Shows what changes between two versions of a site, or of the sites in a folder.")
        {
            self._old, self._new, self._from, self._until, self._only, self._report, self._output, self._root,
        };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var output = OutputFile.Of(parsed.GetValue(_output), _terminal);
        var (from, until) = (parsed.GetValue(_from), parsed.GetValue(_until));
        var (old, @new) = (parsed.GetValue(_old)!, parsed.GetValue(_new)!);
        var scope = parsed.GetValue(_only) ?? DiffScope.All;
        if (old == SiteSource.Standard && @new == SiteSource.Standard) throw new CommandException("only one of the two can be standard input");
        if (@new != SiteSource.Standard && DeployedFile.IsMeant(@new, _terminal))
            throw new CommandException($"{@new} is a timetable; give it first, and then the site");
        var isPage = parsed.GetValue(_report) is null && DiffReport.IsPagePath(parsed.GetValue(_output));
        var report = new DiffReport(parsed.GetValue(_report) ?? ReportForm.Text, output, isPage);
        if (isPage && scope != DiffScope.All) throw new CommandException("a page shows all that changes; leave out --only");
        var compare = new SiteComparison(from, until, scope, _terminal);
        if (isPage && (VersionRange.IsMeant(old, _terminal) || Directory.Exists(_terminal.Surroundings.At(@new)) || DeployedFile.IsMeant(old, _terminal)))
            throw new CommandException("a page shows two versions of one site: diff OLD NEW -o PATH.html");
        if (VersionRange.IsMeant(old, _terminal) || Directory.Exists(_terminal.Surroundings.At(@new)))
            return report.Write(new FolderVersions(compare, parsed.GetValue(_root), _terminal).Compare(old, @new));
        if (DeployedFile.IsMeant(old, _terminal)) return RunDeployed(parsed, report, hasOptions: (from ?? until) is not null || scope != DiffScope.All);
        return RunFiles(old, @new, parsed.GetValue(_root), report, compare);
    }

    private int RunFiles(string old, string @new, string? root, DiffReport report, SiteComparison compare)
    {
        if (PartsOf(old, @new, root) is var (was, now))
        {
            if (report.IsPage) throw new CommandException("a page shows a site, and these files have none; give the file with the site");
            return new PartComparison(compare, root, _terminal).Of((was, old), (now, @new)) is { } parts ? report.Write(parts) : ExitCode.CannotRun;
        }

        return RunSites(old, @new, root, report, compare);
    }

    /// <summary>Both versions of a file without a site; null where either has one, or is to be looked at as a site.</summary>
    private (SourceText? Old, SourceText? New)? PartsOf(string old, string @new, string? root)
    {
        if (old == SiteSource.Standard || @new == SiteSource.Standard) return null; // It can be read once, and by whom is not known yet.
        var was = IsNothing(old, @new) ? null : SiteSource.OpenVersion(old, root, _terminal).Root;
        var now = IsNothing(@new, old) ? null : SiteSource.OpenVersion(@new, root, _terminal).Root;
        return new[] { was, now }.OfType<SourceText>().ToList() is { Count: > 0 } there && there.TrueForAll(PartComparison.IsPart) ? (was, now) : null;
    }

    private int RunSites(string old, string @new, string? root, DiffReport report, SiteComparison compare)
    {
        if (report.IsPage && (IsNothing(old, @new) || IsNothing(@new, old))) throw new CommandException("a page needs both versions");
        if (IsNothing(old, @new)) return WriteWhole(Read(@new, root), DiffSides.New, report, compare);
        if (IsNothing(@new, old)) return WriteWhole(Read(old, root), DiffSides.Gone, report, compare);
        if (Read(old, root) is not { } was || Read(@new, root) is not { } now) return ExitCode.CannotRun;
        var changes = compare.Of(was, now);
        return report.IsPage
            ? report.WritePage(changes, [.. SourcesOf(was)], [.. SourcesOf(now)], _terminal)
            : report.Write(changes, SourcesOf(was).Concat(SourcesOf(now)));
    }

    private static int WriteWhole(VersionRead? site, DiffSides sides, DiffReport report, SiteComparison compare) =>
        site is null ? ExitCode.CannotRun : report.Write(compare.Whole(site, sides), SourcesOf(site));

    /// <summary>Compares what is deployed with what the file says, over the dates that are deployed.</summary>
    private int RunDeployed(ParseResult parsed, DiffReport report, bool hasOptions)
    {
        if (hasOptions)
            throw new CommandException("a timetable is compared over the dates that it covers, and only its runs; leave out --from, --until and --only");
        var source = SiteSource.OpenVersion(parsed.GetValue(_new)!, parsed.GetValue(_root), _terminal);
        if (SiteLoader.Read(source, _terminal) is not { } site) return ExitCode.CannotRun;
        var (changes, file) = DeployedFile.Use(parsed.GetValue(_old)!, _terminal,
            deployed => (_terminal.During("Comparing", () => WateringChanges.Of(deployed, site, site.TimeZoneData)), deployed.Source));
        return report.Write(changes, [file, source.Root]);
    }

    /// <summary>Whether there is no such version: as git says it, or because the file that the other one is was not there in that revision.</summary>
    private bool IsNothing(string version, string other)
    {
        if (version == Nothing) return true;
        if (!RevisionFolder.IsMeant(version, _terminal.Surroundings) || other == SiteSource.Standard) return false;
        if (RevisionFolder.MissingPath(version, _terminal.Surroundings) is not { } missing) return false;
        if (RevisionFolder.IsMeant(other, _terminal.Surroundings)) return other[(other.IndexOf(':', StringComparison.Ordinal) + 1)..] == missing;
        var top = GitRepository.At(version, _terminal.Surroundings).Top;
        return File.Exists(_terminal.Surroundings.At(other)) && Path.GetRelativePath(top, RealPath.Of(other, _terminal.Surroundings)) == missing;
    }

    /// <summary>A version; null where an error stands in the way of reading it, which is shown.</summary>
    private VersionRead? Read(string version, string? root)
    {
        var source = SiteSource.OpenVersion(version, root, _terminal);
        return SiteLoader.Read(source, _terminal) is null ? null : new VersionRead(source, source.Read(), "");
    }

    private static IEnumerable<SourceText> SourcesOf(VersionRead version) => version.Reading!.Files.Select(file => file.Source);
}
