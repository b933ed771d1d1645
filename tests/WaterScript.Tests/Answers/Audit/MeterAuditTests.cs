using System.Globalization;
using System.Text;
using NodaTime;
using WaterScript.Answers.Audit.Meters;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Tests.Simulation;
using WaterScript.Text.Lines;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Audit;

/// <summary>What went through a meter, beside what was planned: by hand, second by second, and with readings that are none.</summary>
public sealed class MeterAuditTests
{
    private const int Days = 5;

    private static readonly int SitesEach = Samples.OfBatch(40);

    /// <summary>By hand: 100 min at 10 L/min are 1 m3 a day; 310 L of other use are 0.31 m3 a month.</summary>
    private const string Plot = """
        site plot "Plot" { timezone UTC; effective 2026-01-01 }
        tariff town { currency EUR; price 2 per m3 }
        supply tap "Town water" { tariff town; other-use 310 L a month }
        supply well { flow 20 L/min }
        zone lawn "Lawn" { output 1; supply tap; flow 10 L/min }
        schedule s { every day; start at 06:00; steps { water lawn for 100 min } }
        """;

    private static readonly Instant Now = Instant.FromUtc(2026, 12, 1, 12, 0);

    public static TheoryData<int> Batches => [.. Samples.Batches(4)];

    private static Site Read(string text) => RandomRunsTests.Read(text, out var errors) ?? throw new InvalidOperationException($"{errors}\n{text}");

    private static (MeterReadings? Readings, string Why) Readings(Site site, string text) =>
        ReadingsFile.Read("readings.csv", new StringReader(text), site, Now);

    private static string[] Lines(string text, string readings)
    {
        var site = Read(text);
        var output = new StringWriter(CultureInfo.InvariantCulture);
        MeterText.Write(MeterAudit.Of(site, Readings(site, readings).Readings!, log: null), new PlainLines(output));
        return output.ToString().Split('\n');
    }

    [Fact]
    public void A_period_has_what_was_planned_and_what_was_metered() => Assert.Equal(
        [
            "Town water, m3        watering  other  planned  metered        difference",
            "1 May to 31 May 2026    31.000  0.310   31.310   31.300      −0.010 (0 %)",
            "1 Jun to 30 Jun 2026    30.000  0.310   30.310   35.000  ! +4.690 (+15 %)",
            "1 Jul to 31 Jul 2026    31.000  0.310   31.310   30.000     −1.310 (−4 %)",
            "3 periods               92.000  0.930   92.930   96.300     +3.370 (+4 %)",
            "1 Jun to 30 Jun 2026: 4.690 more than planned; no log says why.",
            "Other use is what the file assumes, not what was measured.",
            "Litres are flow × time, not counted.",
            "",
        ],
        Lines(Plot, "date,tap\n2026-05-01,1204.310\n2026-06-01,1235.610\n2026-07-01,1270.610\n2026-08-01,1300.610\n"));

    /// <summary>By hand: 06:30 is 30 min after the watering begins, 300 L; the rest are 700 L. Other use of 10 L a day: 6.5 of 24 h, and 17.5 h.</summary>
    [Fact]
    public void A_watering_is_split_at_the_second_of_a_reading()
    {
        var site = Read(Plot);
        var audit = MeterAudit.Of(site, Readings(site,
            "time;Town water L\n2026-05-02 00:00;0\n2026-05-02 06:30;300\n2026-05-03;1000\n").Readings!, log: null);
        var periods = Assert.Single(audit.Meters).Periods;
        Assert.Equal([Fraction.Of(300), Fraction.Of(700)], periods.Select(period => period.Watering));
        Assert.Equal([new Fraction(65, 24), new Fraction(175, 24)], periods.Select(period => period.Other));
        Assert.Equal([Fraction.Of(300), Fraction.Of(700)], periods.Select(period => period.Metered));
    }

    /// <summary>By hand: 60 L are drawn from 23:50 to midnight; the refill of 1 L/min brings 20 L until 00:10, and 40 L after it.</summary>
    [Fact]
    public void What_fills_a_tank_is_split_there_too()
    {
        var site = Read("""
            site plot { timezone UTC; effective 2026-05-01 }
            supply tap { flow 30 L/min }
            supply butt { tank 100 L; refill 1 L/min; fed-by tap }
            zone a { output 1; supply butt; flow 6 L/min }
            schedule s { on 2026-05-02; start at 23:50; steps { water a for 10 min } }
            """);
        var readings = Readings(site, "time,tap\n2026-05-01 00:00,0\n2026-05-03 00:10,1\n2026-05-04 00:00,2\n").Readings!;
        var periods = Assert.Single(MeterAudit.Of(site, readings, log: null).Meters).Periods;
        Assert.Equal([Fraction.Of(20), Fraction.Of(40)], periods.Select(period => period.Watering));
    }

