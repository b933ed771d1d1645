using System.CommandLine;
using System.Globalization;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript chart FILE -o PATH.svg</c>: draws the watering of a site.</summary>
internal sealed class ChartCommand
{
    private const string Svg = ".svg";
    private const string Html = ".html";
    private readonly Terminal _terminal;
    private readonly Argument<string> _file = new("FILE") { Description = "The file with the site, or - for standard input." };
    private readonly Option<string?> _output =
        new("--output", "-o")
        {
            HelpName = "PATH",
            Description = "The picture: PATH.svg for documents, PATH.html to look at on a screen. It is never half-written."
        };
    private readonly Option<LocalDate?> _from = OptionValues.Date("--from", "Begin at noon of this date. Default: the first noon after which there is water.");
    private readonly Option<int?> _days = OptionValues.Number(
        "--days",
        "N",
        $"So many days, each from noon to noon, 1 to {MostDays}; a picture shows up to {MostRuns} runs. Default: 1.",
        "number of days",
        1,
        Limits.ChartDays);
    private readonly Option<string?> _root = Arguments.Root();

    private static string MostDays => Limits.ChartDays.ToString(CultureInfo.InvariantCulture);

    private static string MostRuns => Limits.ChartRuns.ToString(CultureInfo.InvariantCulture);

    private ChartCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new ChartCommand(terminal);
        var command = new Command("chart", "Draws the watering of a site, from noon to noon.") { self._file, self._output, self._from, self._days, self._root };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var write = WriterFor(parsed.GetValue(_output));
        var output = OutputFile.Of(parsed.GetValue(_output), _terminal);
        var source = SiteSource.Open(parsed.GetValue(_file)!, parsed.GetValue(_root), _terminal);
        var check = _terminal.During("Checking", () => Compilation.OfReading(source.Root.Path, source.Read())).Check;
        new FindingPrinter(_terminal.Error).Print(check.Findings);
        if (check is not { Reading.Site: { } site, Lint: { } lint })
        {
            _terminal.Error.Line($"{check.Name}: {FindingSummary.Of(check.Findings)}. Nothing was drawn.");
            return ExitCode.Findings;
        }

        var (from, days) = (parsed.GetValue(_from), parsed.GetValue(_days) ?? 1);
        var chart = SiteLoader.Answer(site, "Drawing", () => Drawn(site, lint, from, days), _terminal);
        output.Write(check.Reading.Files.Select(read => read.Source), stream => write(chart, stream));
        _terminal.Note($"{check.Name}: {ChartWords.Summary(chart)}");
        return check.Worst == Severity.Error ? ExitCode.Findings : ExitCode.Success;
    }

    private static Chart Drawn(Site site, LintReport lint, LocalDate? from, int days)
    {
        try
        {
            return Compilation.ChartOf(site, lint, SpanOf(site, from, days));
        }
        catch (ChartTooLargeException)
        {
            throw new CommandException(string.Create(
                CultureInfo.InvariantCulture, $"there are more than the {Limits.ChartRuns} runs that a chart can show; choose fewer --days"));
        }
    }

    private static ChartSpan SpanOf(Site site, LocalDate? from, int days)
    {
        if (from is { } first) return new ChartSpan(first, days);
        return ChartSpan.FromFirstWater(site, days)
            ?? throw new CommandException($"{site.DisplayName} has no watering with dates to draw; write --from DATE to draw empty days");
    }

    private static Action<Chart, Stream> WriterFor(string? path) => Path.GetExtension(path)?.ToUpperInvariant() switch
    {
        ".SVG" => SvgChart.Write,
        ".HTML" or ".HTM" => HtmlChart.Write,
        null => throw new CommandException($"write where to draw: -o NAME{Svg} for a document, -o NAME{Html} for a screen"),
        _ => throw new CommandException($"{path}: use a name ending in {Svg} or {Html}"),
    };
}
