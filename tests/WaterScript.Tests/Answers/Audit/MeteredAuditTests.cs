using System.Globalization;
using WaterScript.Answers.Audit;
using WaterScript.Answers.Audit.Words;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Audit;

/// <summary>What meters show is compared with flow and time. The lawn takes 36 L/min for 10 min, 360 L; the beds 3 L/min for 10 min, 30 L.</summary>
public sealed class MeteredAuditTests
{
    private static readonly Site Garden = RandomRunsTests.Read(
        """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn "Lawn" { output 1; flow 36 L/min }
        zone beds "Beds" { output 2; flow 3 L/min }
        zone pots "Pots" { output 3 }
        schedule morning { every day; start at 06:00; steps { water lawn, beds, pots for 10 min } }
        """,
        out _)!;

    [Theory]
    [InlineData("0", "NoWater")]
    [InlineData("3", "TooLittle")]
    [InlineData("287", "TooLittle")]
    [InlineData("288", "Done")]
    [InlineData("432", "Done")]
    [InlineData("433", "TooMuch")]
    [InlineData("900", "TooMuch")]
    public void A_volume_in_the_row_is_compared_with_360_litres_by_a_fifth(string litres, string expected)
    {
        var report = Audit($"time,zone,do,litres\n2026-06-01 06:00,lawn,open,\n2026-06-01 06:10,lawn,close,{litres}\n");
        Assert.Equal((expected, false), (report.Entries[0].Class.ToString(), report.IsAsMeant)); // Of the beds and the pots there is no row.
        var whole = Audit($"zone,from,to,litres\nlawn,2026-06-01 06:00,2026-06-01 06:10,{litres}\n");
        Assert.Equal(expected, whole.Entries[0].Class.ToString());
        const string Others = "beds,2026-06-01 06:10,2026-06-01 06:20,\npots,2026-06-01 06:20,2026-06-01 06:30,\n";
        Assert.Equal(expected == "Done", Audit($"zone,from,to,litres\nlawn,2026-06-01 06:00,2026-06-01 06:10,{litres}\n{Others}").IsAsMeant);
    }

    [Theory]
    [InlineData(50, "Done")]
    [InlineData(49, "TooMuch")]
    public void The_tolerance_is_its_own(int percent, string expected) => Assert.Equal(expected,
        Audit("zone,from,to,litres\nlawn,2026-06-01 06:00,2026-06-01 06:10,540\n", new AuditOptions(VolumePercent: percent)).Entries[0].Class.ToString());

    /// <summary>From 1000 to 1360 in the lawn's ten minutes, nothing more in those of the beds, 12 L in those of the pots, whose flow nobody knows.</summary>
    [Fact]
    public void A_meter_of_all_goes_to_what_was_open()
    {
        var report = Audit("""
            time,zone,do,meter
            2026-06-01 06:00,lawn,open,1000
            2026-06-01 06:10,lawn,close,1360
            2026-06-01 06:10,beds,open,1360
            2026-06-01 06:20,beds,close,1360
            2026-06-01 06:20,pots,open,1360
            2026-06-01 06:30,pots,close,1372

            """);
        Assert.Equal([AuditClass.Done, AuditClass.NoWater, AuditClass.Done], report.Entries.Select(entry => entry.Class));
        Assert.Equal([360m, 0m, 12m], report.Water.Select(water => water.MeteredLitres));
        Assert.Equal((0, false), (report.Leaks.Count, report.IsAsMeant));
        Assert.Contains("  06:10  Beds: no water (dry supply, or a closed manual valve), ran 10 min; "
            + "by the meter 0.0 L of 30.0 L in that time; 10 min planned (log.csv:4)\n", Text(report), StringComparison.Ordinal);
    }

