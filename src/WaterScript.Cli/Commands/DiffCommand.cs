using System.CommandLine;
using NodaTime;
using WaterScript.Answers.Diff;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Text.Lines;
using WaterScript.Timetables;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript diff OLD NEW</c>: what changes in the watering between two versions.</summary>
internal sealed class DiffCommand
{
    /// <summary>Both versions are checked, and then compared, in the time of one check.</summary>
    private const int Versions = 2;

    private readonly Terminal _terminal;
    private readonly Argument<string> _old =
        new("OLD")
        {
            Description =
        "A file with the site as it was, REV:path for one in a revision of git, a timetable in YAML that is deployed, or - for standard input."
        };
    private readonly Argument<string> _new = new("NEW") { Description = "The site as it is: a file, REV:path or -." };
    private readonly Option<LocalDate?> _from = OptionValues.Date("--from", "First date to compare. Default: the earlier effective date of the two.");
    private readonly Option<LocalDate?> _until = OptionValues.Date("--until", "Stop before this date. Default: as far as check looks.");
    private readonly Option<ReportForm?> _report = ReportOption.OfAnswer();
    private readonly Option<string?> _output = Arguments.Output();
    private readonly Option<string?> _root = Arguments.Root();

    private DiffCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new DiffCommand(terminal);
        var command = new Command("diff", "Shows what changes in the watering between two versions of a site.")
        {
            self._old, self._new, self._from, self._until, self._report, self._output, self._root,
        };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var form = parsed.GetValue(_report) ?? ReportForm.Text;
        var output = OutputFile.Of(parsed.GetValue(_output), _terminal);
        var (from, until) = (parsed.GetValue(_from), parsed.GetValue(_until));
        if (parsed.GetValue(_old) == SiteSource.Standard && parsed.GetValue(_new) == SiteSource.Standard)
            throw new CommandException("only one of the two can be standard input");
        if (parsed.GetValue(_new) is { } site && site != SiteSource.Standard && DeployedFile.IsMeant(site, _terminal))
            throw new CommandException($"{site} is a timetable; give it first, and then the site");
        if (DeployedFile.IsMeant(parsed.GetValue(_old)!, _terminal)) return RunDeployed(parsed, form, output, hasDates: (from ?? until) is not null);
        if (Read(_old, "old", parsed) is not { } old || Read(_new, "new", parsed) is not { } @new) return ExitCode.CannotRun;
        var horizon = HorizonOf(old, @new, from, until);
        var changes = _terminal.During("Comparing", () => WateringChanges.Of(old, @new, horizon));
        output.Write(old.Reading.Files.Concat(@new.Reading.Files).Select(file => file.Source), stream => Write(changes, form, stream));
        return CodeOf(changes);
    }

    /// <summary>Compares what is deployed with what the file says, over the dates that are deployed.</summary>
    private int RunDeployed(ParseResult parsed, ReportForm form, OutputFile output, bool hasDates)
    {
        if (hasDates) throw new CommandException("a timetable is compared over the dates that it covers; leave out --from and --until");
        var source = SiteSource.OpenVersion(parsed.GetValue(_new)!, parsed.GetValue(_root), _terminal);
        if (SiteLoader.Read(source, _terminal) is not { } site) return ExitCode.CannotRun;
        var (changes, file) =
            DeployedFile.Use(parsed.GetValue(_old)!, _terminal,
            deployed => (_terminal.During("Comparing", () => WateringChanges.Of(deployed, site)), deployed.Source));
        output.Write([file, source.Root], stream => Write(changes, form, stream));
        return CodeOf(changes);
    }

    private static int CodeOf(WateringChanges changes) => changes.IsChanged || changes.InPart is not null ? ExitCode.Findings : ExitCode.Success;

    /// <summary>A version; null where an error stands in the way of reading it, which is shown.</summary>
    private CheckedSite? Read(Argument<string> version, string word, ParseResult parsed)
    {
        var source = SiteSource.OpenVersion(parsed.GetValue(version)!, parsed.GetValue(_root), _terminal);
        return SiteLoader.Read(source, _terminal) is null
            ? null
            : _terminal.During($"Checking the {word} version", () => CheckedSite.Untried(source.Root.Path, source.Read(), share: Versions));
    }

    private static Horizon HorizonOf(CheckedSite old, CheckedSite @new, LocalDate? from, LocalDate? until)
    {
        var whole = WateringChanges.HorizonOf(old.Reading.Site!, @new.Reading.Site!);
        var horizon = new Horizon(from ?? whole.From, until ?? (from > whole.From ? LocalDate.Max(whole.Until, from.Value.PlusYears(1)) : whole.Until));
        if (horizon.Until <= horizon.From) throw new CommandException("--until is not after the first date");
        return Period.DaysBetween(horizon.From, horizon.Until) <= Limits.HorizonDays
            ? horizon
            : throw new CommandException($"more than {Limits.HorizonDays} days; choose a nearer --until");
    }

    private static void Write(WateringChanges changes, ReportForm form, Stream stream)
    {
        if (form == ReportForm.Json) ChangesJson.Write(changes, stream);
        else if (form == ReportForm.Markdown) MarkdownLines.WriteTo(stream, lines => ChangesText.Write(changes, lines));
        else PlainLines.WriteTo(stream, lines => ChangesText.Write(changes, lines));
    }
}
