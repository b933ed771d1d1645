using System.Globalization;
using NodaTime;
using WaterScript.Answers.Audit;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Audit;

/// <summary>
/// An audit that reads a log as it goes by says what one says that holds all of it (<see cref="InMemoryAudit"/>), on sites and logs nobody thought of.
/// </summary>
public sealed class AuditAgainstMemoryTests
{
    private const int SitesEach = 40;

    private static readonly string[] ZoneWords = ["open", "open", "open", "close", "close", "close", "skip", "fault", "hand"];

    public static TheoryData<int> Batches => [.. Samples.Batches(20)];

    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_logs_of_random_sites(int batch)
    {
        var (audited, kinds) = (0, new HashSet<AuditClass>());
        for (var number = batch * SitesEach; number < (batch + 1) * SitesEach; number++)
        {
            var source = RandomSource.Of(number, hasMore: true);
            if (RandomRunsTests.Read(source.Text, out _) is not { } site) continue;
            var random = new Random(number);
            var from = source.From.PlusDays(random.Next(2) == 0 ? 0 : random.Next(200));
            var rows = Rows(site, Horizon.DaysFrom(from, random.Next(1, 6)), random);
            if (rows.Count == 0) continue;
            audited++;
            foreach (var entry in AssertSame(site, rows, random, $"number {number}\n{source.Text}")) kinds.Add(entry.Class);
        }

        Assert.True(audited > SitesEach / 4, string.Create(CultureInfo.InvariantCulture, $"{audited} audited"));
        Assert.True(kinds.Count >= 8, string.Join(' ', kinds.Order()));
    }

    /// <summary>Clocks go back from 02:00 to 01:00 in Lisbon on 25 Oct 2026; what runs then is met twice by the clock and once by the instant.</summary>
    [Theory]
    [MemberData(nameof(Batches))]
    public void Logs_of_nights_in_which_the_clock_changes(int batch)
    {
        const string Source = """
            site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
            zone lawn { output 1 }
            zone beds { output 2 }
            schedule night { every day; start at 00:30; repeat every 20 min until 03:30; steps { water lawn for 4 min; water beds for 3 min } }
            """;
        var site = RandomRunsTests.Read(Source, out _)!;
        for (var seed = batch * 20; seed < (batch + 1) * 20; seed++)
        {
            var random = new Random(seed);
            var rows = Rows(site, Horizon.DaysFrom(new LocalDate(2026, seed % 2 == 0 ? 10 : 3, seed % 2 == 0 ? 24 : 28), 3), random);
            AssertSame(site, rows, random, string.Create(CultureInfo.InvariantCulture, $"seed {seed}"));
        }
    }

    private static List<AuditEntry> AssertSame(Site site, List<LogEvent> rows, Random random, string where)
    {
        var options = new AuditOptions(random.Next(3) switch { 0 => 0, 1 => 60, _ => random.Next(1_000) }, random.Next(2) == 0 ? 3_600 : 600);
        var log = new LogReader(site, LogColumns.Default);
        Assert.Null(log.Read("log.csv", Text(site, rows)));
        var report = Auditor.Audit(site, log, options, Timetable.Of(site, Horizon.DaysFrom(site.Effective, 1)))!;
        var (entries, doubled, seconds) = InMemoryAudit.Of(site, rows, options);
        Assert.True(entries.SequenceEqual(report.Entries),
            $"{where}\n{options}\n{Text(site, rows)}\n{string.Join('\n', entries.Zip(report.Entries).Where(pair => pair.First != pair.Second).Take(5))}");
        Assert.Equal((entries.Count, doubled), (report.EntryCount, log.Doubled));
        var zones = site.Zones.Where(zone => zone is { IsSpare: false, IsHandWatered: false }).ToList();
        Assert.Equal(zones.Select(zone => (entries.Where(entry => entry.Zone == zone).Sum(entry => entry.Seconds), seconds[zone.Index])),
            report.Water.Select(water => (water.MeantSeconds, water.ActualSeconds)));
        Assert.Equal(entries.Count(entry => entry.Class == AuditClass.NotKnown), report.NotKnown.Count);
        Assert.Equal(
            entries.Where(entry => entry.Schedule is not null).GroupBy(entry => (entry.Day, entry.Schedule!.Index, entry.Class)).OrderBy(group => group.Key)
                .Select(group => (group.Key.Day, group.Key.Index, group.Key.Class, group.Count())),
            report.Days.First.SelectMany(day => day.Counts.Select(count => (day.Day, day.Schedule!.Index, count.Class, count.Count))));
        return entries;
    }