    /// <summary>By hand: 10 % of 31.31 m3 are 3.131 m3, and of 9 m3 less than 1 m3.</summary>
    [Theory]
    [InlineData("2026-06-01", "34.440", false)]
    [InlineData("2026-06-01", "34.441", true)]
    [InlineData("2026-06-01", "28.179", true)]
    [InlineData("2026-06-01", "28.180", false)]
    [InlineData("2026-05-10", "10.089", false)]
    [InlineData("2026-05-10", "10.090", true)]
    public void A_period_is_unusual_from_ten_per_cent_and_a_cubic_metre(string until, string metered, bool isUnusual)
    {
        var site = Read(Plot);
        var audit = MeterAudit.Of(site, Readings(site, $"date,tap\n2026-05-01,0\n{until},{metered}\n").Readings!, log: null);
        Assert.Equal((isUnusual, !isUnusual), (audit.Meters[0].Periods[0].IsUnusual, audit.IsClear));
    }

    [Theory]
    [InlineData("2026-05-01,5\n2026-06-01,4\n2026-07-01,9", 3, "shows less than in line 2; write new under note where it is a new meter", 0)]
    [InlineData("2026-05-01,5\n2026-06-01,6\n2026-06-01,7\n2026-07-01,9", 4, "tap is read twice at that moment, first in line 3", 0)]
    [InlineData("2026-05-01,5\n2027-06-01,6\n2026-07-01,9", 3, "\"2027-06-01\" is in the future", 1)]
    [InlineData("2026-05-01,5\nsoon,6\n2026-07-01,9", 3, "\"soon\" is neither a date nor a time", 1)]
    [InlineData("2026-05-01,5\n2026-06-31,6\n2026-07-01,9", 3, "\"2026-06-31\" is neither a date nor a time", 1)]
    [InlineData("2026-05-01,5\n2026-06-01,many\n2026-07-01,9", 3, "\"many\" is not what the meter of tap can show", 1)]
    [InlineData("2026-05-01,5\n2026-06-01,-6\n2026-07-01,9", 3, "\"-6\" is not what the meter of tap can show", 1)]
    [InlineData("2026-05-01,5\n2026-06-01,\"6\n2026-07-01,9", 3, "it cannot be read as a row", 1)]
    [InlineData("2026-05-01,5\n0001-06-01,6\n2026-07-01,9", 3, "\"0001-06-01\" is neither a date nor a time", 1)]
    public void What_cannot_be_is_named_with_its_line(string rows, int line, string why, int periods)
    {
        var (readings, _) = Readings(Read(Plot), "date,tap\n" + rows + "\n");
        var bad = Assert.Single(readings!.Bad);
        Assert.Equal(line, bad.Place.Line);
        Assert.Contains(why, bad.Why, StringComparison.Ordinal);
        Assert.Equal(periods, readings.PeriodCount);
    }

    [Theory]
    [InlineData("date,tap,pond\n2026-05-01,1,2\n2026-06-01,2,3\n", "no supply is called \"pond\"; there are tap, well", 1)]
    [InlineData("date,tap,Town water\n2026-05-01,1,2\n2026-06-01,2,3\n", "\"Town water\" is the second column of this supply", 1)]
    public void A_column_of_no_supply_is_named(string text, string why, int periods)
    {
        var (readings, _) = Readings(Read(Plot), text);
        var bad = Assert.Single(readings!.Bad);
        Assert.Equal((1, why, periods), (bad.Place.Line, bad.Why, readings.PeriodCount));
    }

    [Theory]
    [InlineData("", "no column of readings.csv is called date or time")]
    [InlineData("day2,tap\n", "no column of readings.csv is called date or time")]
    [InlineData("date\n", "no column of readings.csv is called as a supply")]
    [InlineData("date,pond\n", "no column of readings.csv is called as a supply; no supply is called \"pond\"; there are tap, well")]
    [InlineData("date,\"tap\n", "the first line of readings.csv, which names the columns, cannot be read")]
    public void Without_its_columns_nothing_is_read(string text, string why) => Assert.Equal((null, why), Readings(Read(Plot), text));

    /// <summary>The period in which a meter is changed is not known; rows may stand in any order, and a cell may be empty.</summary>
    [Fact]
    public void A_new_meter_begins_anew()
    {
        var (readings, _) = Readings(Read(Plot), "\uFEFFnote;date;tap;well\n;01.07.2026;7,5;1\nnew;2026-06-01;0;\n;2026-05-01;90;\n;2026-04-01;80;\n");
        Assert.Empty(readings!.Bad);
        Assert.Equal([(80m, 90m), (0m, 7.5m)], readings.Columns[0].Periods.Select(period => (period.From.Value, period.Until.Value)));
        Assert.Empty(readings.Columns[1].Periods);
    }

