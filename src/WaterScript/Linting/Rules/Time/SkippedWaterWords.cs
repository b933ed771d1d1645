using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>What is due and does not come, added up for each cause.</summary>
internal static class SkippedWaterWords
{
    private const int MostLabels = 3;

    /// <summary>One finding for each line that takes watering away in one of the ways.</summary>
    public static IEnumerable<Finding> Findings(Rule rule, LintContext context, params SkipCause[] ways) =>
        context.Skipped.Water.Where(water => ways.Contains(water.By))
            .GroupBy(water => water.Origin)
            .Select(group => FindingFor(rule, [.. group], context));

    private static Finding FindingFor(Rule rule, IReadOnlyList<SkippedWatering> water, LintContext context)
    {
        var cause = CauseOf(water[0].By);
        var zones = string.Join(", ", water.Select(entry => entry.Zone.Name + Time(" ", entry.Seconds)));
        SkippedWatering[] unnamed = [.. water.Where(entry => entry.Follower is not null)];
        var finding = Finding.At(rule, water[0].Origin,
            $"{cause} skips {Phrases.Count(water.Sum(entry => entry.Runs), "run")}{Time(", ", water.Sum(entry => entry.Seconds), " of watering")}") with
        {
            Details = $"Not watered: {zones}.{Dry(water, unnamed.Length > 0)}",
            Happens = HappensOf(water, context),
            Excess = water.Sum(entry => entry.Seconds),
        };
        return unnamed.Length == 0 ? finding : Silencing(finding, cause, unnamed);
    }

    /// <summary>When the runs are due.</summary>
    private static Occurrences HappensOf(IReadOnlyList<SkippedWatering> water, LintContext context)
    {
        long[] moments = [.. water.SelectMany(entry => entry.Moments.All).Distinct().Order()];
        return new Occurrences(context.ClockAt(moments[0]), context.ClockAt(moments[^1]), water.Sum(entry => entry.Runs),
            moments.Select(context.DayOf).Distinct().Count())
        { Moments = moments };
    }

    /// <summary>What a line keeps dry that it does not name, because a schedule starts after another of which nothing is left.</summary>
    private static Finding Silencing(Finding finding, string cause, SkippedWatering[] unnamed)
    {
        Schedule[] followers = [.. unnamed.Select(entry => entry.Follower!).Distinct()];
        var zones = Phrases.Names([.. unnamed.Select(entry => entry.Zone.Name).Distinct()]);
        return finding with
        {
            Severity = Severity.Warning,
            Heading = $"{cause} also keeps {zones} dry for {Phrases.Length(unnamed.Max(entry => entry.LongestDry))}",
            Others = [.. followers.SelectMany(schedule => schedule.Starts.OfType<StartAfter>()).Take(MostLabels)
                .Select(after => new Label(after.Origin, $"does not start: nothing is left of {after.Other}"))],
            Help = $"Give {Phrases.Names([.. FirstOf(followers).Select(schedule => schedule.Name)])} a start of its own, or accept it.",
        };
    }

    /// <summary>Those that do not only start after another of them.</summary>
    private static IEnumerable<Schedule> FirstOf(Schedule[] followers) => followers.Where(
        schedule => schedule.Starts.OfType<StartAfter>().Any(after => Array.TrueForAll(followers, other => other.Name != after.Other)));

    /// <summary>A time that is not nothing: of a watering that scale brings to 0 s there is none to name.</summary>
    private static string Time(string before, long seconds, string after = "") => seconds == 0 ? "" : $"{before}{Phrases.Length(seconds)}{after}";

    /// <summary>How long each zone is dry because of it. In a closed season that is what it is for, and a cut or scale mostly leaves some water.</summary>
    private static string Dry(IReadOnlyList<SkippedWatering> water, bool isSilencing) => water[0].By == SkipCause.Hold || isSilencing
        ? $"\nLongest dry: {string.Join("; ", water.GroupBy(entry => entry.LongestDry).Select(zones => DryTogether([.. zones])))}."
        : "";

    /// <summary><c>lawn, beds 95 h 50 min</c></summary>
    private static string DryTogether(SkippedWatering[] zones) =>
        $"{string.Join(", ", zones.Select(entry => entry.Zone.Name))} {Phrases.Length(zones[0].LongestDry)}";

    private static string CauseOf(SkipCause cause) => cause switch
    {
        SkipCause.Hold => "hold",
        SkipCause.ClosedSeason => "closed season",
        SkipCause.Cut => "`cut off`",
        SkipCause.Restriction => "restriction",
        _ => "scale",
    };
}
