using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary><c>compile --to icalendar</c>.</summary>
public sealed class CalendarTests : Workshop
{
    [Fact]
    public void A_calendar_goes_to_the_file_and_what_it_is_to_standard_error()
    {
        Write("site.water", Good);
        var result = RunLine("compile site.water --to icalendar -o site.ics");
        Assert.Equal(("", "Garden: 1 series.\n", 0), (result.Output, result.Error, result.ExitCode));
        Assert.StartsWith("BEGIN:VCALENDAR\r\nVERSION:2.0\r\n", Read("site.ics"), StringComparison.Ordinal);
        Assert.EndsWith("\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n", Read("site.ics"), StringComparison.Ordinal);
    }

    /// <summary>Daily at a fixed time it has no end; by the sun it has one, and that is told by name.</summary>
    [Fact]
    public void What_goes_on_after_the_dates_shown_is_named()
    {
        Write("site.water", Good + "\nschedule late { every day; start at 01:30; steps { water lawn for 10 min } }\n");
        var result = RunLine("compile site.water --to icalendar -o site.ics");
        Assert.Contains(" Shown to 28 Feb 2027; what goes on after that needs a later --until: late.", result.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "DTSTAMP:20260301T000000Z")]
    [InlineData("", "RRULE:FREQ=DAILY\r\n")]
    [InlineData("--stamp 2026-05-01T09:30:00Z", "DTSTAMP:20260501T093000Z")]
    [InlineData("--sequence 7", "SEQUENCE:7")]
    [InlineData("--days 9", "RRULE:FREQ=DAILY;UNTIL=20260309T235959Z")]
    [InlineData("--flat --days 9", "DTSTART:20260309T060000Z")]
    [InlineData("--events step --flat --days 1", "DTEND:20260301T062000Z")]
    [InlineData("--events day", "RRULE:FREQ=DAILY\r\n")]
    [InlineData("--run morning --at 2026-05-01T09:30", "DTSTART:20260501T083000Z")]
    public void Options_say_what_is_in_it(string options, string there)
    {
        Write("site.water", Good);
        Assert.Contains(there, RunLine($"compile site.water --to icalendar {options}").Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--stamp 2026-05-01T09:30:00",
        "\"2026-05-01T09:30:00\" is not a time in UTC, as --stamp needs one; write it like 2026-05-01T09:30:00Z, with the Z")]
    [InlineData("--stamp 2026-05-01T09:30:00+02:00", "is not a time in UTC")]
    [InlineData("--sequence -1", "--sequence must be a whole number from 0 to 2147483647, not \"-1\"")]
    [InlineData("--events pas", "did you mean pass?")]
    [InlineData("--only runs", "--only is for timetables; a calendar has events only")]
    [InlineData("--from 2020-01-01 --days 3",
        "there is no watering from 1 Jan 2020 to 3 Jan 2020, and a calendar without an event is none; choose other dates")]
    public void What_cannot_be_written_says_why(string options, string why)
    {
        Write("site.water", Good);
        var result = RunLine($"compile site.water --to icalendar {options}");
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
    }

    [Fact]
    public void Options_of_a_calendar_are_refused_elsewhere()
    {
        Write("site.water", Good);
        Assert.Contains("--flat is for calendars only: --to icalendar", RunLine("compile site.water --to yaml --flat").Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Too_many_single_events_are_written_only_when_told_to()
    {
        Write("site.water", Good.Replace("start at 06:00", "start at 06:00; repeat every 25 min for 40 passes", StringComparison.Ordinal));
        var refused = RunLine("compile site.water --to icalendar --flat --events pass --until 2028-03-01");
        Assert.Contains(
            "29240 single events are more than the 20000 that calendar apps bear; choose fewer days, --events day, leave out --flat, "
                + "or write them all the same with --despite-size",
            refused.Error,
            StringComparison.Ordinal);
        Assert.Equal(("", 2), (refused.Output, refused.ExitCode));
        var written = RunLine("compile site.water --to icalendar --flat --events pass --until 2028-03-01 --despite-size");
        Assert.Equal(0, written.ExitCode);
        Assert.Contains("Calendar apps take some milliseconds for each single event: expect them to be slow.", written.Error, StringComparison.Ordinal);
    }
}
