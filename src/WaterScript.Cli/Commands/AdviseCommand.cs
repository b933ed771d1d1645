using System.CommandLine;
using NodaTime;
using WaterScript.Answers.Advise;
using WaterScript.Binding;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript advise FILE</c>: says what the zones need and how long that would take.</summary>
internal sealed class AdviseCommand
{
    private readonly Terminal _terminal;
    private readonly Argument<string> _file = new("FILE") { Description = "The file with the site, or - for standard input." };
    private readonly Option<ReportForm?> _report = ReportOption.TextOrJson();
    private readonly Option<LocalDate?> _from = OptionValues.Date("--from", "First date to look at. Default: the site's effective date.");
    private readonly Option<string?> _output = Arguments.Output();
    private readonly Option<string?> _root = Arguments.Root();

    private AdviseCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new AdviseCommand(terminal);
        var command = new Command("advise", "Shows how much each zone needs by month, from climate, soil and plants.") { self._file, self._report, self._from,
            self._output, self._root };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var output = OutputFile.Of(parsed.GetValue(_output), _terminal);
        var source = SiteSource.Open(parsed.GetValue(_file)!, parsed.GetValue(_root), _terminal);
        var reading = _terminal.During("Reading", source.Read);
        new FindingPrinter(_terminal.Error).Print(reading.Findings);
        if (reading.Site is not { } site || reading.Findings.Any(finding => finding.Severity == Severity.Error)) return Refuse(source, reading);
        var advice = SiteLoader.Answer(site, "Calculating", () => WateringAdvice.Of(site, parsed.GetValue(_from)), _terminal);
        output.Write(reading.Files.Select(read => read.Source), stream => Write(advice, parsed.GetValue(_report) == ReportForm.Json, stream));
        return ExitCode.Success;
    }

    private int Refuse(SiteSource source, SiteReading reading)
    {
        _terminal.Error.Line($"{reading.Site?.DisplayName ?? source.Root.Path}: {FindingSummary.Of(reading.Findings)}. Nothing was calculated.");
        return ExitCode.Findings;
    }

    private static void Write(WateringAdvice advice, bool isJson, Stream stream)
    {
        if (isJson) AdviceJson.Write(advice, stream);
        else PlainLines.WriteTo(stream, lines => lines.Page(AdviceTable.Of(advice)));
    }
}
