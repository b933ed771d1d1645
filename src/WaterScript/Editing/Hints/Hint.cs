using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Editing.Cards;
using WaterScript.Editing.Nights;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Editing.Hints;

/// <summary>What a line comes to on the date of the next pass, shown at its end.</summary>
/// <param name="Offset">The end of the statement.</param>
/// <param name="Words">What is shown.</param>
/// <param name="IsEnd">Whether it is about an end, not an amount.</param>
internal sealed record Hint(int Offset, string Words, bool IsEnd)
{
    /// <summary>What is shown when somebody points at it; null for nothing more.</summary>
    public Card? More { get; init; }
}

/// <summary>Finds the hints of a file.</summary>
internal sealed class HintFinder
{
    /// <summary>A longer line has no room for one.</summary>
    private const int LongestLine = 100;

    private readonly EditedSite _site;
    private readonly SiteNights _nights;
    private readonly NightWords _words;
    private readonly SourceText _source;
    private readonly StepCards _steps;

    private HintFinder(EditedSite site, SiteNights nights, NightWords words, SourceText source) =>
        (_site, _nights, _words, _source, _steps) = (site, nights, words, source, new StepCards(nights, words, source));

    /// <summary>The hints in a stretch of a file, at most one a line; none where reading the site gave an error.</summary>
    public static IEnumerable<Hint> In(EditedSite site, FileNode file, TextSpan span)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(file);
        if (site is not { Nights: { Next: not null } nights, Words: { } words }) return [];
        var finder = new HintFinder(site, nights, words, file.Source);
        return file.Statements.Where(statement => statement.Span.Start <= span.End && span.Start <= statement.Span.End).SelectMany(finder.Of)
            .Where(hint => hint.Words.Length > 0 && hint.Offset >= span.Start && hint.Offset <= span.End && finder.IsShort(hint.Offset))
            .DistinctBy(hint => file.Source.PositionOf(hint.Offset).Line);
    }

    private bool IsShort(int offset) => _source.LineSpan(_source.PositionOf(offset).Line).Length <= LongestLine;

    private IEnumerable<Hint> Of(StatementNode statement) => statement switch
    {
        ScheduleNode schedule => [.. schedule.Body.OfType<StepsNode>().SelectMany(steps => InSteps(steps.Steps)),
            .. schedule.Body.Where(line => line is StartAtNode or FinishByNode or StartAfterNode).Select(line => OfStart(schedule, line)).OfType<Hint>()],
        SequenceNode sequence => InSteps(sequence.Steps),
        ExtraNode extra => InSteps(extra.Steps),
        _ => [],
    };

    /// <summary>Steps nest no deeper than the parser lets them.</summary>
    private IEnumerable<Hint> InSteps(ImmutableArray<StepNode> steps) => steps.SelectMany(step => step switch
    {
        WaterNode water => OfWater(water) is { } hint ? [hint] : [],
        TogetherNode together => InSteps(together.Waters.CastArray<StepNode>()),
        RepeatStepsNode repeat => InSteps(repeat.Steps),
        CycleNode cycle => InSteps(cycle.Steps),
        _ => Enumerable.Empty<Hint>(),
    });

    /// <summary>When a pass of the night is over, or when it begins where its end is written.</summary>
    private Hint? OfStart(ScheduleNode node, StatementNode line)
    {
        if (_nights.Site.Schedules.FirstOrDefault(each => each.Name == node.Name.Text) is not { } schedule
            || _nights.NextOf(schedule) is not { } day) return null;
        var start = schedule.Starts.FirstOrDefault(each => ReferenceEquals(each.Origin.Source, _source) && line.Span.Contains(each.Origin.Span));
        var runs = _nights.RunsOn(day).Where(run => run.Run.Schedule == schedule.Index && run.Run.StartNumber == start?.Number).ToList();
        if (runs.Count == 0) return null;
        var pass = runs.Where(run => run.Run.IsInPassOf(runs[0].Run)).ToList();
        var (from, to) = (pass[0].Run.PassStart, pass.Max(run => run.Run.End));
        var isByClock = start is StartAt { Moment: ClockMoment };
        var date = day == _nights.Next ? "" : NightWords.ShortDay(day) + " ";
        return new Hint(line.Span.End, $"{date}{(isByClock ? $"to {_words.Time(to)}" : _words.Span(from, to))}", IsEnd: true)
        {
            More = new LineCards(_site, _nights, _words, _source).Of(node, line),
        };
    }

    private Hint? OfWater(WaterNode node)
    {
        var (runs, day) = _steps.RunsIn(node.Span);
        if (runs.Count == 0) return null;
        var date = day == _nights.Next ? "" : NightWords.ShortDay(day) + ": ";
        return new Hint(node.Span.End, date + Amounts(node, runs, day), IsEnd: false) { More = _steps.Of(node) };
    }

    private string Amounts(WaterNode node, List<NightRun> runs, int day)
    {
        var passes = _nights.RunsOn(day).Where(run => run.Run.Schedule == runs[0].Run.Schedule && run.Step == runs[0].Step)
            .Select(run => (run.Run.StartNumber, run.Run.Pass)).Distinct().Count();
        var zones = runs.GroupBy(run => _nights.Site.Zones[run.Run.Zone]).Select(zone => (Zone: zone.Key, Seconds: zone.Sum(run => run.Run.Seconds))).ToList();
        var litres = _words.Litres(NightSums.Litres(runs, _nights.Site));
        var times = passes > 1 ? string.Create(CultureInfo.InvariantCulture, $"{passes} × ") : "";
        if (zones is [var only])
        {
            var isTimeMissing = node.With is not null;
            var first = isTimeMissing ? Wording.Phrases.Length(only.Seconds) : null;
            var depth = isTimeMissing ? null : _words.Depth(only.Zone.MillimetresPerHour * only.Seconds / 3600);
            return times + string.Join(", ", new[] { first, litres, depth }.OfType<string>());
        }

        if (litres is null || node.Zones.Parts.Length == 1) return litres is null ? "" : times + litres;
        var each = zones.Select(zone => $"{zone.Zone.Name} {_words.Litres(zone.Zone.LitresPerMinute * zone.Seconds / 60)?.Split(' ')[0]}");
        return $"{times}{litres} ({string.Join(", ", each)})";
    }
}
