using System.Text;
using NodaTime;
using NodaTime.Text;
using WaterScript.Documents.ICalendar;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.ICalendar;

/// <summary>Calendars made by hand, and what has to stay the same about them.</summary>
public sealed class CalendarFileTests
{
    private static readonly CalendarOptions OpenEnded = Calendars.Plain with { IsOpenEnded = true };

    /// <summary>At, around and across the clock changes of seven zones, three units, with and without rules.</summary>
    [Theory]
    [InlineData("America/New_York", "2026-03-01", "02:30, 01:59:30, 03:00", "01:30, 00:50, 02:00")]
    [InlineData("Europe/Lisbon", "2026-03-20", "01:30, 00:55, 02:00", "01:30, 00:30, 01:00")]
    [InlineData("Europe/Dublin", "2026-03-20", "01:30, 00:55, 02:00", "01:30, 00:30, 01:00")]
    [InlineData("Australia/Lord_Howe", "2026-03-28", "01:45, 01:15, 02:00", "02:15, 01:55, 02:30")]
    [InlineData("Africa/Casablanca", "2026-02-08", "02:30, 01:55, 03:00", "02:30, 01:55, 03:00")]
    [InlineData("America/Santiago", "2026-03-28", "23:30, 22:50, 00:00", "00:30, 23:55, 01:00")]
    [InlineData("Asia/Kathmandu", "1985-12-20", "00:05, 00:00, 23:55", "00:10, 00:15, 12:00")]
    public void Clock_changes_are_read_as_the_timetable_has_them(string timeZone, string effective, string starts, string others)
    {
        var site = Sites.Read(Sites.Garden(
            $$"""
            schedule early { every day; start at {{starts}}; steps { water a for 10 min; pause 2 min; water b, c for 20 min } }
            schedule late { on mon, sun, sat; start at {{others}}; repeat every 50 min for 3 passes; steps { water b for 30 min } }
            schedule back { every 3 days; finish by 02:10; steps { water c for 3 h } }
            schedule after { start after back + 5 min; steps { water a for 90 s } }
            """,
            timeZone,
            effective));
        foreach (var unit in Enum.GetValues<EventUnit>())
        {
            foreach (var isFlat in (bool[])[false, true])
            {
                Calendars.Agrees(site, Horizon.DaysFrom(site.Effective, 300), OpenEnded with { Unit = unit, IsFlat = isFlat }, timeZone);
            }
        }
    }

    [Theory]
    [InlineData("every day", "FREQ=DAILY")]
    [InlineData("every 3 days", "FREQ=DAILY;INTERVAL=3")]
    [InlineData("on tue", "FREQ=WEEKLY;BYDAY=TU{0};WKST=MO")]
    [InlineData("on mon, wed to fri", "FREQ=WEEKLY;BYDAY=MO,WE,TH,FR{0};WKST=MO")]
    [InlineData("every 2 weeks on tue, thu", "FREQ=WEEKLY;BYDAY=TU,TH;INTERVAL=2{0};WKST=WE")]
    [InlineData("on odd days", "FREQ=MONTHLY;BYMONTHDAY=1,3,5,7,9,11,13,15,17,19,21,23,25,27,29,31")]
    [InlineData("on even days", "FREQ=MONTHLY;BYMONTHDAY=2,4,6,8,10,12,14,16,18,20,22,24,26,28,30")]
    [InlineData("on days 1, 15 of month", "FREQ=MONTHLY;BYMONTHDAY=1,15")]
    [InlineData("on last day of month", "FREQ=MONTHLY;BYMONTHDAY=-1")]
    [InlineData("on second tue of month", "FREQ=MONTHLY;BYDAY=2TU")]
    [InlineData("on last fri of month", "FREQ=MONTHLY;BYDAY=-1FR")]
    [InlineData("every day; from 1 apr to 30 sep", "FREQ=YEARLY;BYMONTH=4,5,6,7,8,9;BYDAY=MO,TU,WE,TH,FR,SA,SU")]
    [InlineData("on mon, thu; from 1 apr to 30 sep", "FREQ=YEARLY;BYMONTH=4,5,6,7,8,9;BYDAY=MO,TH")]
    [InlineData("on mon, thu; from 1 nov to last feb", "FREQ=YEARLY;BYMONTH=1,2,11,12;BYDAY=MO,TH")]
    public void A_recurrence_is_one_series_without_an_end(string days, string rule)
    {
        var site = Sites.Read(Sites.Garden($"schedule only {{ {days}; start at 06:00; steps {{ water a for 10 min }} }}"));
        var timetable = Timetable.Of(site, Horizon.YearFrom(site.Effective));
        var calendar = CalendarFile.Of(timetable, OpenEnded);
        Assert.Equal((1, 0L, false), (calendar.Series, calendar.SingleEvents, calendar.IsCut));
        var (before, after) = rule.Split("{0}") is [var first, var second] ? (first, second) : (rule, "");
        Assert.Contains($"RRULE:{before}{after}\r\n", Unfolded(Calendars.Write(timetable, OpenEnded)), StringComparison.Ordinal);
        if (days.Contains("from", StringComparison.Ordinal)) return;
        Assert.Matches($"RRULE:{before};(UNTIL=20[0-9T]+Z|COUNT=[0-9]+){after}\r\n", Unfolded(Calendars.Write(timetable, Calendars.Plain)));
    }

