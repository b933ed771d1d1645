using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Linting.Proof;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>Schedules that meet only once in many years are found, with the date; the dates are calculated by hand beside them.</summary>
public class WholeCycleTests
{
    private static string Site(string first, string second, string more = "") =>
        $$"""
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        zone beds { output 1 }
        {{more}}
        schedule one { {{first}}; start at 06:00; steps { water beds for 10 min } }
        schedule two { {{second}}; start at 06:05; steps { water beds for 10 min } }
        """;

    /// <summary>
    /// Day 0 is 1 March 2026. Every 7 days from day 0 and every 365 days from day 1: 365 k + 1 is a multiple of 7 first for k = 6, day 2191, 29 February 2032.
    /// </summary>
    [Fact]
    public void Every_7_days_meets_every_365_days() =>
        Expect("every 7 days; from 2026-03-01", "every 365 days; from 2026-03-02", new LocalDate(2032, 2, 29), Severity.Warning);

    /// <summary>2 March, 2 April, 3 May 2026: the third is the first odd one.</summary>
    [Fact]
    public void Odd_days_meet_every_31_days() => Expect("on odd days", "every 31 days; from 2026-03-02", new LocalDate(2026, 5, 3), Severity.Error);

    /// <summary>29 February is a Tuesday in 2028 and, 28 years on, in 2056; in between it is a Sunday, Friday, Wednesday, Monday, Saturday, Thursday.</summary>
    [Fact]
    public void A_leap_day_meets_a_weekday_many_years_later() => Expect("on 29 feb", "on fri", new LocalDate(2036, 2, 29), Severity.Warning);

    /// <summary>The first Monday of a month is its 7th at the latest.</summary>
    [Theory]
    [InlineData("on odd days", "on even days")]
    [InlineData("on first mon of month", "on days 8 of month")]
    [InlineData("every 14 days; from 2026-03-01", "every 364 days; from 2026-03-08")]
    public void What_never_meets_is_not_found(string first, string second) => Assert.Empty(Lint.Of(Site(first, second), "zone-twice"));

    /// <summary>
    /// Every 997 days from day 0 and every 1009 from day 1: 997 a = 1009 b + 1, so 12 b = -1 modulo 997, b = 83 (12 · 83 = 996), a = 84,
    /// day 83,748, well within the 400 years. From day 2: b = 166, day 167,496, which is after them.
    /// </summary>
    [Theory]
    [InlineData("2026-03-02", 83_748)]
    [InlineData("2026-03-03", 167_496)]
    public void Intervals_that_meet_after_centuries_are_found(string from, int day)
    {
        var first = new LocalDate(2026, 3, 1);
        Expect("every 997 days; from 2026-03-01", $"every 1009 days; from {from}", first.PlusDays(day), Severity.Warning);
    }

    /// <summary>
    /// At 50 % the first is over when the second begins. Every 366 days from 25 June 2026 come to 2 July in 2035; where July is the short
    /// month, to the 2nd of another one decades later, which the loop counts out.
    /// </summary>
    [Theory]
    [InlineData("jul 100 %", "50 %", false)]
    [InlineData("jul 50 %", "100 %", true)]
    public void Lengths_of_the_month_count(string july, string others, bool isJulyShort)
    {
        var months = string.Join("; ",
            new[] { "jan", "feb", "mar", "apr", "may", "jun", "aug", "sep", "oct", "nov", "dec" }.Select(month => $"{month} {others}").Append(july));
        var source = Site("on days 2 of month", "every 366 days; from 2026-06-25", $"scale year {{ {months} }}")
            .Replace("effective 2026-03-01", "effective 2026-03-01; scale year", StringComparison.Ordinal);
        var date = new LocalDate(2026, 6, 25);
        while (date.Day != 2 || date.Month == 7 == isJulyShort) date = date.PlusDays(366);
        Assert.True(isJulyShort || date == new LocalDate(2035, 7, 2));
        Assert.Equal(date, Assert.Single(Lint.Of(source, "zone-twice")).Happens!.First.Date);
    }

