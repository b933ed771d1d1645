using System.Text;
using NodaTime;
using Xunit;

namespace WaterScript.Tests.Rfc5545;

/// <summary>The strict reader takes what RFC 5545 allows and refuses what it forbids.</summary>
public sealed class StrictCalendarTests
{
    private const string Good = """
        BEGIN:VCALENDAR
        PRODID:-//By hand//EN
        VERSION:2.0
        BEGIN:VTIMEZONE
        TZID:Europe/Lisbon
        BEGIN:DAYLIGHT
        DTSTART:20250330T010000
        RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU
        TZOFFSETFROM:+0000
        TZOFFSETTO:+0100
        END:DAYLIGHT
        BEGIN:STANDARD
        DTSTART:20251026T020000
        RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU
        TZOFFSETFROM:+0100
        TZOFFSETTO:+0000
        END:STANDARD
        END:VTIMEZONE
        BEGIN:VEVENT
        UID:sundays
        DTSTAMP:20260101T000000Z
        DTSTART;TZID=Europe/Lisbon:20260315T060000
        DTEND;TZID=Europe/Lisbon:20260315T062000
        RRULE:FREQ=WEEKLY;WKST=MO;BYDAY=SU;UNTIL=20260419T225959Z
        EXDATE;TZID=Europe/Lisbon:20260405T060000
        SUMMARY:Lemons\, limes\; and\nmore \\ 🍋
        CATEGORIES:lemons,limes
        END:VEVENT
        BEGIN:VEVENT
        UID:once
        DTSTAMP:20260101T000000Z
        DTSTART:20260322T060000Z
        DURATION:PT1H0M30S
        DESCRIPTION:A line that goes on
          over the end
        END:VEVENT
        END:VCALENDAR

        """;

    [Fact]
    public void A_conforming_file_is_read()
    {
        var calendar = StrictCalendar.Read(Bytes(Conforming));

        var (first, second) = (calendar.Events.First(), calendar.Events.Last());
        Assert.Equal("Lemons, limes; and\nmore \\ 🍋", first.Text("SUMMARY"));
        Assert.Equal(["lemons", "limes"], Values.Texts(first.The("CATEGORIES")));
        Assert.Equal("A line that goes on over the end", second.Text("DESCRIPTION"));
        Assert.Equal(3630, Values.Duration(second.The("DURATION")));
        Assert.Equal(Instant.FromUtc(2025, 3, 30, 1, 0), calendar.Zones.Single().FirstOnset);
    }

    [Theory]
    [InlineData(2026, 3, 29, 0, 59, 0)]
    [InlineData(2026, 3, 29, 1, 0, 3600)]
    [InlineData(2026, 10, 25, 0, 59, 3600)]
    [InlineData(2026, 10, 25, 1, 0, 0)]
    public void A_zone_is_read_by_the_file(int year, int month, int day, int hour, int minute, int offset) =>
        Assert.Equal(offset, StrictCalendar.Read(Bytes(Conforming)).Zones.Single().OffsetAt(Instant.FromUtc(year, month, day, hour, minute)));

    [Fact]
    public void A_time_of_the_wall_is_shown_never_once_or_twice()
    {
        var zone = StrictCalendar.Read(Bytes(Conforming)).Zones.Single();

        Assert.Empty(zone.Instants(new LocalDateTime(2026, 3, 29, 1, 30)));
        Assert.Equal([Instant.FromUtc(2026, 3, 29, 1, 30)], zone.Instants(new LocalDateTime(2026, 3, 29, 2, 30)));
        Assert.Equal([Instant.FromUtc(2026, 10, 25, 0, 30), Instant.FromUtc(2026, 10, 25, 1, 30)], zone.Instants(new LocalDateTime(2026, 10, 25, 1, 30)));
    }