    /// <summary>Readings of random moments: each second in which a zone is open is looked at by itself, by the runs of the reference.</summary>
    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_sites_plan_what_they_plan_second_by_second(int batch)
    {
        var (compared, wet) = (0, 0);
        for (var number = batch * SitesEach; number < (batch + 1) * SitesEach; number++)
        {
            var source = RandomSource.Of(91_000 + number);
            if (RandomRunsTests.Read(source.Text, out _) is not { Supplies.Length: > 0 } site) continue;
            var random = new Random(number);
            var first = source.From.PlusDays(4).AtStartOfDayInZone(site.TimeZone).ToInstant().ToUnixTimeSeconds();
            long[] moments = [.. Enumerable.Range(0, 6).Select(_ => first + random.Next(Days * 86_400)).Distinct().Order()];
            var expected = SecondsOf(site, ReferenceRuns.Of(site, new Horizon(source.From, source.From.PlusDays(5 + Days))), moments);
            var segments = new MeterSegments(site, moments, new WaterScript.Diagnostics.WorkBudget(long.MaxValue));
            foreach (var supply in site.Supplies.Where(supply => supply.Tank is null && site.Supplies.All(other => other.Tank is null || other.FedBy is null)))
            {
                for (var part = 0; part + 1 < moments.Length; part++)
                {
                    var sixtieths = site.Zones.Where(zone => FeedersOf(zone).Contains(supply.Name)).Sum(zone => expected[part, zone.Index] * Flow(zone));
                    var actual = segments.WateringOf(supply, moments[part], moments[part + 1]);
                    Assert.True((actual * Fraction.Of(60)).ToDecimal(6) == Math.Round(sixtieths, 6),
                        string.Create(CultureInfo.InvariantCulture,
                            $"{supply.Name}, part {part}: {actual} L, not {sixtieths}/60\nnumber {number}\n{source.Text}"));
                    compared++;
                    if (sixtieths > 0) wet++;
                }
            }
        }

        Assert.True(compared > SitesEach && wet > SitesEach / 4, string.Create(CultureInfo.InvariantCulture, $"{compared} compared, {wet} with water"));
    }

    private static decimal Flow(Zone zone) => zone.Flow?.Value.InBase ?? 0;

    /// <summary>The supplies from a zone's own to the first tank.</summary>
    private static HashSet<string> FeedersOf(Zone zone)
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        for (var supply = zone.Supply; supply is not null; supply = supply.Tank is null ? supply.FedBy : null) names.Add(supply.Name);
        return names;
    }

    private static long[,] SecondsOf(Site site, List<ReferenceRun> runs, long[] moments)
    {
        var seconds = new long[moments.Length - 1, site.Zones.Length];
        var open = new HashSet<(int, long)>();
        foreach (var run in runs)
        {
            for (var second = Math.Max(run.Start, moments[0]); second < Math.Min(run.End, moments[^1]); second++)
            {
                if (!open.Add((run.Zone, second))) continue;
                var part = 0;
                while (second >= moments[part + 1]) part++;
                seconds[part, run.Zone]++;
            }
        }

        return seconds;
    }

    /// <summary>Whatever stands in the file, it is read or refused, and what is left of it goes forward in time and up.</summary>
    [Theory]
    [MemberData(nameof(Batches))]
    public void Broken_readings_break_nothing(int batch)
    {
        var site = Read(Plot);
        const string whole = "date,tap,well,note\n2026-05-01,1,5,\n2026-06-01,2,6,new\n2026-07-01 12:30,30,7,\n1782864000,40,8,\n2026-08-01,50,9,\n";
        const string letters = ",;\t\"\n\r 0123456789-:.nw\0\uFEFFé\u202E\uD800";
        var read = 0;
        for (var number = 0; number < Samples.OfBatch(400); number++)
        {
            var random = new Random((batch * 10_000) + number);
            var text = new StringBuilder(whole);
            for (var edits = random.Next(1, 12); edits > 0; edits--)
            {
                var place = random.Next(text.Length);
                if (random.Next(3) == 0) text.Remove(place, Math.Min(random.Next(1, 9), text.Length - place));
                else if (random.Next(2) == 0) text.Insert(place, letters[random.Next(letters.Length)]);
                else text[place] = letters[random.Next(letters.Length)];
            }

            var (readings, why) = Readings(site, text.ToString());
            Assert.Equal(readings is null, why.Length > 0);
            if (readings is null || readings.PeriodCount == 0) continue;
            var audit = MeterAudit.Of(site, readings, log: null);
            foreach (var period in audit.Meters.SelectMany(meter => meter.Periods))
                Assert.True(period.From.At < period.Until.At && period.Metered.Sign >= 0 && period.Watering.Sign >= 0, text.ToString());
            var output = new StringWriter(CultureInfo.InvariantCulture);
            MeterText.Write(audit, new PlainLines(output));
            Assert.DoesNotContain('\u202E', output.ToString());
            read++;
        }

        Assert.True(read > 20, $"only {read} read");
    }

    [Fact]
    public void So_many_lines_are_read_and_no_more()
    {
        var rows = string.Concat(Enumerable.Range(0, ReadingsFile.MostLines + 50).Select(row =>
            string.Create(CultureInfo.InvariantCulture, $"{1_767_225_600 + (row * 600)},{row}\n")));
        var (readings, _) = Readings(Read(Plot), "time,tap\n" + rows);
        Assert.Equal(ReadingsFile.MostLines - 1, readings!.PeriodCount);
        Assert.Contains("more than 10000 lines", Assert.Single(readings.Bad).Why, StringComparison.Ordinal);
    }
}
