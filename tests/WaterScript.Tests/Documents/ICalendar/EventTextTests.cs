using WaterScript.Documents.ICalendar;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.ICalendar;

/// <summary>What a person sees of an event, as an outside reader gives it back.</summary>
public sealed class EventTextTests
{
    private const string Terraces = """
        site terraces "Terraces" { timezone Europe/Lisbon; effective 2026-03-01; location 39.6 N 8.1 W }
        zone lemons "Lemon terrace" { output 1; flow 10 L/min }
        zone vines { output 2; flow 4 L/min }
        zone herbs { output 3 }
        schedule evening "Evening round" {
          every day; start at 20:00; note "Gate open"
          steps { water lemons + vines for 30 min; pause 5 min; water herbs for 90 s }
        }
        schedule night { every day; start at 00:45; steps { water lemons for 10 min; pause 10 min; water vines for 20 min } }
        schedule dusk { every day; start at sunset; steps { water vines for 30 min } }
        extra 2026-07-18 21:00 "New lemons" because "planted today" { water lemons for 10 min }
        extra 2026-07-19 21:00 because "hot wind" { water lemons for 10 min }

        """;

    private static readonly CalendarOptions Default = new(NodaTime.Instant.FromUtc(2026, 1, 1, 0, 0));

    [Theory]
    [InlineData("Terraces: Evening round", "20:00 Lemon terrace + vines: 30 min, 420.0 L\n20:35 herbs: 1 min 30 s\nGate open\nFrom site.water:5")]
    [InlineData("Terraces: night", "00:45 Lemon terrace: 10 min, 100.0 L\n01:05 vines: 20 min, 80.0 L\nFrom site.water:9")]
    [InlineData("Terraces: New lemons", "21:00 Lemon terrace: 10 min, 100.0 L\nExtra watering: planted today\nFrom site.water:11")]
    [InlineData("Terraces: Extra watering", "21:00 Lemon terrace: 10 min, 100.0 L\nExtra watering: hot wind\nFrom site.water:12")]
    public void Title_and_description_say_what_is_watered_and_when(string title, string description) =>
        Assert.Contains((title, description), Calendars.Events(Of(Default)).Select(one => (one.Summary, one.Description)));

