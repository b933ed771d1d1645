using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Oracles;

/// <summary>Each reader keeps to the command that <c>tests/oracles/README.md</c> describes.</summary>
public sealed class ReaderTests : Workshop
{
    private const string From = "2026-01-01T00:00:00Z";
    private const string Until = "2027-01-01T00:00:00Z";

    private const string Lisbon = """
        BEGIN:VTIMEZONE
        TZID:Europe/Lisbon
        BEGIN:DAYLIGHT
        DTSTART:20200329T010000
        RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=-1SU
        TZOFFSETFROM:+0000
        TZOFFSETTO:+0100
        END:DAYLIGHT
        BEGIN:STANDARD
        DTSTART:20191027T020000
        RRULE:FREQ=YEARLY;BYMONTH=10;BYDAY=-1SU
        TZOFFSETFROM:+0100
        TZOFFSETTO:+0000
        END:STANDARD
        END:VTIMEZONE

        """;

    private const string Sundays = """
        BEGIN:VEVENT
        UID:sundays
        DTSTAMP:20260101T000000Z
        DTSTART;TZID=Europe/Lisbon:20260315T060000
        DTEND;TZID=Europe/Lisbon:20260315T062000
        RRULE:FREQ=WEEKLY;WKST=MO;BYDAY=SU;UNTIL=20260419T225959Z
        EXDATE;TZID=Europe/Lisbon:20260405T060000
        END:VEVENT

        """;

    private const string Once = """
        BEGIN:VEVENT
        UID:once
        DTSTAMP:20260101T000000Z
        DTSTART:20260322T060000Z
        DURATION:PT45S
        END:VEVENT

        """;

    /// <summary>Worked out by hand: summer time begins on 29 March, the 5th of April is taken out.</summary>
    private const string Expected = """
        20260315T060000Z 20260315T062000Z sundays
        20260322T060000Z 20260322T060045Z once
        20260322T060000Z 20260322T062000Z sundays
        20260329T050000Z 20260329T052000Z sundays
        20260412T050000Z 20260412T052000Z sundays
        20260419T050000Z 20260419T052000Z sundays

        """;

    [Theory]
    [Reader("ical.js")]
    [Reader("icalendar")]
    [Reader("libical")]
    [Reader("recurring-ical-events")]
    [Reader("sabre-vobject")]
    [Reader("node-ical")]
    [Reader("kcalendarcore")]
    public void A_reader_prints_what_starts_in_the_span(string reader)
    {
        var file = WriteCalendar("good.ics", Calendar(Lisbon + Sundays + Once));

        Assert.Equal((Expected.ReplaceLineEndings("\n"), "", 0), Reader.Named(reader).ExpandOne(new(file, From, Until)));
        Assert.Equal(
            ("20260329T050000Z 20260329T052000Z sundays\n", "", 0),
            Reader.Named(reader).ExpandOne(new(file, "2026-03-29T05:00:00Z", "2026-04-12T05:00:00Z")));
    }

    [Theory]
    [Reader("ical.js")]
    [Reader("icalendar")]
    [Reader("libical")]
    [Reader("recurring-ical-events")]
    [Reader("sabre-vobject")]
    [Reader("node-ical")]
    [Reader("kcalendarcore")]
    public void A_reader_goes_on_after_a_file_that_it_refuses(string reader)
    {
        var good = new Reader.Question(WriteCalendar("good.ics", Calendar(Lisbon + Sundays + Once)), From, Until);
        var bad = new Reader.Question(WriteCalendar("bad.ics", "BEGIN:VCALENDAR\n"), From, Until);

        var answers = Reader.Named(reader).Expand([good, bad, good]);

        Assert.Equal([false, true, false], answers.Select(answer => answer.IsRefused));
        Assert.Equal([6, 0, 6], answers.Select(answer => answer.Occurrences.Length));
    }

    [Theory]
    [Reader("ical.js")]
    [Reader("icalendar")]
    [Reader("libical")]
    [Reader("recurring-ical-events")]
    [Reader("sabre-vobject")]
    [Reader("node-ical")]
    [Reader("kcalendarcore")]
    public void A_reader_refuses_a_malformed_file(string reader)
    {
        var good = Calendar(Lisbon + Sundays + Once);
        var bad = new Dictionary<string, string>
        {
            ["empty"] = "",
            ["no-calendar"] = "<html></html>\n",
            ["not-closed"] = good.Replace("END:VEVENT\nEND:VCALENDAR\n", "", StringComparison.Ordinal),
            ["no-start"] = good.Replace("DTSTART:20260322T060000Z\n", "", StringComparison.Ordinal),
            ["no-uid"] = good.Replace("UID:once\n", "", StringComparison.Ordinal),
            ["no-stamp"] = good.Replace("UID:once\nDTSTAMP:20260101T000000Z\n", "UID:once\n", StringComparison.Ordinal),
            ["no-such-date"] = good.Replace("20260322T060000Z", "tomorrow", StringComparison.Ordinal),
            ["no-such-frequency"] = good.Replace("FREQ=WEEKLY", "FREQ=FORTNIGHTLY", StringComparison.Ordinal),
            ["no-zone"] = Calendar(Sundays + Once).Replace("Europe/Lisbon", "Garden Time", StringComparison.Ordinal),
            ["no-colon"] = good.Replace("DURATION:PT45S", "DURATION:PT45S\nwater the beds", StringComparison.Ordinal),
        };
        var questions = bad.Select(file => new Reader.Question(WriteCalendar(file.Key + ".ics", file.Value), From, Until)).ToList();

        var answers = Reader.Named(reader).Expand(questions);

        Assert.Empty(bad.Keys.Zip(answers).Where(pair => !pair.Second.IsRefused).Select(pair => pair.First));
        Assert.All(questions.Take(3), question =>
        {
            var (output, error, status) = Reader.Named(reader).ExpandOne(question);
            Assert.Empty(output);
            Assert.NotEmpty(error);
            Assert.NotEqual(0, status);
        });
    }

    private static string Calendar(string components) =>
        "BEGIN:VCALENDAR\nVERSION:2.0\nPRODID:-//By hand//EN\n" + components.ReplaceLineEndings("\n") + "END:VCALENDAR\n";

    private string WriteCalendar(string name, string text) => Write(name, text.Replace("\n", "\r\n", StringComparison.Ordinal));
}