    /// <summary>Such a season begins or ends within a month, or goes by days of the month: a rule for each of its parts.</summary>
    [Theory]
    [InlineData("every day; from 16 apr to 15 oct", "BYMONTH=5,6,7,8,9;BYDAY=MO,TU,WE,TH,FR,SA,SU",
        "BYMONTH=4;BYMONTHDAY=16,17,18,19,20,21,22,23,24,25,26,27,28,29,30", "BYMONTH=10;BYMONTHDAY=1,2,3,4,5,6,7,8,9,10,11,12,13,14,15")]
    [InlineData("on tue, fri; from 25 jul to 5 sep", "BYMONTH=8;BYDAY=TU,FR", "BYMONTH=7;BYMONTHDAY=25,26,27,28,29,30,31;BYDAY=TU,FR",
        "BYMONTH=9;BYMONTHDAY=1,2,3,4,5;BYDAY=TU,FR")]
    [InlineData("on days 1, 15 of month; from 1 may to 31 jul", "BYMONTH=5;BYMONTHDAY=1,15", "BYMONTH=6;BYMONTHDAY=1,15", "BYMONTH=7;BYMONTHDAY=1,15")]
    [InlineData("on mon; from 1 dec to 28 feb", "BYMONTH=1,12;BYDAY=MO",
        "BYMONTH=2;BYMONTHDAY=1,2,3,4,5,6,7,8,9,10,11,12,13,14,15,16,17,18,19,20,21,22,23,24,25,26,27,28;BYDAY=MO")]
    public void A_season_within_months_is_a_rule_for_each_of_its_parts(string days, params string[] rules)
    {
        var site = Sites.Read(Sites.Garden($"schedule only {{ {days}; start at 06:00; steps {{ water a for 10 min }} }}"));
        var timetable = Timetable.Of(site, Horizon.YearFrom(site.Effective));
        Assert.False(CalendarFile.Of(timetable, OpenEnded).IsCut);
        var file = Unfolded(Calendars.Write(timetable, OpenEnded)).Split("\r\n");
        Assert.Equal(rules.Select(rule => $"RRULE:FREQ=YEARLY;{rule}").Order(), file.SkipWhile(line => line != "BEGIN:VEVENT")
            .Where(line => line.StartsWith("RRULE:", StringComparison.Ordinal)).Order());
    }

    /// <summary>It counts anew each year: no rule that all readers expand alike says it.</summary>
    [Theory]
    [InlineData("every 3 days; from 1 apr to 30 sep")]
    [InlineData("on odd days; from 29 feb to 30 sep")]
    public void A_season_that_no_rule_says_has_the_end_of_the_file(string days)
    {
        var site = Sites.Read(Sites.Garden($"schedule only {{ {days}; start at 06:00; steps {{ water a for 10 min }} }}"));
        var timetable = Timetable.Of(site, Horizon.YearFrom(site.Effective));
        var calendar = CalendarFile.Of(timetable, OpenEnded);
        Assert.True(calendar.IsCut);
        Assert.Equal(calendar.Series, Unfolded(Calendars.Write(timetable, OpenEnded)).Split(";UNTIL=").Length - 1
            + Unfolded(Calendars.Write(timetable, OpenEnded)).Split(";COUNT=").Length - 1);
    }

