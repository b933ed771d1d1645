using NodaTime;
using WaterScript.Tests.Linting;
using WaterScript.Timetables;
using Xunit;
using static WaterScript.Tests.Timetables.Sites;

namespace WaterScript.Tests.Timetables;

/// <summary>What the language page decides about dates, as a person would work it out.</summary>
public sealed class DatesDecideTests
{
    /// <summary>The pass of 30 June starts at 00:30 on 1 July: its 10 min are June's 50 %, that of 1 July is the first with 200 %.</summary>
    [Fact]
    public void The_scale_of_a_month_goes_by_the_date_of_the_pass() => Assert.Equal(
        ["2026-07-01 00:30:00 +01 a 300 s s 1", "2026-07-02 00:30:00 +01 a 1200 s s 1"],
        RunLines(
            Garden("scale year { jun 50 %; jul 200 % }\n"
                + "schedule s { every day; scale year; start at sunset + 210 min; steps { water a for 10 min } }", location: "38.7 N 9.1 W"),
            "2026-07-01", 2).Select(AtHalfPast).ToArray());

    /// <summary>A pass of 31 October that starts after midnight runs, one of 1 November that starts on 31 October does not.</summary>
    [Theory]
    [InlineData("finish by 00:20", "2026-10-31", 1, 0)] // the pass of 1 November
    [InlineData("finish by 00:20", "2026-10-30", 1, 1)] // the pass of 31 October
    [InlineData("start at sunset + 8 h", "2026-11-01", 1, 1)] // the pass of 31 October
    [InlineData("start at sunset + 8 h", "2026-11-02", 1, 0)] // the pass of 1 November
    public void A_closed_season_goes_by_the_date_of_the_pass(string start, string from, int days, int passes) => Assert.Equal(
        passes,
        PassLines(Garden($"closed from 1 nov to 15 mar because \"drained\"\nschedule s {{ every day; {start}; steps {{ water a for 30 min }} }}"), from, days)
            .Length);

    /// <summary>10 min in pieces of 5 with 20 of soak, twice: within a round the second piece waits, the first of the next round does not.</summary>
    [Fact]
    public void Soak_starts_afresh_in_each_round_of_a_repetition() => Assert.Equal(
        ["06:00:00", "06:25:00", "06:30:00", "06:55:00"],
        RunLines(Garden("schedule s { on 2026-06-01; start at 06:00; steps { repeat 2 times { cycle 5 min soak 20 min { water a for 10 min } } } }"),
            "2026-06-01", 1).Select(line => line.Split(' ')[1]));

    [Fact]
    public void An_extra_pass_is_that_of_start_1_and_a_manual_one_of_start_0()
    {
        var site = Read(Garden("extra 2026-07-18 21:00 because \"new\" { water a for 5 min }\nschedule m { manual; steps { water a for 5 min } }"));
        Assert.Equal(1, Assert.Single(Timetable.Of(site, Horizon.DaysFrom(new LocalDate(2026, 7, 18), 1)).Runs()).StartNumber);
        var manual = Timetable.OfOnePass(site, site.Schedules.Single(schedule => schedule.IsManual), new LocalDateTime(2026, 7, 18, 6, 0));
        Assert.Equal(0, Assert.Single(manual.Runs()).StartNumber);
    }

    /// <summary>A master that opens 30 s before its zones has nothing to open before on the first date.</summary>
    [Theory]
    [InlineData("2026-01-01", 0)] // the site's first date
    [InlineData("2026-01-05", 0)] // the first of a list
    public void A_lead_does_not_reach_back_before_the_timetable(string from, int lead)
    {
        var site = Read(Garden("master m { output 4; starts 30 s before zones }\nschedule s { every day; start at 00:00; steps { water a for 5 min } }"));
        var date = NodaTime.Text.LocalDatePattern.Iso.Parse(from).Value;
        var openings = Timetable.Of(site, Horizon.DaysFrom(date, 2)).Openings().ToArray();
        var midnight = date.AtMidnight().InZoneStrictly(site.TimeZone).ToInstant().ToUnixTimeSeconds();
        var devices = openings.Where(opening => opening.Device >= 0).Select(opening => opening.From).ToArray();
        Assert.Equal([midnight - lead, midnight + 86_400 - 30], devices);
    }

    /// <summary>Starts that are written twice are one: nothing about them is left open.</summary>
    [Theory]
    [InlineData("start at 20:00, 20:00")]
    [InlineData("start at 20:00; finish by 20:10")]
    public void Equal_starts_do_not_keep_the_calendar_from_being_decided(string starts)
    {
        var report = Lint.Of($"site p {{ timezone Europe/Lisbon; effective 2026-03-01 }}\nzone a {{ output 1 }}\n"
            + $"schedule s {{ every day; {starts}; steps {{ water a for 10 min }} }}");
        Assert.True(report.ConflictProof!.IsWhole);
        Assert.Single(report.Findings, finding => finding.Rule.Slug == "duplicate-start");
    }

    /// <summary>The sun's minutes do not matter here.</summary>
    private static string AtHalfPast(string line) => $"{line[..11]}00:30:00{line[19..]}";
}
