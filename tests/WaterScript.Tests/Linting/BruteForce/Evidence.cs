using NodaTime;
using NodaTime.TimeZones;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>What happens on a site, second by second: which zones are wet, which valves are open, what the clock shows.</summary>
internal sealed class Evidence
{
    private static readonly LocalDate Epoch = new(1970, 1, 1);

    /// <summary>Of more, comparing every pair takes long.</summary>
    private const int MostRuns = 1_000;

    private readonly long[] _seconds;
    private readonly List<ZoneInterval> _intervals;
    private readonly SunTimes? _sun;

    private Evidence(Site site, Horizon horizon, List<ReferenceRun> runs)
    {
        Site = site;
        Horizon = horizon;
        Runs = runs;
        Openings = SecondBySecond.Openings(site, Runs, horizon.From);
        Waterings = [.. Openings.Where(opening => opening.Zone >= 0).Concat(SecondBySecond.ByHand(site, Runs, horizon.From)).OrderBy(SecondBySecond.KeyOf)];
        Passes = [.. Runs.GroupBy(run => (run.Schedule, run.Day, run.StartNumber, run.Pass)).Select(runs => new Pass(runs.Key.Schedule, [.. runs]))];
        _seconds = [.. SecondsOf(Runs)];
        Wet = Painted();
        _intervals = [.. site.TimeZone.GetZoneIntervals(
            Instant.FromUnixTimeSeconds(Math.Min(_seconds[0], StartOf(horizon.From))).Minus(NodaTime.Duration.FromDays(3)),
            Instant.FromUnixTimeSeconds(Math.Max(_seconds[^1], StartOf(horizon.Until))).Plus(NodaTime.Duration.FromDays(3)))];
        _sun = site.Position is { } position ? SunTimes.Of(position, new ZoneClock(site.TimeZone)) : null;
    }

    /// <summary>What happens in a horizon; null where nothing does, or too much.</summary>
    public static Evidence? Of(Site site, Horizon horizon)
    {
        var runs = ReferenceRuns.Of(site, horizon);
        return runs.Count is 0 or > MostRuns ? null : new Evidence(site, horizon, runs);
    }

    public Site Site { get; }

    public Horizon Horizon { get; }

    public List<ReferenceRun> Runs { get; }

    public List<Pass> Passes { get; }

    public List<ReferenceOpening> Openings { get; }

    /// <summary>Those of zones, and what is watered by hand.</summary>
    public List<ReferenceOpening> Waterings { get; }

    /// <summary>What the controllers do, calculated millisecond by millisecond when it is first asked for.</summary>
    public List<ReferenceSwitching> Switchings => field ??= ControllerClock.Live(Site, Openings);

    /// <summary>By zone, then by second of those that are looked at: whether a run waters it.</summary>
    public bool[][] Wet { get; }

    /// <summary>Every local date from the first to the last that is looked at, and which of the seconds are its own.</summary>
    public List<(LocalDate Date, int First, int End)> AllDates =>
        field ??= [.. Dates(_seconds[0], _seconds[^1] + 1).Select(part => (part.Date, IndexOf(part.From), IndexOf(part.To)))];

    /// <summary>A second that is looked at.</summary>
    public long At(int index) => _seconds[index];

    /// <summary>The first seconds of the stretches in which a value, counted at each second, is of a kind.</summary>
    /// <param name="values">A value for each second that is looked at.</param>
    /// <param name="isSo">Asked with each value; never so where nothing is open.</param>
    /// <param name="longer">Only stretches of more seconds than this.</param>
    public IEnumerable<long> Stretches(int[] values, Func<int, bool> isSo, int longer = 0)
    {
        var from = -1;
        for (var index = 0; index < values.Length; index++)
        {
            var so = isSo(values[index]);
            if (so && from < 0) from = index;
            if (so || from < 0) continue;
            if (index - from > longer) yield return _seconds[from];
            from = -1;
        }
    }

