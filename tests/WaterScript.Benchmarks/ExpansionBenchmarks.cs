using BenchmarkDotNet.Attributes;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Benchmarks;

/// <summary>Ten years of runs of a site of a hundred zones; beside it, a calendar library that expands one rule of as many dates.</summary>
[MemoryDiagnoser]
public class ExpansionBenchmarks
{
    private const int Years = 10;
    private readonly Site _site = LargeSite.Read(LargeSite.Text(zones: 100));

    /// <summary>Runs of the whole site.</summary>
    [Benchmark(Baseline = true)]
    public long Runs()
    {
        long count = 0;
        var horizon = new Horizon(_site.Effective, _site.Effective.PlusYears(Years));
        foreach (var _ in Timetable.Of(_site, horizon).Runs()) count++;
        return count;
    }

    /// <summary>Starts of an event of every second day, by Ical.Net.</summary>
    [Benchmark]
    public long OccurrencesOfOneRuleByACalendarLibrary()
    {
        var calendarEvent = new CalendarEvent
        {
            Start = new CalDateTime(_site.Effective.Year, 1, 1, 6, 0, 0, "Europe/Lisbon"),
            Duration = Ical.Net.DataTypes.Duration.FromMinutes(12),
            RecurrenceRule = new RecurrencePattern(Ical.Net.FrequencyType.Daily, interval: 2),
        };
        var end = new CalDateTime(_site.Effective.Year + Years, 1, 1, 0, 0, 0, "Europe/Lisbon");
        return calendarEvent.GetOccurrences().TakeWhile(occurrence => occurrence.Period.StartTime < end).LongCount();
    }

    /// <summary>How many runs that is, to calculate runs a second.</summary>
    [GlobalSetup]
    public void Count() => Console.WriteLine($"// {Runs()} runs in {Years} years");
}
