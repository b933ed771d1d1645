using NodaTime;
using WaterScript.Cli;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Rfc5545;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Oracles;

/// <summary>Where no clock change can ever touch a series, it goes on after the dates compiled, and is right there.</summary>
public sealed class EndlessSeriesTests : Workshop
{
    private const string Kathmandu = """
        site terrace { timezone Asia/Kathmandu; effective 2026-01-01 }
        zone a { output 1 }
        scale months { jun 150 %; jul 200 %; aug 200 %; nov 0 % }
        schedule weekly { on mon, fri; start at 06:00; steps { water a for 10 min } }
        schedule counted { every 3 days; start at 21:30; steps { water a for 10 min } }
        schedule fortnights { every 2 weeks on sat, sun; start at 05:30; steps { water a for 10 min } }
        schedule odd { on odd days; except days 31 of month; start at 07:00; steps { water a for 10 min } }
        schedule ends { on last day of month; start at 08:00; steps { water a for 10 min } }
        schedule summer { every day; from 1 apr to 30 sep; start at 10:00; steps { water a for 10 min } }
        schedule winter { on mon, thu; from 1 nov to last feb; start at 10:30; steps { water a for 10 min } }
        schedule fifteenths { on days 1, 15, 31 of month; from 1 may to 31 aug; start at 11:00; steps { water a for 10 min } }
        schedule firsts { on first mon of month; from 1 oct to 31 mar; start at 11:30; steps { water a for 10 min } }
        schedule scaled { every 2 days; scale months; start at 12:00; steps { water a for 10 min } }
        schedule pairs { every 2 weeks on sun, mon; scale months; start at 12:30; steps { water a for 10 min } }
        schedule seasonal { on tue; from 15 nov to 10 feb; start at 09:00; steps { water a for 10 min } }
        schedule middle { every day; from 16 apr to 15 oct; start at 13:00; steps { water a for 10 min } }
        schedule shut { on wed; except 1 apr to 12 may; start at 13:30; steps { water a for 10 min } }
        schedule odd-ones { on odd days; from 20 may to 12 sep; start at 14:00; steps { water a for 10 min } }

        """;

    [Theory]
    [Reader("ical.js")]
    [Reader("icalendar")]
    [Reader("libical")]
    [Reader("recurring-ical-events")]
    [Reader("sabre-vobject")]
    [Reader("node-ical")]
    [Reader("kcalendarcore")]
    public void What_lies_after_the_dates_compiled_is_right_or_absent(string reader)
    {
        var site = Sites.Read(Kathmandu);
        Assert.Equal(ExitCode.Success,
            RunLine($"compile {Write("terrace.water", Kathmandu)} --to icalendar --no-end-notice --from 2026-01-01 -o {PathOf("terrace.ics")}").ExitCode);
        var calendar = StrictCalendar.Read(File.ReadAllBytes(PathOf("terrace.ics")));
        var years = Timetable.Of(site, new Horizon(new LocalDate(2026, 1, 1), new LocalDate(2030, 1, 1)));
        var one = Timetable.Of(site, new Horizon(new LocalDate(2026, 1, 1), new LocalDate(2027, 1, 1)));

        var (output, _, status) = Reader.Named(reader).ExpandOne(new(PathOf("terrace.ics"), "2025-12-31T18:15:00Z", "2029-12-31T18:15:00Z"));

        var found = output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line[..line.LastIndexOf(' ')]).ToList();
        Assert.Equal(0, status);
        Assert.Empty(found.Except(ExpectedEvents.Passes(years)));
        Assert.Empty(ExpectedEvents.Passes(one).Except(found));
        Assert.Contains(calendar.Events, series => series.Find("RRULE") is { } rule && RecurrenceRule.Of(rule).Until is null);
    }
}
