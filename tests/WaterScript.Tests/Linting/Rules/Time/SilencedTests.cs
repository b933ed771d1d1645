using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Tests.Timetables;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Time;

/// <summary>
/// What a hold or a scale keeps dry without naming it, because it starts after what is left out. The judge knows only the runs that are left, and looks for
/// the longest stretch without one.
/// </summary>
public sealed class SilencedTests
{
    private const string Chain = """
        site plot { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1 }
        zone beds { output 2 }
        zone pots { output 3 }
        schedule evening { every day; start at 20:00; steps { water lawn for 10 min }; LINE }
        schedule after-it { start after evening + 30 min; steps { water beds for 7 min } }
        schedule third { start after after-it; steps { water pots for 5 min } }

        """;

    [Theory]
    [InlineData("", "hold lawn from 2026-06-08 to 2026-06-14 because \"x\"", "cut-by-hold")]
    [InlineData("", "hold lawn from 2026-06-08 20:05 to 2026-06-11 20:00 because \"x\"", "cut-by-hold")]
    [InlineData("", "hold lawn, pots from 2027-10-30 for 3 days because \"x\"", "cut-by-hold")]
    [InlineData("", "hold lawn from 2028-02-20 until lifted because \"x\"", "cut-by-hold")]
    [InlineData("scale winter", "scale winter { jan 0 % }", "shorter-than-shortest")]
    [InlineData("scale winter", "scale winter { dec 0 %; jan 0 % }", "shorter-than-shortest")]
    [InlineData("scale falling", "scale falling { since 2027-12-24 0 %; since 2027-12-27 80 % }", "shorter-than-shortest")]
    public void Zones_are_dry_for_as_long_as_no_run_of_them_comes(string inSchedule, string line, string rule)
    {
        var text = Chain.Replace("; LINE", inSchedule.Length == 0 ? "" : $"; {inSchedule}", StringComparison.Ordinal) + line;
        var finding = Assert.Single(Lint.Of(text, rule));
        Assert.Equal(Severity.Warning, finding.Severity);
        var dry = finding.Details.Split('\n').Single(detail => detail.StartsWith("Longest dry: ", StringComparison.Ordinal));
        var expected = LongestGaps(text).GroupBy(gap => gap.Length).Select(zones => $"{string.Join(", ", zones.Select(gap => gap.Zone))} {zones.Key}");
        Assert.Equal($"Longest dry: {string.Join("; ", expected)}.", dry);
    }

    /// <summary>
    /// A zone that another schedule waters meanwhile is dry only until then: 7 June 20:47 to 11 June 06:00 are 81 h 13 min, from 06:07 to 15 June 20:40
    /// 110 h 33 min.
    /// </summary>
    [Fact]
    public void Water_of_another_schedule_ends_it()
    {
        var text = Chain.Replace("; LINE", "", StringComparison.Ordinal) + """
            hold lawn from 2026-06-08 to 2026-06-14 because "x"
            schedule other { on 2026-06-11; start at 06:00; steps { water beds for 7 min } }
            """;
        Assert.Contains("beds 110 h 33 min;", Assert.Single(Lint.Of(text, "cut-by-hold")).Details, StringComparison.Ordinal);
    }

    /// <summary>The longest stretches between runs of each zone over two years, and to their end.</summary>
    private static IEnumerable<(string Zone, string Length)> LongestGaps(string text)
    {
        var site = Sites.Read(text);
        var horizon = Horizon.DaysFrom(new NodaTime.LocalDate(2026, 3, 1), 731);
        var end = horizon.Until.AtMidnight().InZoneStrictly(site.TimeZone).ToInstant().ToUnixTimeSeconds();
        foreach (var zone in site.Zones)
        {
            var runs = Timetable.Of(site, horizon).Runs().Where(run => run.Zone == zone.Index).ToArray();
            var gap = runs.Zip(runs.Skip(1).Select(run => run.Start).Append(end), (run, next) => next - run.End).Max();
            yield return (zone.Name, InWords(gap));
        }
    }

    private static string InWords(long seconds)
    {
        var (hours, minutes) = (seconds / 3600, seconds / 60 % 60);
        return string.Create(CultureInfo.InvariantCulture, $"{hours} h{(minutes == 0 ? "" : $" {minutes} min")}");
    }
}
