using BenchmarkDotNet.Attributes;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using Ical.Net.Serialization;
using NodaTime;
using WaterScript.Documents.ICalendar;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Benchmarks;

/// <summary>Calendars of ten years of a site of a hundred zones; beside it, a calendar library that writes as many single events.</summary>
[MemoryDiagnoser]
public class CalendarFileBenchmarks
{
    private const int Years = 10;
    private static readonly CalendarOptions Options = new(Instant.FromUtc(2026, 1, 1, 0, 0)) { Unit = EventUnit.Pass };
    private readonly Site _site = LargeSite.Read(LargeSite.Text(zones: 100));
    private readonly List<Pass> _passes = [];

    private Timetable Passes => Timetable.Of(_site, new Horizon(_site.Effective, _site.Effective.PlusYears(Years)));

    /// <summary>One event after the other.</summary>
    [Benchmark(Baseline = true)]
    public void Flat() => CalendarFile.Of(Passes, Options with { IsFlat = true }).Write(Stream.Null);

    /// <summary>Series.</summary>
    [Benchmark]
    public void Rules() => CalendarFile.Of(Passes, Options).Write(Stream.Null);

    /// <summary>The same single events, by Ical.Net; the passes are worked out beforehand.</summary>
    [Benchmark]
    public void SingleEventsByACalendarLibrary()
    {
        var calendar = new Ical.Net.Calendar();
        foreach (var pass in _passes)
        {
            calendar.Events.Add(new CalendarEvent
            {
                Start = new CalDateTime(DateTime.UnixEpoch.AddSeconds(pass.Start), "UTC"),
                End = new CalDateTime(DateTime.UnixEpoch.AddSeconds(pass.Start + 600), "UTC"),
                Summary = "Round",
                Description = "Zone 1: 6 min\nZone 2: 6 min",
                Location = "large",
            });
        }

        new CalendarSerializer().Serialize(calendar, Stream.Null, System.Text.Encoding.UTF8);
    }

    /// <summary>How many events that is.</summary>
    [GlobalSetup]
    public void Count()
    {
        _passes.AddRange(Passes.Passes());
        Console.WriteLine($"// {_passes.Count} passes in {Years} years");
    }
}
