using WaterScript.Cli;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Oracles;

/// <summary>
/// Where a reader is wrong by itself, this holds it to how. When one of these fails the reader has been corrected, and what <see cref="Reader.MayJudge"/>
/// leaves out can be asked again.
/// </summary>
public sealed class DeviationTests : Workshop
{
    /// <summary>
    /// Paraguay has kept UTC-3 since October 2024 (tz database, 2024b). A rule of libical still steps over a change of the system's data on 4 October 2026,
    /// and gives that day and the next an hour late; the VTIMEZONE of the file has no change.
    /// </summary>
    [Theory]
    [Reader("libical")]
    public void A_change_that_a_country_gave_up_is_still_stepped_over(string reader)
    {
        var text = """
            site garden { timezone America/Asuncion; effective 2026-09-25 }
            zone a { output 1 }
            schedule only { every day; start at 00:30; steps { water a for 10 min } }

            """;
        var expected = ExpectedEvents.Passes(Timetable.Of(Sites.Read(text), new(new(2026, 10, 1), new(2026, 10, 9))));
        Write("site.water", text);
        Assert.Equal(ExitCode.Success, RunLine("compile site.water --to icalendar --days 30 --no-end-notice -o site.ics").ExitCode);

        var (output, _, _) = Reader.Named(reader).ExpandOne(new(PathOf("site.ics"), "2026-10-01T03:00:00Z", "2026-10-09T03:00:00Z"));

        var found = output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line[..line.LastIndexOf(' ')]).ToList();
        Assert.Equal(["20261004T033000Z 20261004T034000Z", "20261005T033000Z 20261005T034000Z"], expected.Except(found));
        Assert.Equal(["20261004T043000Z 20261004T044000Z", "20261005T043000Z 20261005T044000Z"], found.Except(expected));
    }

    /// <summary>Zone data of the system may be older than ours, as those of 2025 are for Morocco after September 2026: then their readers are late.</summary>
    [Theory]
    [Reader("sabre-vobject")]
    [Reader("kcalendarcore")]
    [Reader("recurring-ical-events")]
    public void Old_zone_data_give_other_times_where_they_differ_and_only_there(string reader)
    {
        var text = """
            site garden { timezone Africa/Casablanca; effective 2026-09-01 }
            zone a { output 1 }
            schedule only { every day; start at 06:00; steps { water a for 10 min } }

            """;
        var site = Sites.Read(text);
        var horizon = new Horizon(new(2026, 9, 1), new(2026, 10, 1));
        Write("site.water", text);
        Assert.Equal(ExitCode.Success, RunLine("compile site.water --to icalendar --until 2026-10-01 --no-end-notice -o site.ics").ExitCode);

        var (output, _, _) = Reader.Named(reader).ExpandOne(new(PathOf("site.ics"), "2026-08-31T23:00:00Z", "2026-10-01T00:00:00Z"));

        var found = output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line[..line.LastIndexOf(' ')]).ToList();
        var isAlike = ExpectedEvents.Passes(Timetable.Of(site, horizon)).SequenceEqual(found);
        Assert.Equal(SystemZones.Agree(site.TimeZone, horizon), isAlike);
    }
}
