using System.Globalization;
using NodaTime;
using WaterScript.Answers.Audit;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Answers.Audit;

/// <summary>A log that is made from a timetable, with faults put in, has exactly those faults.</summary>
public sealed class AuditTests
{
    private const string Source = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        controller box { outputs 4 }
        zone lawn "Lawn" { output 1; flow 6 L/min }
        zone beds "Beds" { output 2; flow 3 L/min }
        zone pots "Pots" { output 3 }
        schedule morning { every day; start at 06:00; steps { water lawn, beds, pots for 10 min } }
        schedule evening { every day; start at 20:00; steps { water lawn, beds, pots for 10 min } }
        """;

    private static readonly Site Garden = RandomRunsTests.Read(Source, out _)!;
    private static readonly Horizon Week = Horizon.DaysFrom(new LocalDate(2026, 6, 1), 7);

    public static TheoryData<int> Numbers => [.. Enumerable.Range(0, 200)];

    [Fact]
    public void A_log_without_a_fault_is_all_done() =>
        Assert.All(Audit(Log(Rows())).Entries, entry => Assert.Equal(AuditClass.Done, entry.Class));

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Known_faults_are_found_and_no_other(int seed)
    {
        var random = new Random(seed);
        var rows = Rows();
        var expected = Openings().ToDictionary(opening => (opening.Zone, opening.From), _ => AuditClass.Done);
        var unplanned = new List<AuditClass>();
        foreach (var opening in Openings().OrderBy(_ => random.Next()).Take(6).ToList())
        {
            var kind = (AuditClass)random.Next((int)AuditClass.NotKnown);
            if (kind is AuditClass.Unplanned or AuditClass.ByHand) unplanned.Add(kind);
            else expected[(opening.Zone, opening.From)] = kind;
            PutIn(kind, opening, rows);
        }

        var report = Audit(Log(rows));
        Assert.Equal(
            expected.Select(entry => (entry.Key.Zone, entry.Key.From, entry.Value)).OrderBy(entry => entry.From).ThenBy(entry => entry.Zone),
            report.Entries.Where(entry => entry.Schedule is not null).Select(entry => (entry.Zone.Index, entry.From, entry.Class)));
        Assert.Equal(unplanned.Order(), report.Entries.Where(entry => entry.Schedule is null).Select(entry => entry.Class).Order());
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void A_hole_never_gives_missed(int seed)
    {
        var random = new Random(seed);
        var rows = Rows();
        var number = 0;
        foreach (var row in rows.OrderBy(row => row.At)) row.Number = ++number;
        for (var hole = 0; hole < 3; hole++)
        {
            var from = rows[random.Next(rows.Count)].At - random.Next(600);
            var to = from + random.Next(1, 100_000);
            rows.RemoveAll(row => row.At >= from && row.At <= to);
            if (rows.Count == 0) return;
        }

        var report = Audit(Log(rows));
        Assert.DoesNotContain(report.Entries, entry => entry.Class == AuditClass.Missed);
        var known = rows.Select(row => (row.Zone, row.At)).ToHashSet();
        Assert.All(report.Entries.Where(entry => entry.Class == AuditClass.Done), entry => Assert.Contains((entry.Zone.Index, entry.From), known));
        Assert.All(report.Entries.Where(entry => !known.Contains((entry.Zone.Index, entry.From))), entry => Assert.Equal(AuditClass.NotKnown, entry.Class));
        var whole = report.Entries.Where(entry =>
            Openings().Any(opening => opening.Zone == entry.Zone.Index && opening.From == entry.From && IsWhole(opening, rows)));
        Assert.All(whole, entry => Assert.Equal(AuditClass.Done, entry.Class));
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void A_silence_longer_than_it_may_be_never_gives_missed(int seed)
    {
        var random = new Random(seed);
        var rows = Rows();
        var end = rows[^1].At;
        for (var at = rows[0].At; at < end; at += 600) rows.Add(new Row { At = at + 1, Zone = -1, Do = "alive" });
        var from = rows[0].At + random.Next(400_000);
        var to = from + AuditOptions.DefaultSilence + random.Next(100_000);
        rows.RemoveAll(row => row.At >= from && row.At <= to);
        Assert.DoesNotContain(Audit(Log(rows, isNumbered: false)).Entries, entry => entry.Class == AuditClass.Missed);
    }

    [Fact]
    public void Every_kind_of_dirty_row_is_taken_or_reported()
    {
        var log = new LogReader(Garden, LogColumns.Default);
        var text = string.Join('\n',
        [
            "\uFEFFtime;output;do;why;meter\r",
            "2026-06-01 06:10:00;1;close;;60,5\r",
            "2026-06-01 06:00:00;1;open;;0,5\r",
            "2026-06-01 06:00:00;1;open;;0,5\r",
            "2026-06-01T05:10:00Z;2;open;;",
            "2026-06-01T06:20:00+01:00;2;off",
            "2000-01-01 00:00:07;;boot",
            "1780294800,25;3;open;hand;",
            "1780294860;3;close;;;;;",
            "2026-06-01 20:00:00;;\"skip,frost\";",
            "2026-06-01 20:00;9;open",
            "yesterday;1;open",
            "2026-06-01 20:00;1;drip",
            "2026-06-01 20:00;1;\"open",
            "2026-06-01 20:00;;open",
            "2026-06-01 20:30:00;;boot",
            "",
        ]);
        Assert.Null(log.Read("log.csv", text));
        var report = Auditor.Audit(Garden, log, new AuditOptions(), Timetable.Of(Garden, Week))!;
        Assert.Equal(1, log.Doubled);
        Assert.Equal(
            ["7 \"2000-01-01 00:00:07\" is long before the site began: a clock that was not set", "11 no zone has output 9", "12 \"yesterday\" is not a time",
                "13 \"drip\" is nothing that a valve does", "14 it cannot be read as a row", "15 it names no zone and no output"],
            log.Bad.Select(bad => string.Create(CultureInfo.InvariantCulture, $"{bad.Place.Line} {bad.Why}")));
        Assert.Equal(60m, report.MeterLitres);
        Assert.Equal(
            ["Lawn Done", "Beds Done", "Pots NotKnown", "Pots ByHand", "Lawn Skipped", "Beds Skipped", "Pots Skipped"],
            report.Entries.Select(entry => $"{entry.Zone.Label} {entry.Class}"));
    }

    [Fact]
    public void Rows_may_be_whole_waterings_under_other_names()
    {
        var log = new LogReader(Garden, LogColumns.Default.With("from", "Beginn")!.With("to", "Ende")!.With("zone", "Ventil")!);
        Assert.Null(log.Read("a.csv", "Ventil,Beginn,Ende\nLawn,2026-06-01 06:00,2026-06-01 06:10\nbeds,2026-06-01 06:10,2026-06-01 06:14\n"));
        Assert.Equal("no column of b.csv is called time, or from and to; say how they are called: --columns time=NAME", log.Read("b.csv", "a,b\n1,2\n"));
        Assert.Equal(["Done", "Short"],
            Auditor.Audit(Garden, log, new AuditOptions(), Timetable.Of(Garden, Week))!.Entries.Take(2).Select(entry => entry.Class.ToString()));
    }

    /// <summary>Whether the log has the opening and all rows from then to the closing.</summary>
    private static bool IsWhole(Opening opening, List<Row> rows)
    {
        var first = rows.Find(row => row.Zone == opening.Zone && row.At == opening.From && row.Do == "open");
        var last = rows.Find(row => row.Zone == opening.Zone && row.At == opening.To && row.Do == "close");
        return first is not null && last is not null
            && rows.Count(row => row.Number >= first.Number && row.Number <= last.Number) == last.Number - first.Number + 1;
    }

    private static void PutIn(AuditClass kind, Opening opening, List<Row> rows)
    {
        var open = rows.Single(row => row.Zone == opening.Zone && row.At == opening.From && row.Do == "open");
        var close = rows.Single(row => row.Zone == opening.Zone && row.At == opening.To && row.Do == "close");
        switch (kind)
        {
            case AuditClass.Late:
                (open.At, close.At) = (open.At + 240, close.At + 240);
                break;
            case AuditClass.Early:
                (open.At, close.At) = (open.At - 120, close.At - 120);
                break;
            case AuditClass.Short:
                close.At -= 200;
                break;
            case AuditClass.Long:
                close.At += 200;
                break;
            case AuditClass.Missed:
                (open.Do, open.Zone, close.Do, close.Zone) = ("alive", -1, "alive", -1);
                break;
            case AuditClass.Unplanned:
                rows.AddRange([new Row { Zone = opening.Zone, At = opening.From + 7_200, Do = "open" },
                    new Row { Zone = opening.Zone, At = opening.From + 7_300, Do = "close" }]);
                break;
            case AuditClass.ByHand:
                rows.AddRange([new Row { Zone = opening.Zone, At = opening.From + 7_200, Do = "open", Why = "hand" },
                    new Row { Zone = opening.Zone, At = opening.From + 7_300, Do = "close" }]);
                break;
            case AuditClass.Skipped:
                (open.Do, open.Why, close.Do, close.Zone) = ("skip", "rain", "alive", -1);
                break;
            case AuditClass.Interrupted:
                rows.AddRange([new Row { Zone = opening.Zone, At = opening.From + 200, Do = "close" },
                    new Row { Zone = opening.Zone, At = opening.From + 300, Do = "open" }]);
                break;
            case AuditClass.CloseNotSeen:
                (close.Do, close.Zone) = ("alive", -1);
                break;
            case AuditClass.Fault:
                rows.Add(new Row { Zone = opening.Zone, At = opening.From + 100, Do = "fault", Why = "no flow" });
                break;
        }
    }

    private static IEnumerable<Opening> Openings() => Timetable.Of(Garden, Week).Openings();

    private static List<Row> Rows() =>
    [
        new Row { Zone = -1, At = CivilDate.DayNumberOf(Week.From) * 86_400L, Do = "alive" },
        .. Openings().SelectMany(opening =>
            new[] { new Row { Zone = opening.Zone, At = opening.From, Do = "open" }, new Row { Zone = opening.Zone, At = opening.To, Do = "close" } }),
        new Row { Zone = -1, At = (CivilDate.DayNumberOf(Week.Until) * 86_400L) - 4_000, Do = "alive" },
    ];

    private static string Log(List<Row> rows, bool isNumbered = true)
    {
        var number = 0;
        foreach (var row in rows.OrderBy(row => row.At).Where(row => row.Number == 0)) row.Number = ++number;
        var random = new Random(rows.Count);
        var lines = rows.OrderBy(_ => random.Next()).SelectMany(row => Enumerable.Repeat(string.Create(
            CultureInfo.InvariantCulture,
            $"{row.At},{(row.Zone >= 0 ? Garden.Zones[row.Zone].Output : "")},{row.Do},{row.Why}{(isNumbered ? $",{row.Number}" : "")}"),
                random.Next(5) == 0 ? 2 : 1));
        return (isNumbered ? "time,output,do,why,number\n" : "time,output,do,why\n") + string.Join('\n', lines) + "\n";
    }

    private static AuditReport Audit(string text)
    {
        var log = new LogReader(Garden, LogColumns.Default);
        Assert.Null(log.Read("log.csv", text));
        var report = Auditor.Audit(Garden, log, new AuditOptions(), Timetable.Of(Garden, Week))!;
        Assert.Empty(log.Bad);
        return report;
    }

    private sealed class Row
    {
        public long At { get; set; }

        public int Zone { get; set; }

        public string Do { get; set; } = "";

        public string Why { get; set; } = "";

        public int Number { get; set; }
    }
}
