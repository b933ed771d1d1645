using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using NodaTime;
using WaterScript.Answers.Audit;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Text.Lines;

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
        new("LOG") { Description = "Logs as CSV, in any order, or - for standard input.", Arity = ArgumentArity.OneOrMore };
    private readonly Option<LogColumns?> _columns = OptionValues.Create(
        "--columns", "time=NAME,…", "Map your log's column names.", Columns);

    private readonly Option<int?> _tolerance = Seconds("--tolerance", "Allowed difference in start or length. Default: 60.");
    private readonly Option<int?> _silence = Seconds("--silence", "After so long without a row nothing is known. Default: 3600.");
    private readonly Option<int?> _volume = OptionValues.Number("--volume-tolerance", "PERCENT",
        "Allowed difference of metered water. Default: 20.", "number of percent", 0, MostPercent);

    private readonly Option<LocalDate?> _from = OptionValues.Date("--from", "First day of the list in the device, as in compile. Default: as there.");
    private readonly Option<LocalDate?> _until = OptionValues.Date("--until", "The first date that was not in that list.");
    private readonly Option<int?> _days = DateOptions.Days();
    private readonly Option<ReportForm?> _report = ReportOption.OfAnswer();
    private readonly Option<string?> _output = Arguments.Output();
    private readonly Option<string?> _root = Arguments.Root();

    private AuditCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new AuditCommand(terminal);
        var command = new Command("audit", "Says what ran, by the logs of a device, against what was meant.")
        {
            self._file, self._logs, self._columns, self._tolerance, self._silence, self._volume, self._from, self._until, self._days,
            self._report, self._output, self._root,
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
        if (parsed.GetValue(_logs)!.Append(parsed.GetValue(_file)).Count(path => path == SiteSource.Standard) > 1)
            throw new CommandException("only one of the files can be standard input");
        if (DeployedFile.IsMeant(parsed.GetValue(_file)!, _terminal)) return RunDeployed(parsed, columns, options, form, output);
        var source = SiteSource.Open(parsed.GetValue(_file)!, parsed.GetValue(_root), _terminal);
        if (SiteLoader.Read(source, _terminal) is not { } site) return ExitCode.CannotRun;
        var inDevice = listDates.TimetableOf(site);
        using var texts = new LogTexts(_terminal);
        var log = OpenLog(site, columns, parsed.GetValue(_logs)!, texts);
        var report = _terminal.During("Comparing", () => Auditor.Audit(site, log, options, inDevice));
        return Finish(report, log, [source.Root], form, output);
    }

    /// <summary>Audits against a timetable that is deployed, which says itself which dates it covers.</summary>
    private int RunDeployed(ParseResult parsed, LogColumns columns, AuditOptions options, ReportForm form, OutputFile output)
    {
        if ((parsed.GetValue(_from) ?? parsed.GetValue(_until)) is not null || parsed.GetValue(_days) is not null)
            throw new CommandException("a timetable says itself which dates it covers; leave out --from, --until and --days");
        using var texts = new LogTexts(_terminal);
        var (report, log, file) = DeployedFile.Use(parsed.GetValue(_file)!, _terminal, deployed =>
        {
            var log = OpenLog(deployed.Site, columns, parsed.GetValue(_logs)!, texts);
            return (_terminal.During("Comparing", () => Auditor.Audit(deployed, log, options)), log, deployed.Source);
        });
        return Finish(report, log, [file], form, output);
    }

    private static int Finish(AuditReport? report, LogReader log, SourceText[] sources, ReportForm form, OutputFile output)
    {
        if (report is null)
            throw new CommandException("no row of the log could be used"
                + (log.Bad is [var first, ..] ? string.Create(CultureInfo.InvariantCulture, $"; {first.Place.File}:{first.Place.Line}: {first.Why}") : ""));
        output.Write(sources, stream => Write(report, form, stream));
        return report.IsAsMeant ? ExitCode.Success : ExitCode.Findings;
    }

    private LogReader OpenLog(Site site, LogColumns columns, string[] files, LogTexts texts)
    {
        var log = new LogReader(site, columns);
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
                result.AddError($"\"{part}\" after --columns names no column; write it like time=Zeit");
                return null;
            }

            columns = columns.With(column.Trim(), name.Trim());
            if (columns is not null) continue;
            var help = Spelling.Nearest(column, LogColumns.Known) is { } nearest
                ? $"did you mean {nearest}?"
                : $"there are {string.Join(", ", LogColumns.Known)}";
            result.AddError($"\"{column}\" is not a column of a log for --columns; {help}");
            return null;
        }

        return columns;
    }

    private static Option<int?> Seconds(string name, string description) =>
        OptionValues.Number(name, "SECONDS", description, "number of seconds", 0, MostSeconds);

    private static void Write(AuditReport report, ReportForm form, Stream stream)
    {
        if (form == ReportForm.Json) AuditJson.Write(report, stream);
        else if (form == ReportForm.Markdown) MarkdownLines.WriteTo(stream, lines => AuditText.Write(report, lines));
        else PlainLines.WriteTo(stream, lines => AuditText.Write(report, lines));
    }
}
