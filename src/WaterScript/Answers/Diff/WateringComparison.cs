using NodaTime;
using WaterScript.Answers.Diff.Written;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff;

/// <summary>
/// Compares the waterings of two versions second by second, as both are expanded. Nothing of a second is held when it is over but sums, and where the
/// two differ first.
/// </summary>
internal sealed class WateringComparison : IDisposable
{
    private readonly Names _scheduleNames = new();
    private readonly bool[] _differs;
    private readonly long?[] _first;
    private readonly CommonShift? _shift;

    /// <summary>Compares two versions.</summary>
    /// <param name="old">The old one.</param>
    /// <param name="new">The new one.</param>
    /// <param name="horizon">The dates to compare.</param>
    /// <param name="renames">What of the old one has another name in the new one.</param>
    public WateringComparison(Site old, Site @new, Horizon horizon, Renames renames)
        : this(old, @new, names => Version.Of(old, horizon, names), names => Version.Of(@new, horizon, names), horizon.From, renames)
    {
    }

    /// <summary>Compares a timetable that is deployed with a site.</summary>
    public WateringComparison(DeployedTimetable old, Site @new)
        : this(old.Site, @new, names => Version.Of(old, names), names => Version.Of(@new, old, names), old.Horizon.From, Renames.None,
            Limits.WorkPerRow) => HasNoRules = true;

    private WateringComparison(
        Site oldSite, Site newSite, Func<VersionNames, Version> old, Func<VersionNames, Version> @new, LocalDate from, Renames renames, int workPerRow = 0)
    {
        var zones = new Names();
        var others = oldSite.Schedules.Select(schedule => renames.OfSchedule(schedule.Name)).Intersect(newSite.Schedules.Select(schedule => schedule.Name))
            .ToHashSet(StringComparer.Ordinal);
        Renames = renames;
        _shift = workPerRow > 0 ? new CommonShift() : null;
        (Old, New) = (old(new VersionNames(zones, _scheduleNames, renames, others)), @new(new VersionNames(zones, _scheduleNames, Renames.None, others)));
        _differs = new bool[_scheduleNames.Count];
        _first = new long?[_scheduleNames.Count];
        Compare(new ZoneClock(New.Site.TimeZone).StartOfDay(CivilDate.DayNumberOf(from)), workPerRow);
    }

    /// <summary>The old version.</summary>
    public Version Old { get; }

    /// <summary>The new version.</summary>
    public Version New { get; }

    /// <summary>Whether of the old version only its runs are known, and not how they were asked for.</summary>
    public bool HasNoRules { get; }

    /// <summary>What of the old version has another name in the new one.</summary>
    public Renames Renames { get; }

    /// <summary>Whether any zone is watered otherwise, manual schedules apart.</summary>
    public bool IsChanged => FirstChange is not null;

    /// <summary>When the first watering begins that only one of them has, in Unix seconds; null where all are the same.</summary>
    public long? FirstChange { get; private set; }

    /// <summary>By how much later all are that differ from a deployed timetable, in seconds; null where it is not the same for all.</summary>
    public long? Shift => InPart is null ? _shift?.Seconds : null;

    /// <summary>Where the comparison ended before its last date; null where it did not.</summary>
    public ComparedInPart? InPart { get; private set; }

    /// <summary>Whether the schedules of a name water otherwise.</summary>
    public bool Differ(string schedule) => _differs[_scheduleNames.NumberOf(schedule)];

    /// <summary>When the first watering begins that only one of the schedules of a name has, in Unix seconds; null where there is none.</summary>
    public long? FirstDifference(string schedule) => _first[_scheduleNames.NumberOf(schedule)];

    /// <inheritdoc/>
    public void Dispose()
    {
        Old.Dispose();
        New.Dispose();
    }

    /// <param name="second">The first.</param>
    /// <param name="workPerRow">What each run of the old version allows the new one to do besides: a long file may ask for much.</param>
    private void Compare(long second, int workPerRow)
    {
        try
        {
            Old.Begin();
            New.Begin();
            while (Old.NextStart != long.MaxValue || New.NextStart != long.MaxValue)
            {
                second = Math.Min(Old.NextStart, New.NextStart);
                Old.GoPast(second);
                New.GoPast(second);
                var old = Old.Take();
                New.Budget.Allow((long)workPerRow * old.Length);
                Compare(old, New.Take(), second);
            }
        }
        catch (WorkUsedUpException)
        {
            var version = Old.Budget.IsUsedUp ? Old : New;
            InPart = ComparedInPart.At(second, version.Runs, version.Budget, version.Site);
        }
    }

    private void Compare(ReadOnlySpan<Watered> old, ReadOnlySpan<Watered> @new, long second)
    {
        if (AreSame(old, @new)) return;
        if (FirstChange is null || _shift is not null)
        {
            var (all, others) = (WithoutSchedules(old), WithoutSchedules(@new));
            if (!all.SequenceEqual(others))
            {
                FirstChange ??= second;
                _shift?.Add(all, others, second);
            }
        }

        while (old.Length + @new.Length > 0)
        {
            var schedule = old.IsEmpty || (!@new.IsEmpty && @new[0].Schedule < old[0].Schedule) ? @new[0].Schedule : old[0].Schedule;
            var (was, now) = (CountOf(schedule, old), CountOf(schedule, @new));
            Compare(schedule, old[..was], @new[..now], second);
            old = old[was..];
            @new = @new[now..];
        }
    }

    private void Compare(int schedule, ReadOnlySpan<Watered> old, ReadOnlySpan<Watered> @new, long second)
    {
        if (AreSame(old, @new)) return;
        _differs[schedule] = true;
        if (_first[schedule] is null && !AreSame(Distinct(old), Distinct(@new))) _first[schedule] = second;
    }

    private static bool AreSame(ReadOnlySpan<Watered> old, ReadOnlySpan<Watered> @new)
    {
        if (old.Length != @new.Length) return false;
        for (var index = 0; index < old.Length; index++)
        {
            if (old[index].CompareTo(@new[index]) != 0) return false;
        }

        return true;
    }

    /// <summary>
    /// What waters, in order, whichever schedule it is of. Runs that begin together are ordered by their outputs, which are no part of the watering.
    /// </summary>
    private static List<(long To, int Zone)> WithoutSchedules(ReadOnlySpan<Watered> all)
    {
        var waterings = new List<(long, int)>(all.Length);
        foreach (var watered in all)
        {
            if (!watered.IsManual) waterings.Add((watered.To, watered.Zone));
        }

        waterings.Sort();
        return waterings;
    }

    private static int CountOf(int schedule, ReadOnlySpan<Watered> all)
    {
        var count = 0;
        while (count < all.Length && all[count].Schedule == schedule) count++;
        return count;
    }

    private static Watered[] Distinct(ReadOnlySpan<Watered> all)
    {
        var distinct = new List<Watered>(all.Length);
        foreach (var watered in all)
        {
            if (distinct.Count == 0 || distinct[^1].CompareTo(watered) != 0) distinct.Add(watered);
        }

        return [.. distinct];
    }
}
