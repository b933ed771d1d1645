using System.Collections.Immutable;
using WaterScript.Agronomy;
using WaterScript.Calendars;
using WaterScript.Editing.Nights;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Editing.Cards;

/// <summary>What a step does on the date on which it comes next.</summary>
/// <param name="nights">What the site waters.</param>
/// <param name="words">How amounts are said.</param>
/// <param name="source">The file.</param>
internal sealed class StepCards(SiteNights nights, NightWords words, SourceText source)
{
    /// <summary>The card of a step that waters; null for one that is in no schedule, or does not come within a year.</summary>
    public Card? Of(WaterNode node)
    {
        var (runs, day) = RunsIn(node.Span);
        if (runs.Count == 0) return NotWatered(node);
        var schedule = nights.Site.Schedules[runs[0].Run.Schedule];
        var title = DisplayLine.CleanLine(source.Slice(node.Span));
        var percent = ScaleTable.For(schedule, nights.Site).PercentOn(day);
        var step = runs[0].Step;
        return Card.Of(FirstWord(node), title, $", step {runs[0].Path} of {schedule.Name}",
            step.With is { } amount && ZonesOf(step) is [var zone] ? Sum(amount, zone) : null,
            OnDay(runs, day, percent, step), ByZone(runs, step), percent == 100 || step.For is null ? null : AtAll(step));
    }

    /// <summary>The card of waterings that are cut into pieces.</summary>
    public Card? Of(CycleNode node)
    {
        var (runs, day) = RunsIn(node.Span);
        if (runs.Count == 0) return null;
        var schedule = nights.Site.Schedules[runs[0].Run.Schedule];
        var head = source.Slice(TextSpan.FromBounds(node.Span.Start, source.Text.IndexOf('{', node.Span.Start)));
        var path = runs[0].Path.Split('#')[0]; // behind it stands which piece it is
        return Card.Of(FirstWord(node), DisplayLine.CleanLine(head).Trim(),
            $", step {path} of {schedule.Name}, {NightWords.Date(day)}{Share(ScaleTable.For(schedule, nights.Site).PercentOn(day))}",
            string.Join("; ", runs.GroupBy(run => run.Run.Zone).Select(zone => Pieces(nights.Site.Zones[zone.Key], [.. zone.Select(run => run.Run.Seconds)]))),
            Order(runs), Whole(runs));
    }

    /// <summary>The card of what an injector doses in a step; null where that does not come within a year.</summary>
    public Card? OfDose(WaterNode node)
    {
        var (runs, day) = RunsIn(node.Span);
        if (runs.Count == 0 || node.Through?.Injector is not { } by
            || nights.Site.Devices.FirstOrDefault(device => device.Name == by.Text) is not { } injector) return null;
        var (from, to) = (runs[0].Run.Start, runs.Max(run => run.Run.End));
        var date = CivilDate.FromDayNumber(day).ToLocalDate();
        var timetable = Timetable.Of(nights.Site, new Horizon(date.PlusDays(-1), date.PlusDays(2)), nights.Budget());
        var doses = timetable.Openings().Where(opening => opening.Device == injector.Index && opening.From < to && opening.To > from).ToList();
        if (doses.Count == 0) return null;
        var (first, last) = (doses[0].From, doses[^1].To);
        var word = source.Text.LastIndexOf("through", by.Span.Start, StringComparison.Ordinal);
        return Card.Of(new TextSpan(word, "through".Length), $"through {by.Text}",
            $": doses {Phrases.Length(doses.Sum(dose => dose.Seconds))} of {Phrases.Length(to - from)}, {Phrases.Length(first - from)} after the start, "
                + $"{Phrases.Length(Math.Max(0, to - last))} of rinse",
            $"Next: {words.Night(first, last)}");
    }

    /// <summary>The runs of what stands in a stretch, in the pass of the date on which it comes next.</summary>
    public (List<NightRun> Runs, int Day) RunsIn(TextSpan span)
    {
        foreach (var day in nights.Site.Schedules.Select(nights.NextOf).OfType<int>().Distinct().Order())
        {
            var all = nights.RunsOn(day).Where(run => ReferenceEquals(run.Step.Origin.Source, source) && span.Contains(run.Step.Origin.Span)).ToList();
            if (all.Count == 0) continue;
            var first = all.Find(run => run.Run.End > nights.Now) is { Step: not null } coming ? coming : all[0];
            return ([.. all.Where(run => run.Run.IsInPassOf(first.Run))], day);
        }

        return ([], 0);
    }

    /// <summary>Of a watering beside others that have the word of the step, its first zone.</summary>
    private static TextSpan FirstWord(StepNode node) => node switch
    {
        WaterNode { Zones: var zones } when zones.Span.Start == node.Span.Start => zones.Parts[0].Names[0].Span,
        _ => new(node.Span.Start, node is CycleNode ? "cycle".Length : "water".Length),
    };

    private Card? NotWatered(WaterNode node)
    {
        var origin = new Location(source, node.Span);
        var isKnown = nights.Site.Schedules.Where(schedule => !schedule.IsManual).SelectMany(Answers.WaterSteps.Of).Any(step => step.Origin == origin);
        return isKnown ? Card.Of(FirstWord(node), DisplayLine.CleanLine(source.Slice(node.Span)), "",
            $"Not watered before {MomentWords.Date(nights.LookedUntil)}") : null;
    }