    [Fact]
    public void A_scale_by_the_month_is_a_series_for_each_length()
    {
        var site = Sites.Read(Sites.Garden(
            """
            scale year { apr 50 %; may 60 %; jun 60 %; aug 90 % }
            schedule only { on mon, thu; start at 06:00; scale year; steps { water a for 10 min } }
            """));
        var timetable = Timetable.Of(site, Horizon.YearFrom(site.Effective));
        var rules = Unfolded(Calendars.Write(timetable, OpenEnded)).Split("\r\n").SkipWhile(line => line != "BEGIN:VEVENT")
            .Where(line => line.StartsWith("RRULE:FREQ=YEARLY", StringComparison.Ordinal));
        Assert.Equal(["1,2,3,7,9,10,11,12", "4", "5,6", "8"], rules.Select(rule => rule.Split("BYMONTH=")[1].Split(';')[0]));
    }

    [Theory]
    [InlineData("start after first + 5 min")]
    [InlineData("every day; start at sunrise")]
    [InlineData("every day; start at 01:30")]
    [InlineData("every day; from 1 mar to 31 mar; start at 01:30")]
    [InlineData("every day; finish by 07:00; scale months")]
    [InlineData("every day; start at 01:00; scale months")]
    public void What_no_rule_says_for_ever_ends_and_is_named(string lines)
    {
        var site = Sites.Read(Sites.Garden(
            $$"""
            scale months { jul 200 %; nov 0 % }
            schedule first { every day; start at 06:00; steps { water b for 10 min } }
            schedule only { {{lines}}; steps { water a for 10 min } }
            """));
        var timetable = Timetable.Of(site, Horizon.YearFrom(site.Effective));
        Assert.Equal(["only"], CalendarFile.Of(timetable, OpenEnded).Cut.Select(schedule => schedule.Name));
    }

    /// <summary>Also where there is a month with nothing, and where the lengths come from the climate; compared with four years.</summary>
    [Theory]
    [InlineData("scale year { apr 50 %; jun 150 %; nov 0 % }")]
    [InlineData("scale year { by climate }")]
    public void Lengths_by_the_month_go_on_as_they_are(string scale)
    {
        var site = Sites.Read(Sites.Garden(
            $$"""
            climate {
              jan et 1 mm/day; feb et 1 mm/day; mar et 2 mm/day; apr et 3 mm/day; may et 4 mm/day; jun et 5 mm/day
              jul et 6 mm/day; aug et 6 mm/day; sep et 4 mm/day; oct et 3 mm/day; nov et 0.001 mm/day; dec et 1 mm/day
            }
            {{scale}}
            schedule only { every day; start at 06:00; scale year; steps { water a for 10 min } }
            """));
        var timetable = Timetable.Of(site, Horizon.YearFrom(site.Effective));
        Assert.False(CalendarFile.Of(timetable, OpenEnded).IsCut);
        var file = Calendars.Write(timetable, OpenEnded);
        Assert.All(Unfolded(file).Split("\r\n").Where(line => line.StartsWith("RRULE:FREQ=DAILY", StringComparison.Ordinal)), rule =>
            Assert.Contains(";UNTIL=", rule, StringComparison.Ordinal));
        var later = new Horizon(site.Effective, site.Effective.PlusYears(4));
        Assert.Equal(Calendars.Passes(Timetable.Of(site, later)),
            Calendars.Expand(file, later.Until.AtStartOfDayInZone(site.TimeZone).ToInstant().ToUnixTimeSeconds()));
    }

