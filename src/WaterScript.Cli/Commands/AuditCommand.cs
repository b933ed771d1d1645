using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using NodaTime;
using WaterScript.Answers.Audit;
using WaterScript.Answers.Audit.Lists;
using WaterScript.Answers.Audit.Meters;
using WaterScript.Answers.Audit.Words;
using WaterScript.Cli.Commands.Auditing;
using WaterScript.Cli.Commands.Options;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Text.Lines;
using WaterScript.Timetables;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript audit FILE LOG.csv…</c>: what ran against what was meant.</summary>
internal sealed class AuditCommand
{
    private const int MostSeconds = 86_400;
    private const int MostPercent = 1_000;

    private readonly Terminal _terminal;
    private readonly Argument<string> _file =
        new("FILE") { Description = "The file with the site, a timetable in YAML that is deployed, or - for standard input." };
    private readonly Argument<string[]> _logs =
        new("LOG") { Description = "Logs as CSV, in any order, or - for standard input.", Arity = ArgumentArity.ZeroOrMore };
    private readonly Option<LogColumns?> _columns = OptionValues.Create(
        "--columns", "time=NAME,…", "Map your log's column names.", Columns);

    private readonly Option<int?> _tolerance = Seconds("--tolerance", "Allowed difference in start or length. Default: 60.");
    private readonly Option<int?> _silence = Seconds("--silence", "After so long without a row nothing is known. Default: 3600.");
    private readonly Option<int?> _volume = OptionValues.Number("--volume-tolerance", "PERCENT",
        "Allowed difference of metered water. Default: 20.", 0, MostPercent);

    private readonly Option<LocalDate?> _from = OptionValues.Date("--from", "First day of the list in the device, as in compile. Default: as there.");
    private readonly Option<LocalDate?> _until = OptionValues.Date("--until", "The first date that was not in that list.");
    private readonly Option<int?> _days = DateOptions.Days();
    private readonly Option<string[]?> _lists = new("--list")
    {
        HelpName = "LIST",
        Description = "A list that the device had, as compile wrote it; repeatable. Each row is compared with the list that it names, or that was due.",
        Arity = ArgumentArity.OneOrMore,
        AllowMultipleArgumentsPerToken = true,
    };

    private readonly Option<string[]?> _revisions = new("--revision")
    {
        HelpName = "REV",
        Description = "Take FILE as it is in this revision of git; repeatable, REV=FROM/UNTIL with the dates on which the device had it.",
        Arity = ArgumentArity.OneOrMore,
    };

    private readonly Option<string?> _meter = Arguments.Text("--meter", "READINGS",
        "Compare readings of water meters, as CSV, with what was planned. A period is unusual from 10 % and 1 m3.");

    private readonly Option<string?> _controller = Arguments.Text("--controller", "NAME",
        "The controller that wrote the log, where its rows do not name it; only its zones are compared.");

    private readonly Option<ReportForm?> _report = ReportOption.OfAnswer();
    private readonly Option<string?> _output = Arguments.Output();
    private readonly Option<string?> _root = Arguments.Root();

    private AuditCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new AuditCommand(terminal);
        var command = new Command("audit", "Compares the logs of a device with the timetable.")
        {
            self._file, self._logs, self._lists, self._revisions, self._columns, self._controller,
            self._tolerance, self._silence, self._volume, self._from, self._until, self._days,
            self._report, self._output, self._root, self._meter,
        };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var form = parsed.GetValue(_report) ?? ReportForm.Text;
        var output = OutputFile.Of(parsed.GetValue(_output), _terminal);
        var columns = parsed.GetValue(_columns) ?? LogColumns.Default;
        var options = new AuditOptions(
            parsed.GetValue(_tolerance) ?? AuditOptions.DefaultTolerance,
            parsed.GetValue(_silence) ?? AuditOptions.DefaultSilence,
            parsed.GetValue(_volume) ?? AuditOptions.DefaultVolumePercent);
        var listDates = DateOptions.Read(parsed.GetValue(_from), parsed.GetValue(_until), parsed.GetValue(_days), run: null, at: null);
        var meter = parsed.GetValue(_meter);
        CheckMeter(meter, parsed);
        if (parsed.GetValue(_logs)!.Append(parsed.GetValue(_file)).Append(meter).Count(path => path == SiteSource.Standard) > 1)
            throw new CommandException("only one of the files can be standard input");
        if (DeployedFile.IsMeant(parsed.GetValue(_file)!, _terminal)) return RunDeployed(parsed, columns, options, form, output);
        DatedRevision[] revisions = [.. (parsed.GetValue(_revisions) ?? []).Select(DatedRevision.Read)];
        if (revisions.Length > 1 || revisions.Any(revision => revision.IsDated)) return RunRevisions(parsed, revisions, columns, options, form, output);
        var source = OpenSite(parsed.GetValue(_file)!, revisions.FirstOrDefault(), parsed.GetValue(_root));
        if (SiteLoader.Read(source, _terminal) is not { } site) return ExitCode.CannotRun;
        using var texts = new LogTexts(_terminal);
        var readings = meter is null ? null : ReadingsOf(site, meter, texts);
        if (parsed.GetValue(_logs)!.Length == 0) return FinishMeters(site, readings!, source.Root, form, output);
        if (parsed.GetValue(_lists) is { Length: > 0 } lists)
        {
            GivenList[] given = [.. lists.Select(path => DeployedListFile.ReadFor(site, path, _terminal))];
            return RunLists(parsed, site, given, source.Root, columns, options with { Window = WindowOf(parsed, given) }, form, output);
        }

