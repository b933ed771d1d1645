using System.Collections.Immutable;
using WaterScript.Answers.Diff.Written;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff.Devices;

/// <summary>What devices do otherwise in two versions.</summary>
/// <param name="IsWiringChanged">Whether outputs, how they are switched, or what runs because of what are others.</param>
/// <param name="Outputs">What opens or closes otherwise: by name, how many openings only one of the versions has.</param>
/// <param name="First">When the first of them begins, in Unix seconds; null where all are the same.</param>
internal sealed record DeviceChanges(bool IsWiringChanged, ImmutableSortedDictionary<string, long> Outputs, long? First)
{
    /// <summary>Openings are more work than the runs that they come from, and are to be compared as far as those.</summary>
    private const int Shares = 3;

    /// <summary>Nothing is compared.</summary>
    public static DeviceChanges None { get; } = new(IsWiringChanged: false, ImmutableSortedDictionary<string, long>.Empty, First: null);

    /// <summary>Whether a device does anything else than it did.</summary>
    public bool IsChanged => IsWiringChanged || First is not null;

    /// <summary>Where the comparison ended before its last date; null where it did not.</summary>
    public ComparedInPart? InPart { get; private init; }

    /// <summary>Compares two versions opening by opening; with the same wiring the same openings are switched in the same way.</summary>
    public static DeviceChanges Of(Site old, Site @new, Horizon horizon, Renames names)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        ArgumentNullException.ThrowIfNull(horizon);
        var isWiringChanged = !Wiring.Of(old, names).SequenceEqual(Wiring.Of(@new, null));
        using var before = SideOf(old, names, horizon);
        using var after = SideOf(@new, null, horizon);
        var differing = new Dictionary<string, long>(StringComparer.Ordinal);
        long? first = null;
        var second = new ZoneClock(@new.TimeZone).StartOfDay(CivilDate.DayNumberOf(horizon.From));
        ComparedInPart? part = null;
        try
        {
            before.Advance();
            after.Advance();
            while (before.Next != long.MaxValue || after.Next != long.MaxValue)
            {
                second = Math.Min(before.Next, after.Next);
                if (Count(before.Take(second), after.Take(second), differing)) first ??= second;
            }
        }
        catch (WorkUsedUpException)
        {
            var side = before.Budget.IsUsedUp ? before : after;
            part = ComparedInPart.At(second, side.Count, side.Budget, side.Site);
        }

        return new DeviceChanges(isWiringChanged, differing.ToImmutableSortedDictionary(StringComparer.Ordinal), first) { InPart = part };
    }

    private static SwitchedSide SideOf(Site site, Renames? names, Horizon horizon) =>
        new(site, names, Timetable.Of(site, horizon, new WorkBudget(Shares * Limits.CheckWorkOf(site.SourceLength))));

    /// <summary>Counts what only one of two sorted lists has; whether there is any.</summary>
    private static bool Count(
        List<(string What, int Output, string Controller, long To)> old, List<(string What, int Output, string Controller, long To)> @new,
        Dictionary<string, long> differing)
    {
        var (before, after, any) = (0, 0, false);
        while (before < old.Count || after < @new.Count)
        {
            var order = before == old.Count ? 1 : after == @new.Count ? -1 : old[before].CompareTo(@new[after]);
            if (order == 0)
            {
                (before, after) = (before + 1, after + 1);
                continue;
            }

            var what = order < 0 ? old[before++].What : @new[after++].What;
            differing[what] = differing.GetValueOrDefault(what) + 1;
            any = true;
        }

        return any;
    }
}
