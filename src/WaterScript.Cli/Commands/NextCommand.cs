using System.CommandLine;
using NodaTime;
using NodaTime.TimeZones;
using WaterScript.Answers.Next;
using WaterScript.Cli.Files;
using WaterScript.Model;

namespace WaterScript.Cli.Commands;

/// <summary><c>waterscript next FILE</c>: what is on now, what is held back and why, and what comes next.</summary>
internal sealed class NextCommand
{
    private const int DefaultCount = 10;
    private const int MostCount = 1_000;
    private readonly Terminal _terminal;
    private readonly Argument<string> _file = new("FILE") { Description = "The file with the site, or - for standard input." };
    private readonly Option<LocalDateTime?> _at = OptionValues.Time("--at", "A moment by the site's clocks, in place of now: 2026-05-01T09:30.");
    private readonly Option<int?> _count = OptionValues.Number(
        "--count", "N", "The most waterings to come that are shown. Default: 10.", 1, MostCount);
    private readonly Option<ReportForm?> _report = ReportOption.TextOrJson();
    private readonly Option<string?> _root = Arguments.Root();

    private NextCommand(Terminal terminal) => _terminal = terminal;

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new NextCommand(terminal);
        var command = new Command("next", "Shows what is on now, what is held back and why, and what comes next.")
        {
            self._file, self._at, self._count, self._report, self._root,
        };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        if (SiteLoader.Read(SiteSource.Open(parsed.GetValue(_file)!, parsed.GetValue(_root), _terminal), _terminal) is not { } site) return ExitCode.Findings;
        var outlook = SiteLoader.Answer(site, "Looking ahead",
            () => Outlook.Of(site, InstantOf(parsed.GetValue(_at), site), parsed.GetValue(_count) ?? DefaultCount), _terminal);
        if (parsed.GetValue(_report) == ReportForm.Json) OutlookJson.Write(outlook, _terminal.Output);
        else OutlookText.Write(outlook, _terminal.Text);
        return ExitCode.Success;
    }

    private Instant InstantOf(LocalDateTime? at, Site site) => at is { } moment
        ? site.TimeZone.ResolveLocal(moment, Resolvers.LenientResolver).ToInstant()
        : _terminal.Surroundings.Clock.GetCurrentInstant();
}
