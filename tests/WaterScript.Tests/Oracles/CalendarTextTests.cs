using System.Text;
using NodaTime;
using WaterScript.Tests.Rfc5545;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Oracles;

/// <summary>What people wrote stands in the calendar as they wrote it, and is never read as anything else.</summary>
public sealed class CalendarTextTests
{
    private static readonly Horizon Month = new(new LocalDate(2026, 4, 1), new LocalDate(2026, 5, 1));

    public static TheoryData<string> Texts =>
    [
        "Lemons, limes; and \\ more: \"sweet\" ones",
        "first\nsecond\nEND:VEVENT\nBEGIN:VEVENT\nSUMMARY:injected",
        "END:VCALENDAR",
        "🍋🌱 " + new string('ä', 40) + "👩‍🌾",
        string.Concat(Enumerable.Repeat("Beete am Süßkirschbaum 🍒; ", 12))[..300].TrimEnd('\uD83C'),
        "\\n is no new line, \\, no comma",
        "a",
        " begins and ends with a space ",
        "25 % & <b>bold</b> 'quoted' `ticks` ^n ^'",
        "بستان الليمون",
    ];

    [Theory]
    [MemberData(nameof(Texts))]
    public void A_label_and_a_note_come_back_unchanged(string text)
    {
        foreach (var form in Enum.GetValues<Form>())
        {
            var calendar = StrictCalendar.Read(Emit(Site(text), form));

            Assert.Equal(StrictCalendar.Read(Emit(Site("plain"), form)).Events.Count(), calendar.Events.Count());
            Assert.All(calendar.Events, one =>
            {
                if (form == Form.Passes) Assert.Equal(text, one.Text("SUMMARY"));
                Assert.Contains(text, one.Text("SUMMARY") + "\n" + one.Text("DESCRIPTION"), StringComparison.Ordinal);
                Assert.Contains(text, one.Text("DESCRIPTION"), StringComparison.Ordinal);
                Assert.Equal(text, one.Text("LOCATION"));
                Assert.Equal("TRANSPARENT", one.The("TRANSP").Value);
            });
        }
    }

    [Fact]
    public void The_same_source_gives_the_same_bytes()
    {
        foreach (var form in Enum.GetValues<Form>()) Assert.Equal(Emit(Site("plain"), form), Emit(Site("plain"), form));
    }

    [Theory]
    [InlineData("10 min", "12 min")]
    [InlineData("\"plain\"", "\"another label\"")]
    [InlineData("every day; start at 06:00", "every day; start at 06:05")]
    [InlineData("zone lawn", "# a comment\nzone lawn")]
    [InlineData("schedule early", "schedule other { on mon; start at 21:00; steps { water lawn for 1 min } }\nschedule early")]
    public void A_change_keeps_the_numbers_of_the_events_that_there_were(string from, string to)
    {
        var before = Site("plain");
        Assert.Contains(from, before, StringComparison.Ordinal);

        foreach (var form in Enum.GetValues<Form>())
            Assert.Subset(Uids(before.Replace(from, to, StringComparison.Ordinal), form), Uids(before, form));
    }

    [Fact]
    public void Another_name_gives_other_events()
    {
        foreach (var form in Enum.GetValues<Form>())
            Assert.Empty(Uids(Site("plain"), form).Intersect(Uids(Site("plain").Replace("early", "late", StringComparison.Ordinal), form)));
    }

    private static HashSet<string> Uids(string site, Form form) =>
        [.. StrictCalendar.Read(Emit(site, form)).Events.Select(one => one.The("UID").Value)];

    private static byte[] Emit(string site, Form form) => EmittedCalendar.Of("-", site, Month, form);

    private static string Site(string text) => $$"""
        site garden {{Label(text)}} { timezone Europe/Lisbon; effective 2026-01-01 }
        zone lawn { output 1 }
        zone beds { output 2 }
        schedule early {{Label(text)}} { every day; start at 06:00; note {{Label(text)}}; steps { water lawn, beds for 10 min } }

        """;

    /// <summary>A label of the language, every character above ASCII by its number.</summary>
    private static string Label(string text)
    {
        var label = new StringBuilder("\"");
        foreach (var rune in text.EnumerateRunes())
            label.Append(rune.Value is '"' or '\\' ? $"\\{rune}" : rune.Value is '\n' ? "\\n" : rune.IsAscii ? $"{rune}" : $"\\u{{{rune.Value:x}}}");
        return label.Append('"').ToString();
    }
}