    /// <summary>Lawn and beds together would take 390 L in ten minutes; 780 L are twice that, of which the lawn has 720 and the beds 60.</summary>
    [Fact]
    public void What_is_open_at_once_shares_by_flow()
    {
        var report = Audit("""
            time,zone,do,meter
            2026-06-01 06:00,lawn,open,0
            2026-06-01 06:00,beds,open,0
            2026-06-01 06:10,lawn,close,780
            2026-06-01 06:10,beds,close,780

            """);
        Assert.Equal([720m, 60m], report.Water.Take(2).Select(water => water.MeteredLitres));
        Assert.Equal(AuditClass.TooMuch, report.Entries[0].Class);
    }

    /// <summary>After 06:30 the meter goes on from 402 to 405, 409 and 420: 18 L with nothing open.</summary>
    [Theory]
    [InlineData(",1", ",2", ",3", ",4", ",5", ",6", ",7", ",8", ",9")]
    [InlineData(",", ",", ",", ",", ",", ",", ",", ",", ",")]
    public void Water_with_nothing_open_is_a_leak(params string[] numbers)
    {
        string[] rows =
        [
            "2026-06-01 06:00,lawn,open,0", "2026-06-01 06:10,lawn,close,360", "2026-06-01 06:10,beds,open,360",
            "2026-06-01 06:20,beds,close,390",
            "2026-06-01 06:20,pots,open,390", "2026-06-01 06:30,pots,close,402", "2026-06-01 07:00,,alive,405", "2026-06-01 07:30,,alive,409",
            "2026-06-01 08:00,,alive,420",
        ];
        var report = Audit("time,zone,do,meter,number\n" + string.Concat(rows.Zip(numbers).Select(row => $"{row.First}{row.Second}\n")));
        var leak = Assert.Single(report.Leaks.First);
        Assert.Equal((18m, 8, 10), (leak.Litres, leak.First.Line, leak.Last.Line));
        Assert.False(report.IsAsMeant);
        Assert.All(report.Entries, entry => Assert.Equal(AuditClass.Done, entry.Class));
        Assert.Contains("Water while nothing was open:\n  06:30  a leak, 18.0 L until 08:00 (log.csv:8 to log.csv:10)\n",
            Text(report), StringComparison.Ordinal);
    }

    [Fact]
    public void Rows_that_are_missing_may_be_of_what_the_water_went_into()
    {
        var report = Audit("""
            time,zone,do,meter,number
            2026-06-01 06:00,lawn,open,0,1
            2026-06-01 06:10,lawn,close,360,2
            2026-06-01 08:00,,alive,402,7

            """);
        Assert.Equal((0, false), (report.Leaks.Count, report.IsAsMeant)); // What became of the beds and the pots is in the rows that are missing.
    }

    /// <summary>Random readings and waterings against a tub that is filled second by second.</summary>
    [Fact]
    public void Shares_are_those_of_a_simulation_by_the_second()
    {
        for (var seed = 0; seed < 50; seed++)
        {
            var random = new Random(seed);
            var (lawn, beds) = ((From: random.Next(300), To: 300 + random.Next(300)), (From: random.Next(300), To: 300 + random.Next(300)));
            var (total, inLawn, inBeds) = (0m, 0m, 0m);
            var shown = new decimal[701];
            for (var second = 0; second <= 700; second++)
            {
                shown[second] = total;
                var (one, other) = (second >= lawn.From && second < lawn.To ? 0.6m : 0, second >= beds.From && second < beds.To ? 0.05m : 0);
                (total, inLawn, inBeds) = (total + one + other, inLawn + one, inBeds + other);
            }

            var rows = new[] { (lawn.From, "lawn,open"), (lawn.To, "lawn,close"), (beds.From, "beds,open"), (beds.To, "beds,close"), (700, ",alive") };
            var report = Audit("time,zone,do,meter\n" + string.Concat(rows.Select(row =>
                string.Create(CultureInfo.InvariantCulture, $"{1_780_290_000 + row.Item1},{row.Item2},{shown[row.Item1]}\n"))));
            Assert.Equal([inLawn, inBeds], report.Water.Take(2).Select(water => Math.Round(water.MeteredLitres!.Value, 6)));
            Assert.Equal(0, report.Leaks.Count);
        }
    }