    /// <summary>What a device would write, with rows that are missing, doubled, late, about another zone, or made up.</summary>
    private static List<LogEvent> Rows(Site site, Horizon horizon, Random random)
    {
        var meant = Timetable.Of(site, horizon).Openings().Where(opening => opening.Zone >= 0).Take(400).ToList();
        if (meant.Count == 0) return [];
        int[] switched = [.. site.Zones.Where(zone => !zone.IsHandWatered).Select(zone => zone.Index)];
        var rows = new List<(long At, string Do, int Zone, string? Why)>();
        foreach (var opening in meant)
        {
            var (late, longer) = (random.Next(8) == 0 ? random.Next(-900, 900) : 0, random.Next(8) == 0 ? random.Next(-200, 900) : 0);
            var zone = random.Next(20) == 0 ? switched[random.Next(switched.Length)] : opening.Zone;
            if (random.Next(10) > 0) rows.Add((opening.From + late, "open", zone, random.Next(15) == 0 ? "hand" : null));
            if (random.Next(10) > 0) rows.Add((Math.Max(opening.From + late + 1, opening.To + late + longer), "close", zone, null));
        }

        var (first, last) = (meant[0].From, meant[^1].To);
        for (var i = random.Next(1 + (meant.Count / 2)); i > 0; i--)
        {
            var word = ZoneWords[random.Next(ZoneWords.Length)];
            rows.Add((first + random.NextInt64(last - first + 1), word, switched[random.Next(switched.Length)], word is "skip" or "fault" ? "rain" : null));
        }

        for (var i = random.Next(40); i > 0; i--) rows.Add((first + random.NextInt64(last - first + 1),
            random.Next(6) switch { 0 => "boot", 1 => "skip", _ => "alive" }, LogEvent.NoZone, null));
        return Written([.. rows.OrderBy(row => row.At)], random);
    }

    /// <summary>Numbered or not, with holes, then shuffled near by or as a whole.</summary>
    private static List<LogEvent> Written(List<(long At, string Do, int Zone, string? Why)> rows, Random random)
    {
        var isNumbered = random.Next(2) == 0;
        var kept = rows.Select((row, index) => (Row: row, Number: isNumbered ? index + 1L : (long?)null)).ToList();
        for (var holes = random.Next(3); holes > 0 && kept.Count > 10; holes--) kept.RemoveRange(random.Next(kept.Count - 5), random.Next(1, 5));
        if (random.Next(2) == 0) kept.AddRange([.. kept.Where(_ => random.Next(10) == 0)]);
        var reach = random.Next(3) switch { 0 => 0, 1 => 5, _ => rows.Count };
        return
        [
            .. kept.Select((row, index) => (row.Row, row.Number, Place: index + random.Next(1 + reach))).OrderBy(row => row.Place)
                .Select((row, index) => new LogEvent(
                new LogPlace("log.csv", index + 2), row.Row.At, Enum.Parse<LogKind>(row.Row.Do, ignoreCase: true), row.Row.Zone, row.Row.Why, row.Number, null,
                    null, null)),
        ];
    }

    private static string Text(Site site, List<LogEvent> rows) => "time,zone,do,why,number\n" + string.Concat(rows.Select(row =>
        string.Create(CultureInfo.InvariantCulture, $"{row.At},{(row.Zone < 0 ? "" : site.Zones[row.Zone].Name)},{row.Kind},{row.Why},{row.Number}\n")));
}
