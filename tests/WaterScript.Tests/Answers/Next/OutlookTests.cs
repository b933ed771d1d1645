using NodaTime;
using WaterScript.Answers.Next;
using WaterScript.Answers.Why;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Next;

/// <summary>What is said of a moment and a date is what the runs of the timetable are, for sites nobody thought of.</summary>
public sealed class OutlookTests
{
    public static TheoryData<int> Numbers => [.. Enumerable.Range(7_000, 60)];

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Random_moments_have_what_the_timetable_has(int number)
    {
        var source = RandomSource.Of(number);
        if (RandomRunsTests.Read(source.Text, out _) is not { } site) return;
        var runs = Timetable.Of(site, new Horizon(source.From.PlusDays(-40), source.From.PlusDays(60))).Runs().ToList();
        var random = new Random(number);
        for (var turn = 0; turn < 5; turn++)
        {
            var moment = site.TimeZone.AtStartOfDay(source.From.PlusDays(random.Next(20))).ToInstant().ToUnixTimeSeconds() + random.Next(86_400);
            if (runs.Count > 0 && turn % 2 == 0) moment = runs[random.Next(runs.Count)].Start + random.Next(2);
            var outlook = Outlook.Of(site, Instant.FromUnixTimeSeconds(moment), 5);
            Assert.Equal(
                runs.Where(run => run.Start <= moment && moment < run.End).Select(run => (run.Zone, run.Schedule, run.Start, run.End)),
                outlook.Open.Select(open => (open.Zone.Index, open.Schedule.Index, open.From, open.Until)));
            var next = runs.FirstOrDefault(run => run.Start > moment);
            if (next.Number > 0) Assert.Equal(next.Start, outlook.Coming[0].First);
            foreach (var coming in outlook.Coming.Where(coming => runs.Count > 0 && coming.Last < runs[^1].Start))
            {
                for (var pass = 0; pass < coming.Passes; pass++)
                    Assert.Contains(runs, run => run.Schedule == coming.Schedule.Index && run.Day == coming.Day && run.Start == coming.First
                        + (pass * coming.Every));
            }
        }
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void A_date_without_watering_has_a_line_against_it(int number)
    {
        var source = RandomSource.Of(number);
        if (RandomRunsTests.Read(source.Text, out _) is not { } site) return;
        var runs = Timetable.Of(site, new Horizon(source.From.PlusDays(-40), source.From.PlusDays(60))).Runs().ToList();
        for (var turn = 0; turn < 10; turn++)
        {
            var date = source.From.PlusDays(turn * 2);
            var zone = site.Zones[turn % site.Zones.Length];
            var answer = DayAnswer.Of(site, zone, date);
            var own = runs.Where(run => run.Zone == zone.Index && run.Day == answer.Day).Select(run => (run.Schedule, run.Start, run.End)).ToList();
            Assert.Equal(own, answer.Waterings.Where(watering => watering.Day == answer.Day)
                .Select(watering => (watering.Schedule.Index, watering.From, watering.To)));
            Assert.All(answer.Schedules, schedule =>
            {
                if (own.Any(run => run.Schedule == schedule.Schedule.Index)) Assert.True(schedule.IsDue);
                else Assert.Contains(schedule.Lines, line => line.IsAgainst);
            });
        }
    }

    /// <summary>Clocks go back from 02:00 to 01:00 in Lisbon on 25 Oct 2026, at 01:00 UTC.</summary>
    [Theory]
    [InlineData(0, ", the first of two, the clock goes back")]
    [InlineData(1, ", the second of two, the clock goes back")]
    [InlineData(3, "")]
    public void A_time_that_the_clock_shows_twice_says_which_it_is(int hour, string words)
    {
        var site = RandomRunsTests.Read("site garden \"Garden\" { timezone Europe/Lisbon; effective 2026-03-01 }", out _)!;
        var outlook = Outlook.Of(site, Instant.FromUtc(2026, 10, 25, hour, 15), 1);
        Assert.Matches($"^Garden, Sun 25 Oct 2026 0[13]:15{words}, Europe/Lisbon\n", Reports.Plain(lines => OutlookText.Write(outlook, lines)));
    }
}