        var inDevice = listDates.TimetableOf(site);
        options = options with
        {
            Controller = ControllerOption.Of(site, parsed.GetValue(_controller)),
            Window = listDates.IsOpenEnded ? null : inDevice.Horizon,
        };
        var log = OpenLog(site, columns, options.Controller, parsed.GetValue(_logs)!, texts);
        var report = _terminal.During("Comparing", () => Auditor.Audit(site, log, options, inDevice));
        var meters = readings is null || report is null ? null
            : SiteLoader.Answer(site, "Adding up", () => MeterAudit.Of(site, readings, report), _terminal);
        return Finish(report, log, [source.Root], form, output, meters);
    }

    private void CheckMeter(string? meter, ParseResult parsed)
    {
        if (meter is null)
        {
            if (parsed.GetValue(_logs)!.Length == 0) throw new CommandException("audit needs FILE, LOG; or --meter with readings in place of a log");
            return;
        }

        if (DeployedFile.IsMeant(parsed.GetValue(_file)!, _terminal))
            throw new CommandException("--meter needs the file with the site, and this is a timetable");
        if (parsed.GetValue(_lists) is { Length: > 0 } || parsed.GetValue(_revisions) is { Length: > 0 })
            throw new CommandException("--meter compares readings with what the file plans; leave out --list and --revision");
    }

    private MeterReadings ReadingsOf(Site site, string path, LogTexts texts)
    {
        var file = path == SiteSource.Standard ? path : _terminal.Surroundings.Shown(path);
        var (readings, why) = ReadingsFile.Read(file, texts.Open(path), site, _terminal.Surroundings.Clock.GetCurrentInstant());
        if (readings is null) throw new CommandException(why);
        if (readings.PeriodCount > 0) return readings;
        throw new CommandException($"{file} has no two readings of one meter that can be used"
            + (readings.Bad is [var first, ..] ? string.Create(CultureInfo.InvariantCulture, $"; {first.Place.File}:{first.Place.Line}: {first.Why}") : ""));
    }

    private int FinishMeters(Site site, MeterReadings readings, SourceText root, ReportForm form, OutputFile output)
    {
        var meters = SiteLoader.Answer(site, "Adding up", () => MeterAudit.Of(site, readings, log: null), _terminal);
        output.Write([root], stream => Write(null, meters, form, stream));
        return meters.IsClear ? ExitCode.Success : ExitCode.Findings;
    }

    /// <summary>The site as it is, or as it was in a revision.</summary>
    private SiteSource OpenSite(string path, DatedRevision? revision, string? root) => revision is null
        ? SiteSource.Open(path, root, _terminal)
        : SiteSource.OpenVersion($"{revision.Revision}:{FromHere(path)}", root, _terminal);

    /// <summary>A path as git takes it behind a revision: from the current folder.</summary>
    private string FromHere(string path)
    {
        if (path == SiteSource.Standard) throw new CommandException("--revision needs the name of a file, not -");
        var surroundings = _terminal.Surroundings;
        return "./" + Path.GetRelativePath(surroundings.Here, surroundings.At(path)).Replace(Path.DirectorySeparatorChar, '/');
    }

    /// <summary>Audits against what the file meant in several revisions, each on its dates, and against lists besides.</summary>
    private int RunRevisions(
        ParseResult parsed, DatedRevision[] revisions, LogColumns columns, AuditOptions options, ReportForm form, OutputFile output)
    {
        var from = parsed.GetValue(_from);
        var until = parsed.GetValue(_until) ?? (parsed.GetValue(_days) is { } days ? from?.PlusDays(days) : null);
        if (new RevisionLists(FromHere(parsed.GetValue(_file)!), _terminal).Read(revisions, until) is not var (site, source, lists)) return ExitCode.CannotRun;
        lists.AddRange((parsed.GetValue(_lists) ?? []).Select(path => DeployedListFile.ReadFor(site, path, _terminal)));
        var isOpen = from is null && until is null && !revisions.All(revision => revision.Until is not null);
        var window = isOpen ? null : new Horizon(from ?? lists.Min(list => list.Dates.From), until ?? lists.Max(list => list.Dates.Until));
        if (window is not null && window.Until <= window.From) throw new CommandException("the last of these dates comes before the first");
        return RunLists(parsed, site, lists, source.Root, columns, options with { Window = window }, form, output);
    }

    /// <summary>Without other dates, all of those of the lists have to be seen.</summary>
    private Horizon WindowOf(ParseResult parsed, GivenList[] lists)
    {
        var from = parsed.GetValue(_from) ?? lists.Min(list => list.Dates.From);
        var until = parsed.GetValue(_until) ?? (parsed.GetValue(_days) is { } days ? from.PlusDays(days) : lists.Max(list => list.Dates.Until));
        return until > from ? new Horizon(from, until) : throw new CommandException("the last of these dates comes before the first");
    }

    /// <summary>Audits against lists.</summary>
    private int RunLists(
        ParseResult parsed, Site site, IReadOnlyList<GivenList> lists, SourceText root, LogColumns columns, AuditOptions options, ReportForm form,
        OutputFile output)
    {
        var controller = ControllerOption.Of(site, parsed.GetValue(_controller));
        using var texts = new LogTexts(_terminal);
        var log = OpenLog(site, columns, controller, parsed.GetValue(_logs)!, texts);
        var report = _terminal.During("Comparing", () => Auditor.Audit(site, lists, log, options with { Controller = controller }));
        return Finish(report, log, [root], form, output);
    }

    /// <summary>Audits against a timetable that is deployed, which says itself which dates it covers.</summary>
    private int RunDeployed(ParseResult parsed, LogColumns columns, AuditOptions options, ReportForm form, OutputFile output)
    {
        if ((parsed.GetValue(_from) ?? parsed.GetValue(_until)) is not null || parsed.GetValue(_days) is not null)
            throw new CommandException("a timetable says itself which dates it covers; leave out --from, --until and --days");
        if (parsed.GetValue(_lists) is { Length: > 0 } || parsed.GetValue(_revisions) is { Length: > 0 })
            throw new CommandException("--list and --revision need the file with the site, and this is a timetable");
        using var texts = new LogTexts(_terminal);
        var (report, log, file) = DeployedFile.Use(parsed.GetValue(_file)!, _terminal, deployed =>
        {
            var only = ControllerOption.Of(deployed.Site, parsed.GetValue(_controller)) ?? deployed.Controller;
            var log = OpenLog(deployed.Site, columns, only, parsed.GetValue(_logs)!, texts);
            return (_terminal.During("Comparing", () => Auditor.Audit(deployed, log, options with { Controller = only })), log, deployed.Source);
        });
        return Finish(report, log, [file], form, output);
    }

    private static int Finish(
        AuditReport? report, LogReader log, SourceText[] sources, ReportForm form, OutputFile output, MeterAudit? meters = null)
    {
        if (report is null)
            throw new CommandException("no row of the log could be used"
                + (log.Bad is [var first, ..] ? string.Create(CultureInfo.InvariantCulture, $"; {first.Place.File}:{first.Place.Line}: {first.Why}") : ""));
        output.Write(sources, stream => Write(report, meters, form, stream));
        return report.IsAsMeant && meters?.IsClear != false ? ExitCode.Success : ExitCode.Findings;
    }

    private LogReader OpenLog(Site site, LogColumns columns, Controller? controller, string[] files, LogTexts texts)
    {
        var log = new LogReader(site, columns, controller);
        foreach (var file in files)
        {
            if (log.Open(file == SiteSource.Standard ? file : _terminal.Surroundings.Shown(file), texts.Open(file)) is { } why) throw new CommandException(why);
        }

        return log;
    }

    /// <summary>What the log calls its columns; null, with what is wrong, where a column is none.</summary>
    private static LogColumns? Columns(ArgumentResult result)
    {
        LogColumns? columns = LogColumns.Default;
        foreach (var part in OptionValues.TextOf(result).Split(',', StringSplitOptions.RemoveEmptyEntries))
        {
            if (part.Split('=', 2) is not [var column, var name] || name.Trim().Length == 0)
            {
                result.AddError($"--columns needs pairs such as time=Zeit, not {UsageWords.Typed(part)}");
                return null;
            }

            columns = columns.With(column.Trim(), name.Trim());
            if (columns is not null) continue;
            var help = Spelling.Nearest(column, LogColumns.Known) is { } nearest
                ? $"did you mean {nearest}?"
                : $"there are: {string.Join(", ", LogColumns.Known)}";
            result.AddError($"--columns: no column \"{column}\"; {help}");
            return null;
        }

        return columns;
    }

    private static Option<int?> Seconds(string name, string description) =>
        OptionValues.Number(name, "SECONDS", description, 0, MostSeconds);

    /// <summary>What went through meters comes first, and then what the log says of each watering.</summary>
    private static void Write(AuditReport? report, MeterAudit? meters, ReportForm form, Stream stream)
    {
        if (form == ReportForm.Json) AuditJson.Write(report, meters, stream);
        else if (form == ReportForm.Markdown)
            MarkdownLines.WriteTo(stream, lines =>
            {
                if (meters is not null) MeterText.Write(meters, lines);
                if (report is not null) AuditText.Write(report, lines);
            });
        else
            PlainLines.WriteTo(stream, lines =>
            {
                if (meters is not null) MeterText.Write(meters, lines);
                if (meters is not null && report is not null) lines.Line();
                if (report is not null) AuditText.Write(report, lines);
            });
    }
}
