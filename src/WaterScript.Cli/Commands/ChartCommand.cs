using System.CommandLine;
using System.Globalization;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Documents.Charts.Years;
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
        1,
        Limits.ChartDays);
    private readonly Option<bool> _year = new("--year")
    {
        Description = "Draw a year, a vessel for each day, with totals by month and zone. It begins at --from; default: the first date of the site."
    };
    private readonly Option<string?> _sourceLink = new("--source-link")
    {
        HelpName = "ADDRESS",
        Description = "What bars lead to: an address with {line}, and {path} where there are several files, such as https://example.org/garden/{path}#L{line}."
    };
    private readonly Option<string?> _root = Arguments.Root();

    private static string MostDays => Limits.ChartDays.ToString(CultureInfo.InvariantCulture);

    private static string MostRuns => Limits.ChartRuns.ToString(CultureInfo.InvariantCulture);

    private ChartCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new ChartCommand(terminal);
        var command = new Command("chart", "Draws the watering of a site, from noon to noon.")
        {
            self._file, self._output, self._from, self._days, self._year, self._sourceLink, self._root,
        };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        _ = IsPage(parsed);
        if (parsed.GetValue(_year) && parsed.GetValue(_days) is not null) throw new CommandException("--year draws a year, --days some days; choose one");
        var options = new ChartOptions(LinkOf(parsed.GetValue(_sourceLink)));
        var output = OutputFile.Of(parsed.GetValue(_output), _terminal);
        var source = SiteSource.Open(parsed.GetValue(_file)!, parsed.GetValue(_root), _terminal);
        var check = _terminal.During("Checking", () => Compilation.OfReading(source.Root.Path, source.Read())).Check;
        new FindingPrinter(_terminal.Error).Print(check.Findings);
        if (check is not { Reading.Site: { } site, Lint: { } lint })
        {
            _terminal.Error.Line($"{check.Name}: {FindingSummary.Of(check.Findings)}. Nothing was drawn.");
            return ExitCode.Findings;
        }

        var (words, write) = parsed.GetValue(_year) ? YearOf(parsed, site, lint, options) : DaysOf(parsed, site, lint, options);
        output.Write(check.Reading.Files.Select(read => read.Source), write);
        // A terminal ends its lines where it likes; pages do not part a number.
        _terminal.Note($"{check.Name}: {words}".Replace('\u00A0', ' '));
        return check.Worst == Severity.Error ? ExitCode.Findings : ExitCode.Success;
    }

    /// <summary>What a picture of a year says in a line, and what writes it.</summary>
    private (string Words, Action<Stream> Write) YearOf(ParseResult parsed, Site site, LintReport lint, ChartOptions options)
    {
        var year = SiteLoader.Answer(site, "Drawing", () => Compilation.YearOf(site, lint, parsed.GetValue(_from) ?? site.Effective), _terminal);
        var words = new YearWords(year);
        return ($"{words.Dates}{words.Rest}", stream =>
        {
            if (IsPage(parsed)) YearPage.Write(year, options, stream);
            else SvgYear.Write(year, stream);
        }
        );
    }

    /// <summary>What a picture of some days says in a line, and what writes it.</summary>
    private (string Words, Action<Stream> Write) DaysOf(ParseResult parsed, Site site, LintReport lint, ChartOptions options)
    {
        var (from, days) = (parsed.GetValue(_from), parsed.GetValue(_days) ?? 1);
        var chart = SiteLoader.Answer(site, "Drawing", () => Drawn(site, lint, from, days), _terminal);
        return (ChartWords.Summary(chart), stream =>
        {
            if (IsPage(parsed)) HtmlChart.Write(chart, options, stream);
            else SvgChart.Write(chart, options, stream);
        }
        );
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

    private static string? LinkOf(string? pattern) => pattern is null || PictureLinks.IsPattern(pattern)
        ? pattern
        : throw new CommandException($"--source-link needs an address such as https://example.org/garden/{{path}}#L{{line}}, not {pattern}");

    /// <summary>Whether a page is to be written, not a picture of its own.</summary>
    private bool IsPage(ParseResult parsed) => Path.GetExtension(parsed.GetValue(_output))?.ToUpperInvariant() switch
    {
        ".SVG" => false,
        ".HTML" or ".HTM" => true,
        null => throw new CommandException($"write where to draw: -o NAME{Svg} for a document, -o NAME{Html} for a screen"),
        _ => throw new CommandException($"{parsed.GetValue(_output)}: use a name ending in {Svg} or {Html}"),
    };
}