    /// <summary>By the clock of the garden, also in the night in which it is put forward: 29 March at 01:00 in Lisbon (tz database).</summary>
    [Fact]
    public void Times_in_a_description_are_those_of_the_clock_on_that_night()
    {
        var touched = Calendars.Events(Of(Default)).Single(one => one.Start!.AsUtc == new DateTime(2026, 3, 29, 0, 45, 0, DateTimeKind.Utc));
        Assert.StartsWith("00:45 Lemon terrace: 10 min, 100.0 L\n02:05 vines: 20 min, 80.0 L\n", touched.Description, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{label}", "Evening round")]
    [InlineData("{name} in {site}", "evening in Terraces")]
    [InlineData("Water {zones}", "Water Lemon terrace, vines, herbs")]
    [InlineData("Watering", "Watering")]
    [InlineData("{zones}", "Lemon terrace, vines, herbs")]
    public void A_title_follows_its_template(string template, string title) =>
        Assert.Contains(title, Calendars.Events(Of(Default with { Title = template })).Select(one => one.Summary));

    /// <summary>Reading reports a blank label; who writes all the same sees the name.</summary>
    [Theory]
    [InlineData("")]
    [InlineData("  ")]
    [InlineData("\n")]
    public void A_blank_label_never_gives_an_empty_title(string label)
    {
        var site = Sites.Read(Terraces);
        site = site with { Label = label, Schedules = [.. site.Schedules.Select(schedule => schedule with { Label = label })] };
        var titles = Calendars.Events(Calendars.Write(Timetable.Of(site, Horizon.DaysFrom(site.Effective, 9)), Default)).Select(one => one.Summary).ToList();
        Assert.Contains("terraces: evening", titles);
        Assert.Contains("terraces: dusk", titles);
    }

    [Fact]
    public void Each_event_has_an_alarm_when_asked_for()
    {
        Assert.All(Calendars.Events(Of(Default with { AlarmSeconds = 1_800 })).Where(one => !one.IsAllDay), one =>
        {
            var alarm = Assert.Single(one.Alarms);
            Assert.Equal(("DISPLAY", one.Summary), (alarm.Action, alarm.Description));
            Assert.Equal(TimeSpan.FromMinutes(-30), alarm.Trigger!.Duration!.Value.ToTimeSpanUnspecified());
        });
        Assert.All(Calendars.Events(Of(Default)), one => Assert.Empty(one.Alarms));
    }

    /// <summary>The sunset schedule has no end by a rule: its last day is the last of the dates compiled.</summary>
    [Fact]
    public void A_calendar_that_ends_says_so_the_day_after()
    {
        var file = Of(Default with { IsOpenEnded = true });
        var notice = Assert.Single(Calendars.Events(file), one => one.IsAllDay);
        Assert.Equal("Watering calendar ends here: export it again", notice.Summary);
        Assert.Equal((new DateOnly(2027, 3, 1), new DateOnly(2027, 3, 2)), (notice.Start!.Date, notice.End!.Date));
        Assert.Contains("goes on after that: night, dusk.", notice.Description, StringComparison.Ordinal);
        Assert.Contains("\r\nDESCRIPTION:Watering calendar ends here: export it again. ", file, StringComparison.Ordinal);
        Assert.DoesNotContain(Calendars.Events(Of(Default with { HasEndNotice = false })), one => one.IsAllDay);
        var endless = Terraces[..Terraces.IndexOf("schedule night", StringComparison.Ordinal)];
        Assert.DoesNotContain("ends here", Of(Default with { IsOpenEnded = true }, endless), StringComparison.Ordinal);
    }

    /// <summary>A season that is over in September ends the calendar then, and not with the dates compiled.</summary>
    [Fact]
    public void The_day_after_is_that_after_the_last_watering()
    {
        var text = Terraces[..Terraces.IndexOf("schedule night", StringComparison.Ordinal)]
            .Replace("every day", "every 3 days; from 1 jun to 20 sep", StringComparison.Ordinal);
        var notice = Assert.Single(Calendars.Events(Of(Default with { IsOpenEnded = true }, text)), one => one.IsAllDay);
        Assert.Equal(new DateOnly(2026, 9, 21), notice.Start!.Date);
    }

    [Fact]
    public void One_start_by_the_sun_leaves_those_by_the_clock_in_a_series()
    {
        var site = Sites.Read(Terraces.Replace("start at sunset", "start at sunset, 21:30", StringComparison.Ordinal));
        var calendar = CalendarFile.Of(Timetable.Of(site, Horizon.YearFrom(site.Effective)), Default);
        Assert.Equal(365 + 2 + 2, calendar.SingleEvents); // each sunset, two extra passes, and 00:45 in the nights of the two changes
    }

    [Fact]
    public void A_renamed_schedule_keeps_the_names_of_its_events()
    {
        var renamed = Terraces.Replace("schedule evening \"Evening round\" {", "schedule late \"Evening round\" { formerly evening;", StringComparison.Ordinal);
        Assert.Equal(Uids(Terraces), Uids(renamed));
        Assert.NotEqual(Uids(Terraces), Uids(renamed.Replace("formerly evening;", "", StringComparison.Ordinal)));

        static IEnumerable<string?> Uids(string text) => Calendars.Events(Of(Default, text)).Select(one => one.Uid).Order(StringComparer.Ordinal);
    }

    /// <summary>The revision of an event goes on when it changes, and only then.</summary>
    [Fact]
    public void Revisions_count_themselves()
    {
        var first = Of(Default);
        var later = Default with { Stamp = NodaTime.Instant.FromUtc(2026, 2, 1, 0, 0) };
        var same = Of(later with { Earlier = EarlierEvents.Of(System.Text.Encoding.UTF8.GetBytes(first)) });
        Assert.All(Calendars.Events(same), one =>
            Assert.Equal((0, new DateTime(2026, 1, 1)), (one.Sequence, one.LastModified!.AsUtc)));

        var second = Of(later with { Earlier = EarlierEvents.Of(System.Text.Encoding.UTF8.GetBytes(same)) },
            Terraces.Replace("at 20:00", "at 20:30", StringComparison.Ordinal));
        Assert.All(Calendars.Events(second), one =>
        {
            var isChanged = one.Summary == "Terraces: Evening round";
            Assert.Equal(isChanged ? (1, new DateTime(2026, 2, 1)) : (0, new DateTime(2026, 1, 1)), (one.Sequence, one.LastModified!.AsUtc));
        });
    }

    private static string Of(CalendarOptions options, string text = Terraces)
    {
        var site = Sites.Read(text);
        return Calendars.Write(Timetable.Of(site, Horizon.YearFrom(site.Effective)), options);
    }
}
