using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Linting.Rules.Description;

namespace WaterScript.Linting.Engine;

/// <summary>A part of what can go wrong, with the rules about it.</summary>
/// <param name="Name">As the verdict says it: <c>power</c>.</param>
/// <param name="Slugs">Its rules.</param>
public sealed record RuleCategory(string Name, ImmutableArray<string> Slugs)
{
    /// <summary>All of them, in the order in which the documentation lists them.</summary>
    public static ImmutableArray<RuleCategory> All { get; } =
    [
        new("reading the file", [.. ReadingRules.All.Select(rule => rule.Slug), AcceptUnused.Rule.Slug, "looks-like-wrong-unit", "unused", "never-watered"]),
        new("days and times",
        [
            "never-due", "skipped-time", "doubled-time", "no-sun-event", "same-moment", "no-pass", "zone-twice", "pass-overlap", "schedules-overlap",
            "change-too-close", "rest-too-short", "too-long-dry", "longer-than-longest", "shorter-than-shortest", "days-in-a-row",
            "cut-short", "cut-by-hold", "midday-watering", "ends-late", "short-run",
            "output-shared", "output-missing", "clocks-apart",
        ]),
        new("restrictions",
        [
            "outside-hours", "night-too-short", "forbidden-day", "too-many-days", "too-long-a-day", "too-deep-a-day", "zones-at-a-time",
        ]),
        new("water",
        [
            "flow-over-supply", "flow-under-minimum", "pump-alone", "injector-alone", "motor-starts", "tank-runs-dry", "daily-volume", "hammer", "vacuum-breaker-hours",
        ]),
        new("power",
        [
            "holding-over", "inrush-over", "pulse-too-soon", "store-too-small", "cannot-close-all", "wire-drop", "too-many-at-once", "switched-late",
        ]),
        new("plants and soil", ["runs-off", "soak-cut", "under-watered", "over-watered", "below-roots", "uneven-together", "frost-months"]),
    ];

    /// <summary>The area of a rule.</summary>
    public static RuleCategory Of(Rule rule)
    {
        ArgumentNullException.ThrowIfNull(rule);
        return All.First(category => category.Slugs.Contains(rule.Slug));
    }
}
