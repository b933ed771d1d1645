using System.CommandLine;
using NodaTime;
using NodaTime.TimeZones;
using WaterScript.Answers.Next;
using WaterScript.Cli.Files;
using WaterScript.Model;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript next FILE</c>: what is on now, what is held back and why, and what comes next.</summary>
internal sealed class NextCommand
{
    private const int DefaultCount = 10;
    private const int MostCount = 1_000;
    private const int MostDays = 31;
    private const int DaysOfPage = 7;
    private readonly Terminal _terminal;
    private readonly Argument<string> _file = new("FILE") { Description = "The file with the site, or - for standard input." };
    private readonly Option<LocalDateTime?> _at = OptionValues.Time("--at", "A moment by the site's clocks, in place of now: 2026-05-01T09:30.");
    private readonly Option<int?> _count = OptionValues.Number(
        "--count", "N", "The most waterings to come that are shown. Default: 10, or all of --days.", 1, MostCount);
    private readonly Option<int?> _days = OptionValues.Number(
        "--days", "N", "Look at so many dates, that of the moment included. Default: as far ahead as it takes; 7 for Markdown.", 1, MostDays);
    private readonly Option<ReportForm?> _report = ReportOption.OfAnswer();
    private readonly Option<string?> _root = Arguments.Root();

    private NextCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new NextCommand(terminal);
        var command = new Command("next", "Shows what is on now, what is held back and why, and what comes next.")
        {
            self._file, self._at, self._days, self._count, self._report, self._root,
        };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        if (SiteLoader.Read(SiteSource.Open(parsed.GetValue(_file)!, parsed.GetValue(_root), _terminal), _terminal) is not { } site) return ExitCode.Findings;
        var form = parsed.GetValue(_report);
        var days = parsed.GetValue(_days) ?? (form == ReportForm.Markdown ? DaysOfPage : null);
        var count = parsed.GetValue(_count) ?? (days is null ? DefaultCount : MostCount);
        var outlook = SiteLoader.Answer(site, "Looking ahead", () => Outlook.Of(site, InstantOf(parsed.GetValue(_at), site), count, days), _terminal);
        if (form == ReportForm.Json) OutlookJson.Write(outlook, _terminal.Output);
        else if (form == ReportForm.Markdown) MarkdownLines.WriteTo(_terminal.Output, lines => OutlookMarkdown.Write(outlook, count, lines));
        else OutlookText.Write(outlook, _terminal.Text);
        return ExitCode.Success;
    }

    private Instant InstantOf(LocalDateTime? at, Site site) => at is { } moment
        ? site.TimeZone.ResolveLocal(moment, Resolvers.LenientResolver).ToInstant()
        : _terminal.Surroundings.Clock.GetCurrentInstant();
}