    /// <summary>What is changed in the file, into what, and a word of the complaint.</summary>
    [Theory]
    [InlineData("PRODID:-//By hand//EN\n", "", "PRODID")]
    [InlineData("VERSION:2.0", "VERSION:1.0", "version")]
    [InlineData("VERSION:2.0", "VERSION:2.0\nVERSION:2.0", "twice")]
    [InlineData("VERSION:2.0", "VERSION", "content line")]
    [InlineData("VERSION:2.0", "VERSION:2.0\n", "empty")]
    [InlineData("END:VCALENDAR\n", "END:VCALENDAR", "CR LF")]
    [InlineData("END:VCALENDAR\n", "", "closed")]
    [InlineData("END:VCALENDAR\n", "END:VCALENDAR\nX-MORE:1\n", "after the end")]
    [InlineData("END:VEVENT\nEND:VCALENDAR", "END:VCALENDAR\nEND:VEVENT", "closes nothing")]
    [InlineData("CATEGORIES:lemons,limes", "GARDEN:lemons", "GARDEN")]
    [InlineData("CATEGORIES:lemons,limes", "CATEGORIES:lemons,", "empty category")]
    [InlineData("CATEGORIES:lemons,limes", "X-A_B:lemons", "content line")]
    [InlineData("CATEGORIES:lemons,limes", "COMMENT:a\u0007bell", "control")]
    [InlineData("CATEGORIES:lemons,limes", "COMMENT:a line of this file that has one more octet than the RFC allows it x", "76 octets")]
    [InlineData("Lemons\\, limes", "Lemons, limes", "comma")]
    [InlineData("limes\\; and", "limes; and", "semicolon")]
    [InlineData("more \\\\ ", "more \\t ", "escape")]
    [InlineData("UID:once", "UID:sundays", "second event")]
    [InlineData("UID:once\n", "", "UID")]
    [InlineData("DTSTAMP:20260101T000000Z\nDTSTART;", "DTSTAMP:20260101T000000\nDTSTART;", "UTC")]
    [InlineData("DTSTAMP:20260101T000000Z\nDTSTART;", "DTSTART;", "DTSTAMP")]
    [InlineData("DTSTART:20260322T060000Z\n", "", "DTSTART")]
    [InlineData("DTSTART:20260322T060000Z", "DTSTART:20260322T060000", "floating")]
    [InlineData("DTSTART:20260322T060000Z", "DTSTART;VALUE=DATE:20260322", "DTEND")]
    [InlineData("DTSTART:20260322T060000Z", "DTSTART:20260230T060000Z", "DATE-TIME")]
    [InlineData("DTSTART:20260322T060000Z", "DTSTART;TZID=Europe/Oslo:20260322T060000", "no VTIMEZONE")]
    [InlineData("DTSTART:20260322T060000Z", "DTSTART;TZID=Europe/Lisbon:20260322T060000Z", "both")]
    [InlineData("DTSTART:20260322T060000Z", "DTSTART;TZID=Europe/Lisbon:20260329T013000", "skipped")]
    [InlineData("DTSTART:20260322T060000Z", "DTSTART;TZID=Europe/Lisbon:20261025T013000", "twice")]
    [InlineData("DTSTART:20260322T060000Z", "DTSTART;TZID=Europe/Lisbon:20240322T060000", "first onset")]
    [InlineData("DURATION:PT1H0M30S\n", "", "either")]
    [InlineData("DURATION:PT1H0M30S", "DURATION:PT1H0M30S\nDTEND:20260322T070000Z", "either")]
    [InlineData("DURATION:PT1H0M30S", "DURATION:PT0S", "duration")]
    [InlineData("DURATION:PT1H0M30S", "DURATION:PT1H30S", "duration")]
    [InlineData("DURATION:PT1H0M30S", "DURATION:PT", "duration")]
    [InlineData("20260315T062000", "20260315T060000", "after its start")]
    [InlineData("UNTIL=20260419T225959Z", "UNTIL=20260419T235959", "UTC")]
    [InlineData("UNTIL=20260419T225959Z", "UNTIL=20260301T000000Z", "before the start")]
    [InlineData("UNTIL=20260419T225959Z", "UNTIL=20260419T225959Z;COUNT=3", "both UNTIL and COUNT")]
    [InlineData("UNTIL=20260419T225959Z", "BYHOUR=6,7", "no part")]
    [InlineData("UNTIL=20260419T225959Z", "INTERVAL=0", "range")]
    [InlineData("UNTIL=20260419T225959Z", "BYDAY=MO", "second of its kind")]
    [InlineData("WKST=MO;BYDAY=SU", "WKST=MO;BYDAY=MO", "no instance")]
    [InlineData("WKST=MO;BYDAY=SU", "WKST=MO;BYDAY=SU,", "no part")]
    [InlineData("FREQ=WEEKLY;WKST=MO;BYDAY=SU", "FREQ=MONTHLY;BYDAY=2SU", "no instance")]
    [InlineData("FREQ=WEEKLY;WKST=MO;BYDAY=SU", "FREQ=MONTHLY;BYMONTHDAY=-16", "no instance")]
    [InlineData("FREQ=WEEKLY;WKST=MO;BYDAY=SU", "FREQ=WEEKLY;BYDAY=3SU", "nth")]
    [InlineData("FREQ=WEEKLY;WKST=MO;BYDAY=SU", "WKST=MO;BYDAY=SU", "FREQ")]
    [InlineData("EXDATE;TZID=Europe/Lisbon:20260405T060000", "EXDATE:20260405T050000Z", "zone of its start")]
    [InlineData("EXDATE;TZID=Europe/Lisbon:20260405T060000", "RDATE;TZID=Europe/Lisbon:20260405T060000", "RDATE")]
    [InlineData(
        "DTSTART;TZID=Europe/Lisbon:20260315T060000\nDTEND;TZID=Europe/Lisbon:20260315T062000\n"
            + "RRULE:FREQ=WEEKLY;WKST=MO;BYDAY=SU;UNTIL=20260419T225959Z\nEXDATE;TZID=Europe/Lisbon:20260405T060000",
        "DTSTART:20260315T060000Z\nDURATION:PT1M",
        "no event is in")]
    [InlineData("TZOFFSETTO:+0100\n", "", "TZOFFSETTO")]
    [InlineData("TZOFFSETTO:+0100\n", "TZOFFSETTO:+0130\n", "go on from")]
    [InlineData("TZOFFSETTO:+0100\n", "TZOFFSETTO:100\n", "offset")]
    [InlineData("DTSTART:20251026T020000", "DTSTART:20251026T020000Z", "local time")]
    [InlineData("DTSTART:20251026T020000", "DTSTART:20251027T020000", "yearly rule")]
    [InlineData("BYMONTH=10;BYDAY=-1SU", "BYMONTH=10;BYDAY=-1SU;UNTIL=20301027T020000", "UTC")]
    public void A_file_that_does_not_conform_is_refused(string from, string to, string word)
    {
        Assert.Contains(from, Conforming, StringComparison.Ordinal);

        var refusal = Assert.Throws<Malformed>(() => StrictCalendar.Read(Bytes(Conforming.Replace(from, to, StringComparison.Ordinal))));

        Assert.Contains(word, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_fold_inside_a_character_is_refused()
    {
        var bytes = Bytes(Conforming);
        var inside = bytes.AsSpan().IndexOf("🍋"u8) + 2;

        var refusal = Assert.Throws<Malformed>(() => StrictCalendar.Read([.. bytes[..inside], .. "\r\n "u8, .. bytes[inside..]]));

        Assert.Contains("UTF-8", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_bare_line_feed_is_refused() =>
        Assert.Throws<Malformed>(() => StrictCalendar.Read(Encoding.UTF8.GetBytes(Conforming)));

    [Theory]
    [InlineData("FREQ=MONTHLY;BYDAY=-1FR", "20261030", true)]
    [InlineData("FREQ=MONTHLY;BYDAY=-1FR", "20261023", false)]
    [InlineData("FREQ=MONTHLY;BYMONTHDAY=-1", "20280229", true)]
    [InlineData("FREQ=MONTHLY;BYMONTHDAY=-1", "20280228", false)]
    [InlineData("FREQ=MONTHLY;BYMONTHDAY=1,3,31", "20260131", true)]
    [InlineData("FREQ=YEARLY;BYMONTH=4;BYMONTHDAY=6", "20260406", true)]
    [InlineData("FREQ=YEARLY;BYDAY=20MO", "19970519", true)] // S: RFC 5545, 3.8.5.3, "Every 20th Monday of the year".
    [InlineData("FREQ=YEARLY;BYDAY=20MO", "19970512", false)]
    [InlineData("FREQ=DAILY;BYMONTH=1", "19980102", true)]
    [InlineData("FREQ=DAILY;BYMONTH=1", "19980201", false)]
    public void A_rule_has_a_date_or_not(string rule, string date, bool expected) =>
        Assert.Equal(expected, RecurrenceRule.Of(new ContentLine(1, "RRULE", new Dictionary<string, string>(), rule))
            .Has(NodaTime.Text.LocalDatePattern.CreateWithInvariantCulture("uuuuMMdd").Parse(date).Value));

    private static string Conforming => Good.ReplaceLineEndings("\n");

    private static byte[] Bytes(string text) => Encoding.UTF8.GetBytes(text.ReplaceLineEndings("\r\n"));
}
