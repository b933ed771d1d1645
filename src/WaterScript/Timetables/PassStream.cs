using System.Runtime.InteropServices;
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

    /// <summary>So many schedules that interleave are merged; more are sorted.</summary>
    private const int MostMerged = 8;

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
        SchedulePasses[] all = [.. schedules];
        var lead = all.Max(schedule => schedule.Lead);
        var firstDay = from - Days(all.Max(schedule => schedule.Lag));
        var lastDay = until + Days(lead);
        var (first, end) = (clock.StartOfDay(from), clock.StartOfDay(until));
        var (waiting, coming, spare) = (new WaitingPasses(), new List<Pass>(), new List<Pass>());
        for (var day = firstDay; day <= lastDay; day++)
        {
            coming.Clear();
            foreach (var schedule in all)
            {
                if (day >= from && day < until) seeDay?.Invoke(schedule.ScheduleDay(day));
                AddInside(schedule.AllOn(day), first, end, coming);
                budget?.Hold(waiting.Count + coming.Count, Limits.PassesHeld);
            }

            budget?.Spend((waiting.Count + coming.Count) / PassesMovedInAUnit);
            PutInOrder(ref coming, ref spare);
            waiting.Add(CollectionsMarshal.AsSpan(coming));

            budget?.Reach(day - Days(lead));
            var settled = day < lastDay ? clock.StartOfDay(day + 1) - lead : long.MaxValue;
            while (waiting.Count > 0 && waiting.First.Start < settled) yield return waiting.Take();
        }
    }

    private static void AddInside(ReadOnlySpan<Pass> passes, long first, long end, List<Pass> coming)
    {
        foreach (ref readonly var pass in passes)
        {
            if (pass.Start >= first && pass.Start < end) coming.Add(pass);
        }
    }

    /// <summary>
    /// The passes of a date are those of its schedules one after the other, each mostly in order already: where they are few, they are merged two by two;
    /// else start and place are sorted as one number. Those that start together stay as they are.
    /// </summary>
    private static void PutInOrder(ref List<Pass> passes, ref List<Pass> spare)
    {
        var stretches = StretchesOf(passes);
        if (stretches > MostMerged) Sort(passes, spare);
        for (; stretches is > 1 and <= MostMerged; stretches = (stretches + 1) / 2)
        {
            MergeStretches(CollectionsMarshal.AsSpan(passes), spare);
            (passes, spare) = (spare, passes);
        }
    }

    private static void Sort(List<Pass> passes, List<Pass> unsorted)
    {
        unsorted.Clear();
        unsorted.AddRange(passes);
        var keys = new long[passes.Count];
        for (var i = 0; i < keys.Length; i++) keys[i] = ((passes[i].Start - passes[0].Start) << BitsOfPlace) | (uint)i;
        Array.Sort(keys);
        for (var i = 0; i < keys.Length; i++) passes[i] = unsorted[(int)(keys[i] & int.MaxValue)];
    }

    /// <summary>How many stretches in order there are.</summary>
    private static int StretchesOf(List<Pass> passes)
    {
        var all = CollectionsMarshal.AsSpan(passes);
        var stretches = Math.Min(all.Length, 1);
        for (var i = 1; i < all.Length; i++)
        {
            if (all[i].Start < all[i - 1].Start) stretches++;
        }

        return stretches;
    }

    /// <summary>Merges each stretch in order with the one behind it.</summary>
    private static void MergeStretches(ReadOnlySpan<Pass> passes, List<Pass> into)
    {
        into.Clear();
        while (passes.Length > 0)
        {
            var middle = EndOfStretch(passes, 0);
            var end = EndOfStretch(passes, middle);
            var (i, j) = (0, middle);
            while (i < middle && j < end) into.Add(passes[i].Start <= passes[j].Start ? passes[i++] : passes[j++]);
            into.AddRange(passes[i..middle]);
            into.AddRange(passes[j..end]);
            passes = passes[end..];
        }
    }

    private static int EndOfStretch(ReadOnlySpan<Pass> passes, int from)
    {
        if (from == passes.Length) return from;
        var end = from + 1;
        while (end < passes.Length && passes[end].Start >= passes[end - 1].Start) end++;
        return end;
    }

    private static int Days(long seconds) => (int)((seconds + ZoneClock.SecondsInDay - 1) / ZoneClock.SecondsInDay);
}

/// <summary>
/// Passes that wait until no other can come before them, in order of start. Those of the next date mostly come behind all that wait, and then nothing moves.
/// </summary>
internal sealed class WaitingPasses
{
    private const int LeastRoom = 64;

    private Pass[] _passes = new Pass[LeastRoom];
    private int _front;
    private int _end;

    /// <summary>How many there are.</summary>
    public int Count => _end - _front;

    /// <summary>The first; to be asked only where there is one.</summary>
    public ref readonly Pass First => ref _passes[_front];

    /// <summary>The first leaves.</summary>
    public Pass Take() => _passes[_front++];

    /// <summary>Takes in passes that are in order; of those that start together, what waits already goes first.</summary>
    public void Add(ReadOnlySpan<Pass> later)
    {
        if (_end + later.Length > _passes.Length) MakeRoom(later.Length);
        var (i, place) = (_end - 1, _end + later.Length - 1);
        for (var j = later.Length - 1; j >= 0; place--)
        {
            if (i >= _front && _passes[i].Start > later[j].Start) _passes[place] = _passes[i--];
            else _passes[place] = later[j--];
        }

        _end += later.Length;
    }

    /// <summary>Moves all to the beginning, into a larger array where they are many.</summary>
    private void MakeRoom(int more)
    {
        var count = Count;
        var room = 2 * (count + more) > _passes.Length ? new Pass[Math.Max(LeastRoom, 4 * (count + more))] : _passes;
        Array.Copy(_passes, _front, room, 0, count);
        _passes = room;
        (_front, _end) = (0, count);
    }
}