    /// <summary>At each second the sum over the zones that are watered.</summary>
    /// <param name="amount">What each adds.</param>
    /// <param name="longestOverlap">Change-overs that overlap for more seconds than this count too.</param>
    public int[] Sum(Func<Zone, int> amount, int longestOverlap = int.MaxValue)
    {
        var sum = new int[_seconds.Length];
        foreach (var zone in Site.Zones)
        {
            var (on, add) = (Wet[zone.Index], amount(zone));
            if (add == 0) continue;
            foreach (var run in Runs.Where(run => run.Zone == zone.Index && run.Overlap > longestOverlap))
            {
                if (ReferenceEquals(on, Wet[zone.Index])) on = [.. on];
                for (var second = run.End; second < run.End + run.Overlap; second++) on[IndexOf(second)] = true;
            }

            for (var index = 0; index < sum.Length; index++)
            {
                if (on[index]) sum[index] += add;
            }
        }

        return sum;
    }

    /// <summary>Local dates that a stretch touches, with what lies on each.</summary>
    public IEnumerable<(LocalDate Date, long From, long To)> Dates(long from, long to)
    {
        for (var second = from; second < to;)
        {
            var date = DateOf(second);
            var end = Math.Min(to, StartOf(date.PlusDays(1)));
            yield return (date, second, end);
            second = end;
        }
    }

    public LocalDateTime Local(long second) => Epoch.AtMidnight().PlusSeconds(Shown(second));

    public LocalDate DateOf(long second) => Epoch.PlusDays((int)Math.Floor(Shown(second) / 86_400.0));

    /// <summary>What the clock shows, in seconds from its midnight.</summary>
    public int ClockOf(long second) => (int)(((Shown(second) % 86_400) + 86_400) % 86_400);

    public long StartOf(LocalDate date) => Site.TimeZone.AtStartOfDay(date).ToInstant().ToUnixTimeSeconds();

    /// <summary>The instant of a moment of a date; null where the sun has none.</summary>
    public long? InstantOf(Moment moment, LocalDate date) => moment switch
    {
        ClockMoment clock => Site.TimeZone.AtLeniently(date.AtMidnight().PlusSeconds(clock.SecondOfDay)).ToInstant().ToUnixTimeSeconds(),
        SunMoment sun => _sun!.EventOn(Period.DaysBetween(Epoch, date), sun.Event) + (long)sun.Offset.TotalSeconds,
        _ => throw new NotSupportedException(moment.GetType().Name),
    };

    public static IEnumerable<(T First, T Second)> Pairs<T>(IReadOnlyList<T> all)
    {
        for (var i = 0; i < all.Count; i++)
        {
            for (var j = i + 1; j < all.Count; j++) yield return (all[i], all[j]);
        }
    }

    private long Shown(long second) => second + _intervals.Find(interval => !interval.HasEnd || second < interval.End.ToUnixTimeSeconds())!.WallOffset.Seconds;

    /// <summary>All seconds of runs, and the one after, at which a stretch is over.</summary>
    private static IEnumerable<long> SecondsOf(List<ReferenceRun> runs)
    {
        var second = long.MinValue;
        foreach (var run in runs.OrderBy(run => run.Start))
        {
            for (second = Math.Max(second, run.Start); second <= run.End + run.Overlap; second++) yield return second;
        }
    }

    private int IndexOf(long second)
    {
        var index = Array.BinarySearch(_seconds, second);
        return index < 0 ? ~index : index;
    }

    private bool[][] Painted()
    {
        var bits = Site.Zones.Select(_ => new bool[_seconds.Length]).ToArray();
        foreach (var run in Runs) Array.Fill(bits[run.Zone], true, IndexOf(run.Start), (int)(run.End - run.Start));
        return bits;
    }

    /// <summary>The runs of a pass.</summary>
    internal sealed record Pass(string Schedule, List<ReferenceRun> Runs)
    {
        public long From { get; } = Runs.Min(run => run.Start);

        public long To { get; } = Runs.Max(run => run.End);
    }
}
