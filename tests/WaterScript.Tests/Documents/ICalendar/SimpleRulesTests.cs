using System.Text.RegularExpressions;
using WaterScript.Documents.ICalendar;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Simulation;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.ICalendar;

/// <summary>Every rule of the simple form fits a template that office calendars map.</summary>
/// <remarks>
/// S: [MS-OXCICAL], 2.1.3.2.2 "Recurrence Templates", the grammars of 2.1.3.2.2.1 (daily), 2.1.3.2.2.2 (weekly), 2.1.3.2.2.3 (monthly) and 2.1.3.2.2.4
/// (monthly nth): https://learn.microsoft.com/openspecs/exchange_server_protocols/ms-oxcical. Without BYHOUR and BYMINUTE, which are not written here. That a
/// day 29, 30 or 31 stands for the last day of a shorter month is common knowledge of such calendars (second-hand).
/// </remarks>
public sealed partial class SimpleRulesTests
{
    private static readonly CalendarOptions Simple = Calendars.Plain with { IsSimple = true, IsOpenEnded = true };

    public static TheoryData<string> Days =>
    [
        "every day", "every 3 days", "on tue", "on mon, wed to fri", "every 2 weeks on tue, thu", "on odd days", "on even days", "on days 1, 15, 31 of month",
        "on last day of month", "on second tue of month", "on last fri of month, first mon of month", "every day; from 16 apr to 15 oct",
        "on mon, thu; from 1 nov to last feb", "on odd days; from 1 may to 31 aug", "every day; except 2026-06-02",
    ];

    [Theory]
    [MemberData(nameof(Days))]
    public void Each_rule_fits_a_template(string days)
    {
        foreach (var time in (string[])["06:00", "01:30", "23:45"])
        {
            var site = Sites.Read(Sites.Garden($"schedule only {{ {days}; start at {time}; steps {{ water a for 10 min }} }}"));
            Check(Calendars.Agrees(site, new Horizon(site.Effective, site.Effective.PlusYears(3)), Simple, days));
        }
    }

    /// <summary>One season is one series, each year anew.</summary>
    [Fact]
    public void A_season_is_a_series_each_year()
    {
        var site = Sites.Read(Sites.Garden("schedule only { on tue, fri; from 16 apr to 15 oct; start at 06:00; steps { water a for 10 min } }"));
        var calendar = CalendarFile.Of(Timetable.Of(site, new Horizon(site.Effective, site.Effective.PlusYears(3))), Simple);
        Assert.Equal((3, 0L, true), (calendar.Series, calendar.SingleEvents, calendar.IsCut));
    }

    [Fact]
    public void More_than_three_digits_are_never_counted()
    {
        var site = Sites.Read(Sites.Garden("schedule only { every day; start at 06:00; steps { water a for 10 min } }"));
        var file = Calendars.Agrees(site, new Horizon(new(2026, 1, 1), new(2029, 6, 1)), Simple, "");
        Assert.Contains("RRULE:FREQ=DAILY;UNTIL=", file, StringComparison.Ordinal);
    }

    [Fact]
    public void Each_rule_of_every_example_fits_a_template()
    {
        foreach (var path in Repository.ExampleFiles.Where(path => Repository.Read(path).Contains("\nsite ", StringComparison.Ordinal)))
        {
            var site = Example.Read(path).Site!;
            Check(Calendars.Write(Timetable.Of(site, Horizon.YearFrom(site.Effective)), Simple));
        }
    }

    [SampledProperty(300, EndSize = 100_000, Replay = "2026,5")]
    public void Each_rule_of_random_sites_fits_a_template(FsCheck.NonNegativeInt seed)
    {
        var source = RandomSource.Of(seed.Get);
        if (RandomRunsTests.Read(source.Text, out _) is not { } site) return;
        var timetable = Timetable.Of(site, Horizon.DaysFrom(source.From, 200));
        if (CalendarFile.Of(timetable, Simple) is { IsEmpty: false }) Check(Calendars.Write(timetable, Simple));
    }

    private static void Check(string file)
    {
        var events = file.Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n").SkipWhile(line => line != "BEGIN:VEVENT");
        Assert.All(events.Where(line => line.StartsWith("RRULE:", StringComparison.Ordinal)), rule =>
        {
            Assert.Matches(Template(), rule);
            Assert.True(rule.Contains(";UNTIL=", StringComparison.Ordinal) || rule.Contains(";COUNT=", StringComparison.Ordinal), rule);
            Assert.DoesNotMatch("BYMONTHDAY=(29|30|31)", rule);
        });
    }

    [GeneratedRegex(
        "^RRULE:(FREQ=DAILY|FREQ=WEEKLY;BYDAY=(SU|MO|TU|WE|TH|FR|SA)(,(SU|MO|TU|WE|TH|FR|SA))*|FREQ=MONTHLY;BYMONTHDAY=-?[0-9]{1,2}"
            + "|FREQ=MONTHLY;BYDAY=(SU|MO|TU|WE|TH|FR|SA);BYSETPOS=(-1|[1-4]))"
            + "(;INTERVAL=[0-9]+)?(;UNTIL=[0-9]{8}T[0-9]{6}Z|;COUNT=[0-9]{1,3})?(;WKST=(SU|MO|TU|WE|TH|FR|SA))?$",
        RegexOptions.CultureInvariant)]
    private static partial Regex Template();
}
