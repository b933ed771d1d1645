using System.CommandLine;
using NodaTime;
using NodaTime.Text;
using WaterScript.Cli.Commands.Options;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;
using WaterScript.Cli.Shells;
using WaterScript.Diagnostics;
using WaterScript.Documents.ICalendar;
using WaterScript.Documents.Reports;
using WaterScript.Documents.Timetables;
using WaterScript.Linting.Engine;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript compile FILE --to yaml</c>: writes the timetable of a site.</summary>
internal sealed class CompileCommand
{
    private readonly Terminal _terminal;
    private readonly Argument<string> _file = new("FILE") { Description = "The file with the site, or - for standard input." };
    private readonly Option<CompileFormat?> _to = OptionValues.Choice(
        "--to",
        "What to write.",
        ("yaml", CompileFormat.Yaml),
        ("json", CompileFormat.Json),
        ("csv", CompileFormat.Csv),
        ("icalendar", CompileFormat.ICalendar));

    private readonly Option<LocalDate?> _from = OptionValues.Date("--from", "First day. Default: the site's effective date.");
    private readonly Option<LocalDate?> _until = OptionValues.Date("--until", "Stop before this date. Default: a year after the first.");
    private readonly Option<int?> _days = DateOptions.Days();
    private readonly Option<string?> _output = Arguments.Output();
    private readonly Option<TimetableList?> _only = OptionValues.Choice(
        "--only",
        "One list: runs of zones, openings of outputs (on, for a time), or each switching. Of csv, runs are the default.",
        ("runs", TimetableList.Runs),
        ("openings", TimetableList.Openings),
        ("switchings", TimetableList.Switchings));

    private readonly Option<string?> _controller = Arguments.Text("--controller", "NAME", "Only what this controller switches.");
    private readonly Option<string?> _run =
        Arguments.Text("--run", "NAME", "One pass, once through the steps, of this schedule, in place of the calendar; goes with --at.");
    private readonly Option<LocalDateTime?> _at = OptionValues.Time("--at", "When, by the site's clocks: 2026-05-01T09:30.");
    private readonly Option<string?> _root = Arguments.Root();
    private readonly Option<bool> _despiteErrors = Arguments.Switch("--despite-errors", "Write although there are errors; what they are about may be missing.");

    private readonly CalendarCommandOptions _calendar = new();

    private CompileCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new CompileCommand(terminal);
        self._controller.CompletionSources.Add(SiteNames.Of(self._file, site => site.Controllers.Select(controller => controller.Name), terminal));
        self._run.CompletionSources.Add(SiteNames.Of(self._file, site => site.Schedules.Select(schedule => schedule.Name), terminal));
        var command = new Command("compile", "Writes the timetable of a site.")
        {
            self._file, self._to, self._from, self._until, self._days, self._output, self._only, self._controller, self._run, self._at, self._root,
                self._despiteErrors,
        };
        self._calendar.AddTo(command);
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var format = FormatOf(parsed.GetValue(_to));
        var only = parsed.GetValue(_only);
        if (format is null) RefuseWithCalendar(only);
        else _calendar.RefuseAny(parsed);
        var output = OutputFile.Of(parsed.GetValue(_output), _terminal);
        var range = DateOptions.Read(parsed.GetValue(_from), parsed.GetValue(_until), parsed.GetValue(_days), parsed.GetValue(_run), parsed.GetValue(_at));
        var file = parsed.GetValue(_file)!;
        var source = SiteSource.Open(file, parsed.GetValue(_root), _terminal);
        var compilation = _terminal.During("Checking", () => Compilation.OfReading(source.Root.Path, source.Read()));
        var check = compilation.Check;
        new FindingPrinter(_terminal.Error).Print(check.Findings);

        var firstError = compilation.HasErrors ? FirstErrorOf(check) : null;
        var isDespite = parsed.GetValue(_despiteErrors);
        if (check.Reading.Site is not { } site || (compilation.HasErrors && !isDespite && firstError is null)) return Refuse(check);
        var controller = ControllerOption.Of(site, parsed.GetValue(_controller));
        var timetable = range.TimetableOf(site);
        var lastSafe = firstError?.PlusDays(-LongestPass(timetable));
        var isBefore = !range.IsOpenEnded && timetable.Horizon.Until <= lastSafe;
        if (compilation.HasErrors && !isDespite && !isBefore) return Refuse(check, firstError!.Value, lastSafe!.Value, timetable.Horizon.From);
        var compiled = compilation.Over(timetable, range.IsOpenEnded);
        var revision = format is null ? null : SourceRevision.Of([.. check.Reading.Files.Select(read => read.Source)], _terminal.Surroundings);
        var options = compiled.Options(only, controller, revision);
        if (format is { } form && compiled.WhyNot(form, options) is { } reason) return Refuse(check, reason);
        if (isBefore && !isDespite)
            _terminal.Error.Line($"{check.Name}: the first error comes on {MomentWords.Date(firstError!.Value)}, after what is written.");
        else if (compilation.HasErrors)
        {
            _terminal.Error.Line(
                $"{check.Name}: {FindingSummary.Of(check.Findings)}. Written all the same, because of --despite-errors: what the errors are about may be " +
                "missing.");
        }