    [Fact]
    public void A_date_taken_out_is_an_exception_of_the_one_series()
    {
        var site = Sites.Read(Sites.Garden("schedule only { on tue; except 2026-06-02; start at 06:00; steps { water a for 10 min } }"));
        var timetable = Timetable.Of(site, Horizon.YearFrom(site.Effective));
        Assert.Equal((1, 0L), (CalendarFile.Of(timetable, OpenEnded).Series, CalendarFile.Of(timetable, OpenEnded).SingleEvents));
        Assert.Contains("\r\nEXDATE;TZID=Europe/Lisbon:20260602T060000\r\n", Calendars.Write(timetable, OpenEnded), StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_clock_change_touches_has_an_end_and_stands_alone_that_day()
    {
        var site = Sites.Read(Sites.Garden("schedule only { every day; start at 01:30; steps { water a for 10 min } }"));
        var timetable = Timetable.Of(site, Horizon.YearFrom(site.Effective));
        var calendar = CalendarFile.Of(timetable, OpenEnded);
        Assert.Equal((3, 2L, true), (calendar.Series, calendar.SingleEvents, calendar.IsCut));
        var file = Calendars.Write(timetable, OpenEnded);
        Assert.Contains("\r\nRRULE:FREQ=DAILY;UNTIL=20260328T013000Z\r\n", file, StringComparison.Ordinal);
        Assert.Contains("\r\nDTSTART:20260329T013000Z\r\nDTEND:20260329T014000Z\r\n", file, StringComparison.Ordinal);
        Assert.Contains("\r\nDTSTART;TZID=Europe/Lisbon:20260330T013000\r\n", file, StringComparison.Ordinal);
    }

    public static TheoryData<string> Labels =>
    [
        "Beds; herbs, and \\\"roses\\\"", "one\\ntwo", "back\\\\slash \\\\n", "\U0001F345 tomatoes \U0001F468\u200D\U0001F33E", new string('x', 300),
            string.Concat(Enumerable.Repeat("\u00E9\u4E2D\U0001F331", 100)),
        "END:VEVENT", "x\\nEND:VEVENT\\nEND:VCALENDAR\\nBEGIN:VALARM", " leading and trailing ", "a:b;c=d", "BEGIN:VEVENT\\nATTACH:file",
    ];

    /// <summary>A label is written in the source with the escapes of a label; what a reader gives back is the label itself.</summary>
    [Theory]
    [MemberData(nameof(Labels))]
    public void Labels_come_back_unchanged_and_bring_nothing_in(string written)
    {
        var site = Sites.Read(
            $$"""
            site garden "{{written}}" { timezone Europe/Lisbon; effective 2026-01-01 }
            zone a "{{written}}" { output 1 }
            schedule only "{{written}}" { every day; note "{{written}}"; start at 06:00; steps { water a for 10 min } }
            """);
        var label = site.Label!;
        var file = Calendars.Write(Timetable.Of(site, Horizon.DaysFrom(site.Effective, 30)), Calendars.Plain);
        Assert.All(file.Split("\r\n"), line => Assert.InRange(Encoding.UTF8.GetByteCount(line), 0, 75));
        Assert.DoesNotContain('\uFFFD', file);
        var only = Assert.Single(Calendars.Events(file));
        Assert.Equal((label, label), (only.Summary, only.Location));
        Assert.Equal([label], only.Categories);
        Assert.Equal($"06:00 {label}: 10 min\n{label}\nFrom site.water:3", only.Description);
        Assert.Equal(1, Unfolded(file).Split("\r\n").Count(line => line == "END:VEVENT"));
        Assert.Equal(2, Unfolded(file).Split("\r\n")
            .Count(line => line.StartsWith("NAME:", StringComparison.Ordinal) || line.StartsWith("X-WR-CALNAME:", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_same_timetable_gives_the_same_bytes()
    {
        var text = Sites.Garden(Two);
        Assert.Equal(Of(text), Of(text));
    }

    [Fact]
    public void Run_times_and_labels_keep_the_names_of_events()
    {
        var uids = Uids(Sites.Garden(Two));
        Assert.Equal(uids.Count, uids.Distinct().Count());
        Assert.Equal(uids, Uids(Sites.Garden(Two.Replace("10 min", "12 min", StringComparison.Ordinal))));
        Assert.Equal(uids, Uids(Sites.Garden(Two.Replace("schedule one", "schedule one \"First\"", StringComparison.Ordinal))));
        Assert.Equal(uids, Uids(Sites.Garden(Two.Replace("06:00", "07:00", StringComparison.Ordinal))));
    }

    [Fact]
    public void Without_a_schedule_the_events_of_others_keep_their_names()
    {
        var all = Uids(Sites.Garden(Two));
        var rest = Uids(Sites.Garden(Two[Two.IndexOf("schedule two", StringComparison.Ordinal)..]));
        Assert.NotEmpty(rest);
        Assert.Subset(all.ToHashSet(), rest.ToHashSet());
    }

    [Fact]
    public void A_later_first_day_keeps_the_names_of_events()
    {
        var site = Sites.Read(Sites.Garden(Two));
        var all = Calendars.Events(Calendars.Write(Timetable.Of(site, Horizon.YearFrom(site.Effective)), Calendars.Plain)).Select(one => one.Uid).ToHashSet();
        var later = Calendars.Events(Calendars.Write(Timetable.Of(site, new Horizon(new LocalDate(2026, 5, 1), site.Effective.PlusYears(1))), Calendars.Plain))
            .Select(one => one.Uid).ToHashSet();
        Assert.Subset(all, later);
    }

    [Fact]
    public void A_timetable_without_a_pass_is_no_calendar()
    {
        var site = Sites.Read(Sites.Garden(Two));
        var calendar = CalendarFile.Of(Timetable.Of(site, Horizon.DaysFrom(new LocalDate(2020, 1, 1), 5)), Calendars.Plain);
        Assert.True(calendar.IsEmpty);
        Assert.Throws<InvalidOperationException>(() => calendar.Write(Stream.Null));
    }

    /// <summary>Asked for twice on one date, a schedule gives two events, whatever an event shows, and apart from those of its calendar.</summary>
    [Fact]
    public void Passes_of_a_date_asked_for_alone_have_names_of_their_own()
    {
        var site = Sites.Read(Sites.Garden(Two + "\nschedule by-hand { manual; steps { water a for 10 min; water b for 2 min } }"));
        foreach (var name in (string[])["by-hand", "one"])
        {
            var schedule = site.Schedules.First(one => one.Name == name);
            foreach (var unit in Enum.GetValues<EventUnit>())
            {
                var uids = ((LocalTime[])[new(6, 0), new(6, 0, 1), new(18, 30)])
                    .SelectMany(time =>
                        Calendars.Events(Calendars.Write(Timetable.OfOnePass(site, schedule, new LocalDate(2026, 5, 1) + time),
                        Calendars.Plain with { Unit = unit })))
                    .Concat(Calendars.Events(Calendars.Write(Timetable.Of(site, Horizon.DaysFrom(new LocalDate(2026, 5, 1), 1)),
                        Calendars.Plain with { Unit = unit })))
                    .Select(one => one.Uid).ToList();
                Assert.Equal(uids.Count, uids.Distinct().Count());
            }
        }
    }

    [Fact]
    public void A_pass_asked_for_again_keeps_its_name()
    {
        var site = Sites.Read(Sites.Garden("schedule by-hand { manual; steps { water a for 10 min } }"));
        var longer = Sites.Read(Sites.Garden("schedule by-hand { manual; steps { water a for 12 min } }"));
        Assert.Equal(UidOf(site), UidOf(longer));

        static string? UidOf(Model.Site site) =>
            Assert.Single(Calendars.Events(Calendars.Write(Timetable.OfOnePass(site, site.Schedules[0], new LocalDateTime(2026, 5, 1, 6, 0)),
                Calendars.Plain))).Uid;
    }

    /// <summary>By what is written, not by how long a day of the dates shown is: in Lisbon the sun is up for 9 to 15 hours.</summary>
    [Theory]
    [InlineData("start at 06:00; repeat every 1 h for 12 passes", EventUnit.Pass)]
    [InlineData("start at 06:00; repeat every 1 h for 13 passes", EventUnit.Day)]
    [InlineData("start at 06:00, 18:30; repeat every 1 h for 6 passes", EventUnit.Pass)]
    [InlineData("start at sunrise; repeat every 65 min until sunset", EventUnit.Pass)]
    [InlineData("start at sunrise; repeat every 1 h until sunset", EventUnit.Day)]
    [InlineData("start at 22:00; repeat every 1 h until 09:59 next day", EventUnit.Pass)]
    [InlineData("start at 22:00; repeat every 1 h until 10:00 next day", EventUnit.Day)]
    [InlineData("start after other + 1 h; repeat every 1 h until 17:59", EventUnit.Pass)]
    [InlineData("start after other + 1 h; repeat every 1 h until 18:00", EventUnit.Day)]
    public void What_an_event_shows_does_not_turn_with_the_season(string starts, object unit)
    {
        var site = Sites.Read(Sites.Garden(
            $$"""
            schedule other { every day; start at 05:00; steps { water a for 10 min } }
            schedule only { every day; {{starts}}; steps { water b for 10 min } }
            """));
        foreach (var first in (LocalDate[])[new(2026, 1, 5), new(2026, 6, 20), new(2026, 12, 20)])
        {
            var timetable = Timetable.Of(site, Horizon.DaysFrom(first, 3));
            Assert.Equal(UidsOf(timetable, Calendars.Plain with { Unit = (EventUnit)unit }), UidsOf(timetable, Calendars.Plain));
        }

        static IEnumerable<string?> UidsOf(Timetable timetable, CalendarOptions options) =>
            Calendars.Events(Calendars.Write(timetable, options)).Where(one => one.Summary == "only").Select(one => one.Uid);
    }

    [Fact]
    public void Many_passes_a_day_are_shown_as_one_event()
    {
        var site = Sites.Read(Sites.Garden("schedule mist { every day; start at 06:35; repeat every 8 min until 19:31; steps { water a for 45 s } }"));
        var file = Calendars.Write(Timetable.Of(site, Horizon.YearFrom(site.Effective)), OpenEnded);
        Assert.Equal("98 times, 06:35 to 19:31\na: 45 s, 4.5 L\nFrom site.water:5", Assert.Single(Calendars.Events(file)).Description);
    }

    /// <summary>Some readers lose their way in a series of every so many weeks that begins behind another of its weekdays.</summary>
    [Theory]
    [InlineData(3, 23)] // a Monday: the Sunday before it is in the same week, counted from Thursday, the first date
    [InlineData(3, 22)]
    [InlineData(3, 9)]
    public void A_series_of_every_so_many_weeks_begins_with_the_first_of_its_weekdays(int month, int day)
    {
        var site = Sites.Read(Sites.Garden("schedule only { every 2 weeks on sun, mon; start at 06:00; steps { water a for 10 min } }"));
        var horizon = new Horizon(new LocalDate(2026, month, day), new LocalDate(2026, 7, 1));
        var file = Calendars.Agrees(site, horizon, Calendars.Plain, "");
        Assert.Contains("INTERVAL=2", file, StringComparison.Ordinal);
        Assert.Equal(IsoDayOfWeek.Sunday,
            LocalDatePattern.CreateWithInvariantCulture("uuuuMMdd").Parse(file.Split("DTSTART;TZID=Europe/Lisbon:")[1][..8]).Value.DayOfWeek);
    }

    private const string Two = """
        schedule one { every day; start at 06:00, 20:00; steps { water a for 10 min } }
        schedule two { on mon; start at 01:30; repeat every 40 min for 2 passes; steps { water b for 10 min } }
        """;

    private static List<string?> Uids(string text) => [.. Calendars.Events(Of(text)).Select(one => one.Uid).Order(StringComparer.Ordinal)];

    private static string Of(string text)
    {
        var site = Sites.Read(text);
        return Calendars.Write(Timetable.Of(site, Horizon.YearFrom(site.Effective)), OpenEnded);
    }

    private static string Unfolded(string file) => file.Replace("\r\n ", "", StringComparison.Ordinal);
}