    [Fact]
    public void A_pass_of_days_meets_the_next_one_only_where_dates_are_close()
    {
        const string Source =
            """
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            zone beds { output 1 }
            schedule one { on 29 feb; on last fri of month; start at 06:00; steps { water beds for 25 h } }
            """;

        // 29 February 2036 is a Friday and the last one; a 29 February one day after the last Friday is a Saturday: 2048, 28 February 2048 being that Friday.
        var finding = Assert.Single(Lint.Of(Source, "pass-overlap"));
        Assert.Equal(new LocalDate(2048, 2, 29), finding.Happens!.First.Date);
        Assert.Equal(Severity.Warning, finding.Severity);
    }

    [Fact]
    public void A_controller_that_never_runs_two_schedules_is_decided_too()
    {
        const string Source =
            """
            site plot { timezone Etc/UTC; effective 2026-03-01 }
            controller box { outputs 4; schedules never-overlap }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule one { every 7 days; from 2026-03-01; start at 06:00; steps { water beds for 10 min } }
            schedule two { every 365 days; from 2026-03-02; start at 06:05; steps { water lawn for 10 min } }
            """;
        var finding = Assert.Single(Lint.Of(Source, "schedules-overlap"));
        Assert.Equal(new LocalDate(2032, 2, 29), finding.Happens!.First.Date);
        Assert.Equal(Severity.Warning, finding.Severity);
    }

    [Fact]
    public void The_report_says_what_is_decided()
    {
        var conflictProof = Lint.Of(Site("on odd days", "on even days")).ConflictProof!;
        Assert.Equal(new ConflictProof(new LocalDate(2426, 3, 1), [], IsWhole: true) { Pairs = (1, 0) }, conflictProof with { Moving = [] });
        Assert.Empty(conflictProof.Moving);
    }

    /// <summary>Weekdays and intervals are congruences; a date of a month is not, and a clock that is changed may make passes meet that else do not.</summary>
    [Theory]
    [InlineData("every 14 days; from 2026-03-01", "every 364 days; from 2026-03-08", "Etc/UTC", true)]
    [InlineData("on mon", "on tue", "Etc/UTC", true)]
    [InlineData("on mon", "on tue", "Europe/Lisbon", false)]
    [InlineData("on odd days", "on even days", "Etc/UTC", false)]
    [InlineData("on mon", "on first tue of month", "Etc/UTC", false)]
    public void For_ever_is_what_arithmetic_shows(string first, string second, string timeZone, bool isForEver) => Assert.Equal(
        isForEver, Lint.Of(Site(first, second).Replace("Etc/UTC", timeZone, StringComparison.Ordinal)).ConflictProof!.IsForEver);

    /// <summary>Three schedules of one zone are three pairs, also where they share a controller too; of one that moves none is decided.</summary>
    [Fact]
    public void Each_pair_is_counted_once()
    {
        const string Third = "schedule three { on mon; start at 12:00; steps { water beds for 10 min } }\n";
        const string Moving = "schedule four { on mon; start at sunset; steps { water beds for 10 min } }\n";
        var site = Site("on odd days", "on even days").Replace("effective", "location 40 N 8 W; effective", StringComparison.Ordinal);
        Assert.Equal((3, 0), Lint.Of(site + "\n" + Third + Moving).ConflictProof!.Pairs);
    }

    [Fact]
    public void Schedules_whose_times_move_are_named()
    {
        var source = Site("on odd days", "on even days").Replace("effective", "location 40 N 8 W; effective", StringComparison.Ordinal)
            .Replace("06:05", "sunrise", StringComparison.Ordinal);
        Assert.Equal("two", Assert.Single(Lint.Of(source).ConflictProof!.Moving));
    }

    private static void Expect(string first, string second, LocalDate date, Severity severity)
    {
        var finding = Assert.Single(Lint.Of(Site(first, second), "zone-twice"));
        Assert.Equal(severity, finding.Severity);
        Assert.Equal(date, finding.Happens!.First.Date);
    }
}