        void Write(Action<Stream> write) => output.Write(check.Reading.Files.Select(read => read.Source), write);
        if (format is { } document) Write(stream => WriteTimetable(compiled, document, options, stream));
        else WriteCalendar(timetable,
            _calendar.Read(parsed, site, controller, _terminal.Surroundings) with
            {
                IsOpenEnded = range.IsOpenEnded,
                Earlier = _calendar.Earlier(parsed, output, _terminal.Surroundings),
            },
            _calendar.IsDespiteSize(parsed), Write);
        return compilation.HasErrors && (isDespite || !isBefore) ? ExitCode.Findings : ExitCode.Success;
    }

    private int Refuse(CheckedSite check, string reason)
    {
        _terminal.Error.Line(
            $"{check.Name}: no list of switchings is written: {reason}. Nothing was written; --only runs and --only openings need no such list.");
        return ExitCode.Findings;
    }

    /// <summary>The date on which the first error happens; null where one is not about dates, so that no date is free of it.</summary>
    private static LocalDate? FirstErrorOf(CheckedSite check)
    {
        var errors = check.Findings.Where(finding => finding.Severity == Severity.Error).ToArray();
        return Array.TrueForAll(errors, error => error.Happens is not null) ? errors.Min(error => error.Happens!.First.Date) : null;
    }

    /// <summary>The days that a pass goes on after its date, at most: what happens on a date may belong to a pass of so many days before.</summary>
    private static int LongestPass(Timetable timetable) => timetable.Site.Schedules
        .Select(schedule => (int)((timetable.LongestSecondsOf(schedule.Index) + NodaConstants.SecondsPerDay - 1) / NodaConstants.SecondsPerDay))
        .Append(1).Max();

    /// <summary>Refuses dates with an error, and names those before it, where there are some.</summary>
    private int Refuse(CheckedSite check, LocalDate firstError, LocalDate lastSafe, LocalDate from)
    {
        var before = lastSafe > from
            ? $" The first error comes on {MomentWords.Date(firstError)}: days before it are written with --until {LocalDatePattern.Iso.Format(lastSafe)}."
            : "";
        _terminal.Error.Line($"{check.Name}: {FindingSummary.Of(check.Findings)}. Nothing was written.{before}");
        return ExitCode.Findings;
    }

    private int Refuse(CheckedSite check)
    {
        _terminal.Error.Line($"{check.Name}: {FindingSummary.Of(check.Findings)}. Nothing was written.");
        return ExitCode.Findings;
    }

    private static void WriteTimetable(CompiledTimetable timetable, OutputFormat format, OutputOptions options, Stream stream)
    {
        try
        {
            timetable.Write(format, options, stream);
        }
        catch (SwitchingContractException breach)
        {
            throw new CommandException($"the list of switchings ends here, without a hash: {breach.Message}");
        }
    }

    private void WriteCalendar(Timetable timetable, CalendarOptions options, bool isDespiteSize, Action<Action<Stream>> write)
    {
        var calendar = _terminal.During("Looking for series", () => CalendarFile.Of(timetable, options));
        if (calendar.IsEmpty)
            throw new CommandException($"there is no watering {CalendarVerdict.Days(timetable)}, and a calendar without an event is none; choose other dates");
        if (!isDespiteSize && calendar.IsOverLimit) throw new CommandException(CalendarVerdict.TooLarge(calendar, options));
        write(calendar.Write);
        _terminal.Note(CalendarVerdict.Of(calendar, timetable));
    }

    private static void RefuseWithCalendar(TimetableList? only)
    {
        if (only is not null) throw new CommandException("--only is for timetables; a calendar has events only");
    }

    /// <summary>The form of a timetable; null for a calendar.</summary>
    private static OutputFormat? FormatOf(CompileFormat? format) => format switch
    {
        CompileFormat.Yaml => OutputFormat.Yaml,
        CompileFormat.Json => OutputFormat.Json,
        CompileFormat.Csv => OutputFormat.Csv,
        CompileFormat.ICalendar => null,
        _ => throw new CommandException("say what to write: --to yaml, --to json, --to csv or --to icalendar"),
    };
}
