using WaterScript.Calendars;
using WaterScript.Diagnostics;

namespace WaterScript.Timetables;

/// <summary>
/// The passes of several schedules in order of start. Dates are taken one after the other; a pass is let go once no later
/// date can have one before it, so that only the passes of a few dates are held.
/// </summary>
internal static class PassStream
{
    /// <summary>Starts of one date lie some days apart at most, which leaves these bits for the place of a pass.</summary>
    private const int BitsOfPlace = 32;

    /// <summary>Passes that wait are moved on each date, so many for a unit of work.</summary>
    private const int PassesMovedInAUnit = 4;

    /// <summary>The passes that start in a horizon; of those that start together, the earlier date's and the earlier schedule's come first.</summary>
    /// <param name="schedules">The schedules.</param>
    /// <param name="clock">Gives the starts of days.</param>
    /// <param name="from">First date, in days since 1970-01-01.</param>
    /// <param name="until">First date that is not included.</param>
    /// <param name="seeDay">Is shown each date of each schedule from the first to the last, by date; may be null.</param>
    /// <param name="budget">Counts the passes that wait, and learns how far the dates came; may be null.</param>
    public static IEnumerable<Pass> Of(
        IReadOnlyList<SchedulePasses> schedules, ZoneClock clock, int from, int until, Action<ScheduleDay>? seeDay, WorkBudget? budget)
    {
        if (schedules.Count == 0) yield break;
        var lead = schedules.Max(schedule => schedule.Lead);
        var firstDay = from - Days(schedules.Max(schedule => schedule.Lag));
        var lastDay = until + Days(lead);
        var (first, end) = (clock.StartOfDay(from), clock.StartOfDay(until));
        var (waiting, coming, merged) = (new List<Pass>(), new List<Pass>(), new List<Pass>());
        for (var day = firstDay; day <= lastDay; day++)
        {
            coming.Clear();
            for (var i = 0; i < schedules.Count; i++)
            {
                var date = schedules[i].ScheduleDay(day);
                if (day >= from && day < until) seeDay?.Invoke(date);
                AddInside(date.Passes, first, end, coming);
                budget?.Hold(waiting.Count + coming.Count, Limits.PassesHeld);
            }

            budget?.Spend((waiting.Count + coming.Count) / PassesMovedInAUnit);
            PutInOrder(coming, unsorted: merged);
            Merge(waiting, coming, merged);
            (waiting, merged) = (merged, waiting);

            budget?.Reach(day - Days(lead));
            var settled = day < lastDay ? clock.StartOfDay(day + 1) - lead : long.MaxValue;
            var next = 0;
            while (next < waiting.Count && waiting[next].Start < settled) yield return waiting[next++];
            waiting.RemoveRange(0, next);
        }
    }

    private static void AddInside(IReadOnlyList<Pass> passes, long first, long end, List<Pass> coming)
    {
        for (var i = 0; i < passes.Count; i++)
        {
            if (passes[i].Start >= first && passes[i].Start < end) coming.Add(passes[i]);
        }
    }

    /// <summary>
    /// Mostly the passes of a date are in order already, which costs less to see than to sort them. Those that start together stay as they
    /// are: start and place are sorted as one number.
    /// </summary>
    private static void PutInOrder(List<Pass> passes, List<Pass> unsorted)
    {
        if (AreInOrder(passes)) return;
        unsorted.Clear();
        unsorted.AddRange(passes);
        var keys = new long[passes.Count];
        for (var i = 0; i < keys.Length; i++) keys[i] = ((passes[i].Start - passes[0].Start) << BitsOfPlace) | (uint)i;
        Array.Sort(keys);
        for (var i = 0; i < keys.Length; i++) passes[i] = unsorted[(int)(keys[i] & int.MaxValue)];
    }

    private static bool AreInOrder(List<Pass> passes)
    {
        for (var i = 1; i < passes.Count; i++)
        {
            if (passes[i].Start < passes[i - 1].Start) return false;
        }

        return true;
    }

    private static void Merge(List<Pass> earlier, List<Pass> later, List<Pass> into)
    {
        into.Clear();
        var (i, j) = (0, 0);
        while (i < earlier.Count && j < later.Count) into.Add(earlier[i].Start <= later[j].Start ? earlier[i++] : later[j++]);
        while (i < earlier.Count) into.Add(earlier[i++]);
        while (j < later.Count) into.Add(later[j++]);
    }

    private static int Days(long seconds) => (int)((seconds + ZoneClock.SecondsInDay - 1) / ZoneClock.SecondsInDay);
}