    private static ImmutableArray<Zone> ZonesOf(WaterStep step) => [.. step.Parts.SelectMany(part => part.Zones).Distinct()];

    private static string Share(decimal percent) => percent == 100 ? "" : $", at {Phrases.Number(percent, percent == Math.Floor(percent) ? 0 : 1)} %";

    private string OnDay(List<NightRun> runs, int day, decimal percent, WaterStep step)
    {
        var (from, to) = (runs[0].Run.Start, runs.Max(run => run.Run.End));
        var amount = ZonesOf(step) is [var zone] ? words.Amount(zone, runs.Sum(run => run.Run.Seconds)) : "";
        var more = amount.Length > 0 ? ", " + amount : "";
        return $"{NightWords.Date(day)}{Share(percent)}: {words.Span(from, to)}, {Phrases.Length(to - from)}{more}{FlowOf(step)}";
    }

    /// <summary>Of zones that are on together.</summary>
    private static string FlowOf(WaterStep step)
    {
        if (step.Parts is not [{ Zones: [{ Supply.Flow: { } limit }, _, ..] zones }] || zones.Any(zone => zone.LitresPerMinute is null)) return "";
        return $"; {Phrases.Bare(Phrases.Amount(zones.Sum(zone => zone.LitresPerMinute!.Value), limit.Value.Unit, 1))} of {limit.Value}";
    }

    private string? ByZone(List<NightRun> runs, WaterStep step) => ZonesOf(step).Length < 2 ? null : string.Join("; ", runs.GroupBy(run => run.Run.Zone)
        .Select(zone => $"{nights.Site.Zones[zone.Key].Name} {words.Amount(nights.Site.Zones[zone.Key], zone.Sum(run => run.Run.Seconds))}".Trim()));

    private string AtAll(WaterStep step)
    {
        var seconds = (long)step.For!.Value.TotalSeconds;
        var zones = ZonesOf(step).Select(zone => $"{zone.Name} {words.Amount(zone, (long)Math.Round(seconds * zone.TrimPercent / 100))}".Trim());
        return $"At 100 %: {Phrases.Length(seconds)}; {string.Join("; ", zones)}";
    }

    /// <summary>How a time follows from an amount.</summary>
    private string? Sum(Quantity amount, Zone zone)
    {
        if (RunTime.SecondsFor(amount, zone) is not { } seconds) return null;
        var result = $"= {Phrases.Length((long)Math.Round(seconds))}{(words.Litres(zone.LitresPerMinute * seconds / 60) is { } litres ? ", " + litres : "")}";
        if (amount.Dimension == Dimension.Volume) return $"{amount} ÷ {zone.Flow?.ToString() ?? words.Flow(zone.LitresPerMinute!.Value)} {result}";
        var rate = words.Rate(zone.MillimetresPerHour)!;
        var from = zone is { Rate: null, Flow: { } flow, Area: { } area } ? $" ({flow} on {area})" : "";
        var share = Uniformity.ShareThatCounts(zone);
        return share == 100
            ? $"{amount} ÷ {rate}{from} {result}{(zone.EfficiencyPercent is null && zone.UniformityPercent is null ? "; no efficiency given" : "")}"
            : $"{amount} ÷ ({rate} × {Phrases.Number(share, share == Math.Floor(share) ? 0 : 1)} %){from} {result}";
    }

    private static string Pieces(Zone zone, long[] pieces)
    {
        var trim = zone.WrittenTrim is { } share ? $" (trim {Phrases.Number(share.Value, 0)} %)" : "";
        var sum = pieces.Length == 1 ? "" : pieces.Distinct().Count() == 1
            ? $" = {pieces.Length} × {Phrases.Length(pieces[0])}"
            : $" = {string.Join(" + ", pieces.Select(Phrases.Length))}";
        return $"{zone.Name}{trim} {Phrases.Length(pieces.Sum())}{sum}";
    }

    private string Order(List<NightRun> runs)
    {
        const int most = 8;
        var last = runs[^1].Run;
        var shown = runs.Take(Math.Min(most, runs.Count) - 1).Select(run => $"{words.Time(run.Run.Start)} {nights.Site.Zones[run.Run.Zone].Name}");
        return string.Join(", ", [.. shown, .. runs.Count > most ? ["…"] : Array.Empty<string>(),
            $"{words.Span(last.Start, last.End)} {nights.Site.Zones[last.Zone].Name}"]);
    }

    private static string Whole(List<NightRun> runs)
    {
        var (from, to) = (runs[0].Run.Start, runs.Max(run => run.Run.End));
        var (wet, until) = (0L, from);
        foreach (var run in runs)
        {
            wet += Math.Max(0, run.Run.End - Math.Max(until, run.Run.Start));
            until = Math.Max(until, run.Run.End);
        }

        return to - from == wet ? Phrases.Length(wet) : $"{Phrases.Length(to - from)}, of which {Phrases.Length(to - from - wet)} without water";
    }
}
