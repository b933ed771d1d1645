using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff;

/// <summary>What a schedule waters over the dates that are compared, in sums.</summary>
/// <param name="Schedule">The schedule.</param>
/// <param name="Waterings">How many waterings there are; of a manual schedule, those of one pass at noon of the first date.</param>
/// <param name="Days">The dates that its passes belong to.</param>
/// <param name="Lengths">For each zone by name, the shortest and the longest run time that a pass gives it, in seconds.</param>
/// <param name="Fingerprint">The same for the same waterings of the same zones; empty where the other version has a schedule of that name.</param>
internal sealed record ScheduleWaterings(
    Schedule Schedule, long Waterings, SeenDays Days, ImmutableSortedDictionary<string, (long Least, long Most)> Lengths, string Fingerprint)
{
    /// <summary>How many dates its passes belong to.</summary>
    public int Dates => Days.Count;
}

/// <summary>Gathers what a schedule waters, run by run. Only passes that are under way are held.</summary>
/// <param name="schedule">The schedule.</param>
/// <param name="fingerprint">Gathers what its waterings are; null where nobody asks.</param>
/// <param name="mostUnderWay">Zones of passes that are held; what so many others follow is over. Only of a deployed timetable nobody knows how long a
/// pass lasts.</param>
internal sealed class WateringSums(Schedule schedule, Fingerprint? fingerprint, int mostUnderWay = int.MaxValue)
{
    private readonly SeenDays _dates = new();
    private readonly Dictionary<(int Day, int Start, int Pass, int Zone), long> _inPass = [];
    private readonly Queue<((int Day, int Start, int Pass, int Zone) Key, long Over)> _underWay = new();
    private readonly Dictionary<int, (long Least, long Most)> _lengths = [];
    private long _waterings;

    /// <summary>Gathers what its waterings are; null where nobody asks.</summary>
    public Fingerprint? Fingerprint => fingerprint;

    /// <summary>Takes in the next run.</summary>
    /// <param name="run">The run.</param>
    /// <param name="zone">Its zone, by a number that is the same in both versions.</param>
    /// <param name="over">When its pass is over at the latest, in Unix seconds.</param>
    public void Add(in Run run, int zone, long over)
    {
        EndPassesBy(run.Start);
        _waterings++;
        _dates.Add(run.Day);
        var key = (run.Day, run.StartNumber, run.Pass, zone);
        if (!_inPass.TryGetValue(key, out var seconds)) _underWay.Enqueue((key, over));
        _inPass[key] = seconds + run.Seconds;
    }

    /// <summary>The sums.</summary>
    /// <param name="isWhole">Whether passes that are under way came to their end.</param>
    /// <param name="nameOf">The name of a zone.</param>
    public ScheduleWaterings Sums(bool isWhole, Func<int, string> nameOf)
    {
        if (isWhole) EndPassesBy(long.MaxValue);
        return new ScheduleWaterings(
            schedule,
            _waterings,
            _dates,
            _lengths.ToImmutableSortedDictionary(length => nameOf(length.Key), length => length.Value, StringComparer.Ordinal),
            fingerprint?.Text ?? "");
    }

    private void EndPassesBy(long start)
    {
        while (_underWay.TryPeek(out var pass) && (pass.Over <= start || _underWay.Count > mostUnderWay))
        {
            _underWay.Dequeue();
            _inPass.Remove(pass.Key, out var seconds);
            _lengths[pass.Key.Zone] = _lengths.TryGetValue(pass.Key.Zone, out var length)
                ? (Math.Min(length.Least, seconds), Math.Max(length.Most, seconds))
                : (seconds, seconds);
        }
    }
}
