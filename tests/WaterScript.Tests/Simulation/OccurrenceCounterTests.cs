using NodaTime;
using WaterScript.Calendars;
using WaterScript.Simulation;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>One cause, counted: values worked out by hand.</summary>
public class OccurrenceCounterTests
{
    private static readonly SimulationContext Context = new(Timetable.Of(Sites.Read(Sites.Garden("")), Horizon.DaysFrom(new LocalDate(2026, 3, 1), 40)));

    [Fact]
    public void Nothing_has_happened_at_first()
    {
        var counter = new OccurrenceCounter();
        Assert.False(counter.Happened);
        Assert.Equal((0L, 0, 0m), (counter.Times, counter.Days, counter.Worst));
    }

    /// <summary>The clock of Lisbon goes forward on 29 March 2026: 23:30 UTC is still that day before it, and the next one after it.</summary>
    [Fact]
    public void It_is_counted_by_the_dates_of_the_site_in_whatever_order()
    {
        var counter = new OccurrenceCounter();
        Assert.True(counter.Add(Utc(2026, 3, 30, 23, 30), Context));
        Assert.True(counter.Add(Utc(2026, 3, 28, 23, 30), Context));
        Assert.False(counter.Add(Utc(2026, 3, 28, 23, 45), Context));
        var happens = counter.Happens(Context);
        Assert.Equal((new LocalDateTime(2026, 3, 28, 23, 30), new LocalDateTime(2026, 3, 31, 0, 30)), (happens.First, happens.Last));
        Assert.Equal((3L, 2L, false), (happens.Times, happens.Days, happens.IsWholeDays));
    }

    [Fact]
    public void Of_whole_days_the_dates_are_reported_and_no_times()
    {
        var counter = new OccurrenceCounter();
        foreach (var day in new[] { 12, 4, 9 }) counter.Add(Utc(2026, 3, day, 6, 0), CivilDate.DayNumberOf(2026, 3, day));
        var happens = counter.WholeDays;
        Assert.Equal((new LocalDateTime(2026, 3, 4, 0, 0), new LocalDateTime(2026, 3, 12, 0, 0)), (happens.First, happens.Last));
        Assert.Equal((3L, 3L, true), (happens.Times, happens.Days, happens.IsWholeDays));
    }

    [Fact]
    public void The_worst_is_the_first_of_the_greatest()
    {
        var counter = new OccurrenceCounter();
        Assert.Equal([true, false, true, false], new[] { 2m, 2m, 5.5m, 3m }.Select(counter.Reach));
        Assert.Equal(5.5m, counter.Worst);
    }

    private static long Utc(int year, int month, int day, int hour, int minute) => Instant.FromUtc(year, month, day, hour, minute).ToUnixTimeSeconds();
}
