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

    /// <summary>Daily at a fixed time it has no end; by the sun it has one, and that is reported by name.</summary>
    [Fact]
    public void What_goes_on_after_the_dates_shown_is_named()
    {
        Write("site.water", Good + "\nschedule late { every day; start at 01:30; steps { water lawn for 10 min } }\n");
        var result = RunLine("compile site.water --to icalendar -o site.ics");
        Assert.Contains(" Shown to 28 Feb 2027; what goes on after that needs a later --until: late.", result.Error, StringComparison.Ordinal);
    }

    /// <summary>A file that is written again counts for itself what changed in it.</summary>
    [Fact]
    public void The_file_that_is_replaced_gives_the_revisions()
    {
        Write("site.water", Good);
        RunLine("compile site.water --to icalendar -o site.ics");
        RunLine("compile site.water --to icalendar -o site.ics");
        Assert.Contains("\r\nSEQUENCE:0\r\n", Read("site.ics"), StringComparison.Ordinal);
        Write("site.water", Good.Replace("start at 06:00", "start at 07:00", StringComparison.Ordinal));
        RunLine("compile site.water --to icalendar -o site.ics");
        Assert.Contains("\r\nSEQUENCE:1\r\n", Read("site.ics"), StringComparison.Ordinal);
        var next = RunLine("compile site.water --to icalendar --previous site.ics --title {label}");
        Assert.Contains("\r\nSEQUENCE:2\r\n", next.Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_line_end_in_the_label_of_a_site_breaks_no_line_on_the_console()
    {
        Write("site.water", Good.Replace("site garden \"Garden\"", "site garden \"Gar\\nden\"", StringComparison.Ordinal));
        var result = RunLine("compile site.water --to icalendar -o site.ics");
        Assert.Equal(0, result.ExitCode);
        Assert.Single(result.Error.TrimEnd('\n').Split('\n'));
    }

    [Theory]
    [InlineData("", "DTSTAMP:20260301T000000Z")]
    [InlineData("", "RRULE:FREQ=DAILY\r\n")]
    [InlineData("--stamp 2026-05-01T09:30:00Z", "DTSTAMP:20260501T093000Z")]
    [InlineData("--sequence 7", "SEQUENCE:7")]
    [InlineData("--rules simple --days 9", "RRULE:FREQ=DAILY;UNTIL=20260309T060000Z")]
    [InlineData("--title {name}", "SUMMARY:morning")]
    [InlineData("--alarm 30min", "TRIGGER:-PT30M")]
    [InlineData("--alarm 1h", "TRIGGER:-PT60M")]
    [InlineData("--days 9", "SUMMARY:Watering calendar ends here: export it again")]
    [InlineData("", "REFRESH-INTERVAL;VALUE=DURATION:P1D\r\nX-PUBLISHED-TTL:P1D\r\nCOLOR:steelblue\r\n")]
    [InlineData("", "SEQUENCE:0\r\nLAST-MODIFIED:20260301T000000Z\r\n")]
    [InlineData("--days 9", "RRULE:FREQ=DAILY;UNTIL=20260309T060000Z")]
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
        "--stamp needs a time in UTC such as 2026-05-01T09:30:00Z, with the Z, not 2026-05-01T09:30:00")]
    [InlineData("--stamp 2026-05-01T09:30:00+02:00", "--stamp needs a time in UTC")]
    [InlineData("--sequence -1", "--sequence must be 0 to 2147483647, not -1")]
    [InlineData("--rules simpel", "did you mean simple?")]
    [InlineData("--rules simple --flat", "--flat writes no rules; leave out --rules")]
    [InlineData("--title {lable}", "--title has no {lable}; there are {site}, {label}, {name}, {zones}")]
    [InlineData("--title {", "--title has no {}")]
    [InlineData("--alarm soon", "--alarm needs a time before an event such as 30min or 1h, not soon")]
    [InlineData("--alarm 8000h", "--alarm needs a time before an event")]
    [InlineData("--previous nowhere.ics", "no such file: nowhere.ics")]
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
    public void Too_many_single_events_are_written_only_when_asked_to()
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
