using WaterScript.Calendars;

namespace WaterScript.Timetables;

/// <summary>
/// The passes of several schedules in order of start. Dates are taken one after the other; a pass is let go once no later
/// date can have one before it, so that only the passes of a few dates are held.
/// </summary>
internal static class PassStream
{
    /// <summary>The passes that start in a horizon.</summary>
    /// <param name="schedules">The schedules.</param>
    /// <param name="clock">Gives the starts of days.</param>
    /// <param name="from">First date, in days since 1970-01-01.</param>
    /// <param name="until">First date that is not included.</param>
    public static IEnumerable<Pass> Of(IReadOnlyList<SchedulePasses> schedules, ZoneClock clock, int from, int until)
    {
        if (schedules.Count == 0) yield break;
        var lead = schedules.Max(schedule => schedule.Lead);
        var firstDay = from - Days(schedules.Max(schedule => schedule.Lag));
        var lastDay = until + Days(lead);
        var (first, end) = (clock.StartOfDay(from), clock.StartOfDay(until));
        var waiting = new PriorityQueue<Pass, StreamOrder>();
        long sequence = 0;
        for (var day = firstDay; day <= lastDay; day++)
        {
            for (var i = 0; i < schedules.Count; i++)
            {
                var passes = schedules[i].On(day);
                for (var j = 0; j < passes.Count; j++)
                {
                    var pass = passes[j];
                    if (pass.Start >= first && pass.Start < end) waiting.Enqueue(pass, new StreamOrder(pass.Start, Rank: 0, sequence++));
                }
            }

            var settled = day < lastDay ? clock.StartOfDay(day + 1) - lead : long.MaxValue;
            while (waiting.TryPeek(out _, out var next) && next.Time < settled) yield return waiting.Dequeue();
        }
    }

    private static int Days(long seconds) => (int)((seconds + ZoneClock.SecondsInDay - 1) / ZoneClock.SecondsInDay);
}