    /// <summary>Four, one and five minutes of what was to last ten, with a pause between each: ten minutes in sum, and the 340 L of both readings.</summary>
    [Fact]
    public void What_was_interrupted_has_the_length_and_the_water_of_its_pieces()
    {
        var report = Audit("""
            time,zone,do,litres
            2026-06-01 06:00,lawn,open,
            2026-06-01 06:04,lawn,close,140
            2026-06-01 06:05,lawn,open,
            2026-06-01 06:06,lawn,close,40
            2026-06-01 06:07,lawn,open,
            2026-06-01 06:12,lawn,close,160

            """);
        var entry = report.Entries[0];
        Assert.Equal((AuditClass.Interrupted, 600L, 340m, 360m), (entry.Class, entry.ActualSeconds, entry.Volume!.Litres, entry.Volume.Expected));
        Assert.Equal(600, report.Water[0].ActualSeconds);
    }

    /// <summary>The beds open at 06:10 and the log ends at 06:12; that the pots are not in it is no hole.</summary>
    [Fact]
    public void Of_what_is_not_known_no_litres_are_counted()
    {
        var report = Audit("zone,time,do\nlawn,2026-06-01 06:00,open\nlawn,2026-06-01 06:10,close\nbeds,2026-06-01 06:10,open\n,2026-06-01 06:12,alive\n");
        Assert.False(report.IsAsMeant);
        var text = Text(report);
        Assert.StartsWith("Garden, Mon 1 Jun 2026 06:00 to 06:12, 4 rows: 1 of 3 waterings done, 2 not known.\n", text, StringComparison.Ordinal);
        Assert.Contains("Not known:\n"
            + "  06:10  Beds: opened, no close in the log; 10 min planned (log.csv:4)\n"
            + "  06:20  Pots: the log ends at 06:12; 10 min planned\n"
            + "Water, from run times: Lawn 360 of 360 L, Beds unknown of 30 (the log ends at 06:12), Pots unknown\n"
            + "  of 10 min (the log ends at 06:12).\n", text, StringComparison.Ordinal);
    }

    /// <summary>Two schedules water the lawn from 06:00 to 06:30 and from 06:10 to 06:35: the valve is open for 35 min, at 20 L/min 700 L, not 1100.</summary>
    [Fact]
    public void What_two_schedules_water_at_once_counts_once()
    {
        var site = RandomRunsTests.Read(
            """
            site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
            zone lawn "Lawn" { output 1; flow 20 L/min }
            schedule one { every day; start at 06:00; steps { water lawn for 30 min } }
            schedule two { every day; start at 06:10; steps { water lawn for 25 min } }
            """,
            out _)!;
        var log = new LogReader(site, LogColumns.Default);
        Assert.Null(log.Read("log.csv", "zone,from,to,litres\nlawn,2026-06-01 06:00,2026-06-01 06:35,700\n"));
        var report = Auditor.Audit(site, log, new AuditOptions(), Timetable.Of(site, Horizon.DaysFrom(site.Effective, 1)))!;
        Assert.Equal((700m, 700m, 700m), (report.Water[0].MeantLitres, report.Water[0].ActualLitres, report.Water[0].MeteredLitres));
        Assert.Equal((1L, true), (report.MeantCount, report.IsAsMeant));
        Assert.Contains(": 1 of 1 watering done.\n", Text(report), StringComparison.Ordinal);
    }

    private static string Text(AuditReport report) => Reports.Plain(lines => AuditText.Write(report, lines));

    private static AuditReport Audit(string text, AuditOptions? options = null)
    {
        var log = new LogReader(Garden, LogColumns.Default);
        Assert.Null(log.Read("log.csv", text.ReplaceLineEndings("\n")));
        var report = Auditor.Audit(Garden, log, options ?? new AuditOptions(), Timetable.Of(Garden, Horizon.DaysFrom(Garden.Effective, 1)))!;
        Assert.Empty(log.Bad);
        return report;
    }
}
