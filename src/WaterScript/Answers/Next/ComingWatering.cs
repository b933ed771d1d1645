using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Next;

/// <summary>One pass to come, or several that are alike and evenly apart.</summary>
/// <param name="Schedule">The schedule.</param>
/// <param name="Day">The date that it belongs to, in days since 1970-01-01.</param>
/// <param name="IsRest">Whether it is what is left of a pass under way.</param>
/// <param name="First">When the first of them waters first, in Unix seconds.</param>
/// <param name="Last">When the last of them waters first.</param>
/// <param name="Passes">How many; 1 or more.</param>
/// <param name="Every">Seconds from one to the next; 0 for one.</param>
/// <param name="Waterings">What each of them waters, and how long in all, in order.</param>
internal sealed record ComingWatering(
    Schedule Schedule, int Day, bool IsRest, long First, long Last, int Passes, long Every, ImmutableArray<ZoneSeconds> Waterings)
{
    /// <summary>When the last of them waters no more, in Unix seconds.</summary>
    public required long End { get; init; }
}

/// <summary>How long a zone is watered.</summary>
/// <param name="Zone">The zone.</param>
/// <param name="Seconds">Run time in seconds.</param>
internal sealed record ZoneSeconds(Zone Zone, long Seconds);

/// <summary>Gathers the runs after a moment into passes, and passes that are alike into one entry.</summary>
internal sealed class ComingWaterings(Timetable timetable, long now)
{
    private readonly Dictionary<(int Schedule, int Day, int Start), List<ComingPass>> _rows = [];
    private readonly Dictionary<(int Schedule, int Day, int Start, int Number), ComingPass> _passes = [];

    /// <summary>The next waterings.</summary>
    /// <param name="timetable">Reaches back far enough for what is under way.</param>
    /// <param name="now">The moment, in Unix seconds.</param>
    /// <param name="count">The most to find.</param>
    public static ImmutableArray<ComingWatering> Find(Timetable timetable, long now, int count)
    {
        var finder = new ComingWaterings(timetable, now);
        finder.Gather(count);
        return [.. finder._rows.Values.SelectMany(finder.Summed).OrderBy(coming => coming.First).ThenBy(coming => coming.Schedule.Index).Take(count)];
    }

    /// <summary>Takes in as many rows of passes as are asked for, then only what still belongs to them.</summary>
    private void Gather(int count)
    {
        foreach (var run in timetable.Runs())
        {
            if (run.Start <= now) continue;
            if (_rows.TryGetValue(KeyOf(run), out var row)) Add(run, row);
            else if (_rows.Count < count) Add(run, _rows[KeyOf(run)] = []);
            else if (IsAfterAll(run)) break;
        }
    }

    /// <summary>Whether no run of the known rows can come any more.</summary>
    private bool IsAfterAll(in Run run)
    {
        timetable.Budget?.Spend(_rows.Count);
        return run.Start > _rows.Values.Max(known => MayGoOnUntil(known[^1]));
    }

    private static (int Schedule, int Day, int Start) KeyOf(in Run run) => (run.Schedule, run.Day, run.StartNumber);

    private void Add(in Run run, List<ComingPass> row)
    {
        var key = (run.Schedule, run.Day, run.StartNumber, run.Pass);
        if (!_passes.TryGetValue(key, out var pass)) row.Add(_passes[key] = pass = new ComingPass(run));
        pass.Add(run);
    }

    /// <summary>No run of a row's later passes is later than this unless one before it was met.</summary>
    private long MayGoOnUntil(ComingPass last) =>
        last.PassStart + (timetable.Site.Schedules[last.Schedule].Repeat?.Every.WholeSeconds() ?? 0) + timetable.LongestSecondsOf(last.Schedule);

    private IEnumerable<ComingWatering> Summed(List<ComingPass> row)
    {
        for (var first = 0; first < row.Count;)
        {
            var end = first + 1;
            while (end < row.Count && IsLike(row[end], row[first])
                && (end == first + 1 || row[end].First - row[end - 1].First == row[first + 1].First - row[first].First))
                end++;
            yield return Entry(row[first], row[end - 1], end - first, end - first > 1 ? row[first + 1].First - row[first].First : 0);
            first = end;
        }
    }

    private bool IsLike(ComingPass pass, ComingPass other) =>
        pass.PassStart > now && other.PassStart > now && pass.Seconds.SequenceEqual(other.Seconds);

    private ComingWatering Entry(ComingPass first, ComingPass last, int passes, long every) => new(
        timetable.Site.Schedules[first.Schedule],
        first.Day,
        first.PassStart <= now,
        first.First,
        last.First,
        passes,
        every,
        [.. first.Seconds.Select(zone => new ZoneSeconds(timetable.Site.Zones[zone.Zone], zone.Seconds))])
    {
        End = last.End,
    };

    /// <summary>A pass and what it waters after the moment.</summary>
    private sealed class ComingPass(Run first)
    {
        private readonly List<(int Zone, long Seconds)> _seconds = [];

        public int Schedule => first.Schedule;

        public int Day => first.Day;

        public long PassStart => first.PassStart;

        public long First => first.Start;

        public long End { get; private set; } = first.End;

        public IReadOnlyList<(int Zone, long Seconds)> Seconds => _seconds;

        public void Add(in Run run)
        {
            var zone = run.Zone;
            End = Math.Max(End, run.End);
            var known = _seconds.FindIndex(entry => entry.Zone == zone);
            if (known < 0) _seconds.Add((zone, run.Seconds));
            else _seconds[known] = (zone, _seconds[known].Seconds + run.Seconds);
        }
    }
}
