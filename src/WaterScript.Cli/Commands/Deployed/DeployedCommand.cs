using System.CommandLine;
using NodaTime;
using NodaTime.TimeZones;
using WaterScript.Answers.Deployed;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Model;

namespace WaterScript.Cli.Commands.Deployed;

/// <summary><c>waterscript deployed LIST… SITE</c>: which revision a list in a device is from, and what the file would give in its place today.</summary>
internal sealed class DeployedCommand
{
    private const int DefaultBack = 200;
    private const int MostBack = 10_000;

    private readonly Terminal _terminal;
    private readonly FileProblems _problems;
    private readonly Argument<string[]> _files = new("FILE")
    {
        HelpName = "LIST… SITE",
        Description = "Lists or timetables that were compiled, as YAML, JSON or CSV, then the file with the site.",
        Arity = new ArgumentArity(2, 10_000),
    };

    private readonly Option<int?> _back = OptionValues.Number("--back", "N", "The most revisions that are searched for a list. Default: 200.", 1, MostBack);
    private readonly Option<LocalDateTime?> _at = OptionValues.Time("--at", "A moment by the site's clocks, in place of now: 2026-05-01T09:30.");
    private readonly Option<ReportForm?> _report = ReportOption.TextOrJson();
    private readonly Option<string?> _root = Arguments.Root();

    private DeployedCommand(Terminal terminal) => (_terminal, _problems) = (terminal, new FileProblems(terminal));

    /// <summary>The command.</summary>
    public static Command Create(Terminal terminal)
    {
        var self = new DeployedCommand(terminal);
        var command = new Command("deployed", "Shows which revision a device's list is from, and how it differs from the file.")
        {
            self._files, self._back, self._at, self._report, self._root,
        };
        command.SetAction(self.Run);
        return command;
    }

    private int Run(ParseResult parsed)
    {
        var files = parsed.GetValue(_files)!;
        var source = SiteSource.Open(files[^1], parsed.GetValue(_root), _terminal);
        var reading = source.Read();
        if (SiteLoader.Read(source, _terminal) is not { } site) return ExitCode.CannotRun;
        var tracer = new ListTracer(site, [.. reading.Files.Select(file => file.Source)], parsed.GetValue(_back) ?? DefaultBack, _terminal);
        var lists = files[..^1].Select(path => _problems.Try(path, () => Trace(path, site, tracer))).OfType<TracedList>().ToList();
        if (lists.Count == 0) return ExitCode.CannotRun;
        var now = InstantOf(parsed.GetValue(_at), site).ToUnixTimeSeconds();
        var answer = new DeployedAnswer(
            site, source.Root.Path, tracer.OfFile, ListCover.InOrder(lists, now), ListCover.Of([.. lists], now));
        if (parsed.GetValue(_report) == ReportForm.Json) DeployedJson.Write(answer, _terminal.Output);
        else DeployedText.Write(answer, _terminal.Text);
        return _problems.StatusOr(answer.IsAsWritten ? ExitCode.Success : ExitCode.Findings);
    }

    private TracedList Trace(string path, Site site, ListTracer tracer)
    {
        var list = DeployedListFile.Read(path, _terminal);
        var dates = list.DatesIn(site.TimeZone);
        var shown = _terminal.Surroundings.Shown(path);
        if (Period.DaysBetween(dates.From, dates.Until) > Limits.HorizonDays)
            throw new CommandException($"{shown} is for more than {Limits.HorizonDays} days, which no list can be; compile it anew");
        try
        {
            var comparison = _terminal.During("Compiling", () => ListComparison.Of(list, site));
            return new TracedList(shown, comparison, _terminal.During("Searching revisions", () => tracer.Of(list)));
        }
        catch (SwitchingContractException breach)
        {
            throw new CommandException($"the file gives no list of switchings for these dates: {breach.Message}");
        }
    }

    private Instant InstantOf(LocalDateTime? at, Site site) => at is { } moment
        ? site.TimeZone.ResolveLocal(moment, Resolvers.LenientResolver).ToInstant()
        : _terminal.Surroundings.Clock.GetCurrentInstant();
}
