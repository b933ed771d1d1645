using System.Collections.Immutable;
using NodaTime;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff.Costs;

/// <summary>Years of the calendar that a comparison has whole: to their last date, and from their first, or that on which a site becomes effective.</summary>
internal static class WholeYears
{
    /// <summary>Those years, in order.</summary>
    public static ImmutableArray<int> Of(Site old, Site @new, Horizon horizon)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        ArgumentNullException.ThrowIfNull(horizon);
        var effective = LocalDate.Min(old.Effective, @new.Effective);
        return [.. Enumerable.Range(horizon.From.Year, horizon.Until.Year - horizon.From.Year).Where(year =>
            effective.Year <= year && horizon.From <= LocalDate.Max(new LocalDate(year, 1, 1), effective))];
    }
}
