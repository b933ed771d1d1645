using NodaTime;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>A walk shows a timetable to those whom its caller lists, and to nobody else: no rule has to take part.</summary>
public class TimelineWalkerTests
{
    private const string Schedules = """
        supply tap { flow 30 L/min }
        zone one { output 1; supply tap; flow 10 L/min }
        zone two { output 2; supply tap; flow 5 L/min }
        schedule early { every day; start at 06:00; steps { water one + two for 10 min } }
        schedule late { on mon; start at 06:05; steps { water one for 10 min } }
        """;

    private static readonly Horizon Week = Horizon.DaysFrom(new LocalDate(2026, 3, 2), 7);

    [Fact]
    public void All_runs_and_dates_are_shown_and_the_runs_are_counted()
    {
        var seen = new Seen();
        var context = Walk(seen);
        Assert.Equal(context.Timetable.Runs().Select(run => (run.Start, run.Zone)), seen.Runs);
        Assert.Equal(15, context.Runs);
        Assert.Equal(14, seen.Dates);
    }

    /// <summary>On Monday both zones want 15 L/min for ten minutes, and then one of them 10 L/min for five more: 9 L for the first is one zone, once.</summary>
    [Fact]
    public void Demand_is_shown_by_supply_as_stretches()
    {
        var seen = new Seen();
        Walk(seen);
        Assert.Equal([(600L, 15m), (300L, 10m)], seen.Demand.Take(2));
        Assert.Equal((7 * 150m) + 50m, seen.Demand.Sum(interval => interval.Flow * interval.Seconds / 60));
    }

    [Fact]
    public void Meetings_of_zones_are_found_by_whoever_lists_their_observer()
    {
        var context = new SimulationContext(Timetable.Of(Site, Week));
        var meetings = new ZoneMeetings(context.Site, context.Plans, context.Spend);
        new TimelineWalker(context, [meetings]).Go();
        Assert.True(meetings.Has(0, 1));
        Assert.Single(Assert.Single(meetings.All).Moments);
    }

    [Fact]
    public void Nobody_has_to_observe() => Assert.Equal(15, Walk().Runs);

    private static Site Site => Sites.Read("site plot { timezone Europe/Lisbon; effective 2026-01-01 }\n" + Schedules);

    private static SimulationContext Walk(params ITimelineObserver[] observers)
    {
        var context = new SimulationContext(Timetable.Of(Site, Week));
        new TimelineWalker(context, observers).Go();
        return context;
    }

    private sealed class Seen : IDayObserver, IRunObserver, IDemandObserver
    {
        public int Dates { get; private set; }

        public List<(long Start, int Zone)> Runs { get; } = [];

        public List<(long Seconds, decimal Flow)> Demand { get; } = [];

        public void Visit(in ScheduleDay day) => Dates++;

        public void Visit(in Run run) => Runs.Add((run.Start, run.Zone));

        public void Visit(in DemandInterval interval) => Demand.Add((interval.Seconds, interval.Flow));
    }
}
