using System.Collections.Immutable;

namespace WaterScript.Diagnostics;

public static partial class Rules
{
    /// <summary>Slugs of rules that are not checked yet. A file may already accept them; it is told by <c>check</c> that nothing was checked.</summary>
    public static ImmutableArray<string> ToCome =>
    [
        "looks-like-wrong-unit", "unused", "never-watered", "accept-unused",
        "zone-twice", "pass-overlap", "schedules-overlap", "outside-hours", "forbidden-day", "too-many-days", "too-long-a-day",
        "too-deep-a-day", "zones-at-a-time", "night-too-short", "change-too-close", "rest-too-short", "too-long-dry",
        "longer-than-longest", "days-in-a-row", "midday-watering", "ends-late", "short-run", "output-shared", "output-missing",
        "clocks-apart",
        "flow-over-supply", "flow-under-minimum", "pump-alone", "injector-alone", "motor-starts", "tank-runs-dry", "daily-volume",
        "hammer", "vacuum-breaker-hours",
        "holding-over", "inrush-over", "pulse-too-soon", "store-too-small", "cannot-close-all", "wire-drop", "too-many-at-once",
        "runs-off", "under-watered", "over-watered", "below-roots", "uneven-together", "frost-months",
    ];
}
