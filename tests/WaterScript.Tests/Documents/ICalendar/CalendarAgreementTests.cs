using FsCheck;
using WaterScript.Documents.ICalendar;
using WaterScript.Model;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Simulation;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.ICalendar;

/// <summary>What Ical.Net, an outside reader, expands a calendar to is what the timetable says: starts and ends, none missing, none extra.</summary>
public sealed class CalendarAgreementTests
{
    /// <summary>Of more the outside reader would make a long evening: sites with more get a shorter horizon, or are left to others.</summary>
    private const int MostRuns = 1_500;

    public static TheoryData<string, object, bool> Examples
    {
        get
        {
            var data = new TheoryData<string, object, bool>();
            foreach (var path in Repository.ExampleFiles.Where(path => Repository.Read(path).Contains("\nsite ", StringComparison.Ordinal)))
            {
                foreach (var unit in Enum.GetValues<EventUnit>())
                {
                    data.Add(path, unit, false);
                    data.Add(path, unit, true);
                }
            }

            return data;
        }
    }

    [SampledProperty(1_500, EndSize = 100_000, Replay = "2026,1")]
    public void Random_sites_are_expanded_to_their_passes(NonNegativeInt seed)
    {
        var number = seed.Get;
        var source = RandomSource.Of(number);
        if (RandomRunsTests.Read(source.Text, out _) is not { } site) return;
        var unit = (EventUnit)(number % 3);
        var options = Calendars.Plain with { Unit = unit, IsFlat = number % 7 == 0, IsOpenEnded = number % 2 == 0 };
        var horizon = Horizon.DaysFrom(source.From, 60 + (number % 5 * 50));
        if (HasManyRuns(site, horizon)) horizon = Horizon.DaysFrom(source.From, 13);
        if (HasManyRuns(site, horizon)) return;
        Calendars.Agrees(site, horizon, options, $"number {number}\n{source.Text}");
    }

    /// <summary>What begins together stands in one step and is one event, also in months in which one of its lengths is too short to be watered.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Lengths_that_begin_together_are_one_event(bool isFlat)
    {
        var site = Sites.Read("""
            site garden { timezone Europe/Lisbon; effective 2026-03-01; scale year }
            zone a { output 1; shortest 3 min }
            zone b { output 2; shortest 3 min }
            zone c { output 3 }
            scale year { apr 50 %; jun 20 % }
            schedule s { every 3 days; start at 06:00; steps { water a for 10 min + b for 5 min; water c for 2 min } }
            """);
        var options = Calendars.Plain with { Unit = EventUnit.Step, IsFlat = isFlat, IsOpenEnded = true };
        Assert.NotEmpty(Calendars.Agrees(site, Horizon.YearFrom(site.Effective), options, "together"));
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void Examples_are_expanded_to_their_passes(string path, object shown, bool isFlat)
    {
        var unit = (EventUnit)shown;
        var site = Example.Read(path).Site!;
        var options = Calendars.Plain with { Unit = unit, IsFlat = isFlat, IsOpenEnded = true };
        Assert.NotEmpty(Calendars.Agrees(site, HorizonFor(site, unit), options, path));
    }

    /// <summary>A year; of mist every few minutes, the first weeks of its season, because the outside reader is slow.</summary>
    private static Horizon HorizonFor(Site site, EventUnit unit)
    {
        const int Weeks = 10;
        var year = Horizon.YearFrom(site.Effective);
        var isLong = unit != EventUnit.Day && Timetable.Of(site, year).Passes().Skip(2 * MostRuns).Any();
        return isLong ? Horizon.DaysFrom(site.Effective, 7 * Weeks) : year;
    }

    /// <summary>What has no end is compared with the timetable of later years.</summary>
    [SampledProperty(1_500, EndSize = 100_000, Replay = "2026,3")]
    public void Series_without_an_end_stay_right(NonNegativeInt seed)
    {
        var number = seed.Get;
        var source = RandomSource.Of(number);
        if (RandomRunsTests.Read(source.Text, out _) is not { } site) return;
        var timetable = Timetable.Of(site, Horizon.YearFrom(source.From));
        if (HasManyRuns(site, timetable.Horizon)) return;
        var calendar = CalendarFile.Of(timetable, Calendars.Plain with { Unit = EventUnit.Pass, IsOpenEnded = true });
        if (calendar.IsEmpty || calendar.IsCut || calendar.Series == 0) return;
        var file = Calendars.Write(timetable, Calendars.Plain with { Unit = EventUnit.Pass, IsOpenEnded = true });
        var later = new Horizon(source.From, source.From.PlusYears(9));
        var end = later.Until.AtStartOfDayInZone(site.TimeZone).ToInstant().ToUnixTimeSeconds();
        var (expected, actual) = (Calendars.Passes(Timetable.Of(site, later)), Calendars.Expand(file, end));
        if (!expected.SequenceEqual(actual)) Assert.Fail($"number {number}\n{source.Text}\n{file}");
    }

    private static bool HasManyRuns(Site site, Horizon horizon) => Timetable.Of(site, horizon).Runs().Skip(MostRuns).Any();
}
