using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using NodaTime;
using WaterScript.Tests.Player;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>A year of weekly lists, each of another version of the file, and a log of it: the audit finds what the script that writes the log did.</summary>
public sealed class SeasonAuditTests : Workshop
{
    private const int Weeks = 52;
    private const int MissedWeek = 5;
    private static readonly LocalDate First = new(2026, 5, 4);
    private static readonly string[] Forms = ["csv", "yaml", "json"];
    private static readonly DateTimeZone Lisbon = DateTimeZoneProviders.Tzdb["Europe/Lisbon"];

    private readonly string[] _hashes = new string[Weeks];
    private readonly Dictionary<(string Date, string Zone), (string Class, long Seconds)> _expected = [];
    private readonly StringBuilder _log = new();
    private int _number;

    /// <summary>
    /// In the sixth week the update is missed: lists of a week have ended then, and the device rests; of two weeks, the device goes on with the one before.
    /// The firmware starts anew while the lawn is watered, and the power is cut for three hours.
    /// </summary>
    [Theory]
    [InlineData(7, true)]
    [InlineData(7, false)]
    [InlineData(14, true)]
    public void The_audit_says_what_the_script_did(int days, bool hasHashes)
    {
        CompileLists(days);
        WriteLog(days, hasHashes, hasFaults: true);
        var until = First.PlusDays(7 * Weeks);
        var result = RunLine($"audit garden.water log.csv --until {until:uuuu-MM-dd} --report json --list {Lists}");
        Assert.Equal(("", 1), (result.Error, result.ExitCode));
        var tree = JsonNode.Parse(result.Output)!;
        var found = tree["entries"]!.AsArray().ToDictionary(
            entry => ((string)entry!["day"]!, (string)entry["zone"]!), entry => ((string)entry!["class"]!, (long)entry["meant_s"]!));
        Assert.Equal(_expected.OrderBy(entry => entry.Key), found.OrderBy(entry => entry.Key));
        Assert.Equal(Weeks * 7 * 2, found.Count);
        var missed = tree["missed_updates"]?.AsArray().Select(item => ((string)item!["due"]!, (string)item["had"]!));
        Assert.Equal(hasHashes ? [(FileOf(MissedWeek), FileOf(MissedWeek - 1))] : null, missed);
        var lists = tree["timetables"]!.AsArray().Select(list => ((string)list!["is"]!, (string)list["file"]!));
        Assert.Equal(hasHashes ? Enumerable.Range(0, Weeks).Where(week => week != MissedWeek).Select(week => ("given", FileOf(week))) : [], lists);
    }

    [Theory]
    [InlineData(7)]
    [InlineData(14)]
    public void A_year_without_a_fault_is_as_meant(int days)
    {
        CompileLists(days);
        WriteLog(days, hasHashes: true, hasFaults: false);
        var until = First.PlusDays(7 * Weeks);
        var result = RunLine($"audit garden.water log.csv --until {until:uuuu-MM-dd} --list {Lists}");
        Assert.Contains(": 728 of 728 waterings done", result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        // The file as it is now was compiled for the last week only.
        Assert.Equal(1, RunLine($"audit garden.water log.csv --from {First:uuuu-MM-dd} --until {until:uuuu-MM-dd}").ExitCode);
        // Dates of the lists that the log has nothing of are no evidence.
        Assert.Equal(1, RunLine($"audit garden.water log.csv --until {until.PlusDays(1):uuuu-MM-dd} --list {Lists} {NextList(until)}").ExitCode);
    }

    [Fact]
    public void What_is_no_list_of_the_site_is_refused()
    {
        CompileLists(7);
        WriteLog(7, hasHashes: true, hasFaults: false);
        Write("other.water", SiteOf(10).Replace("output 2", "output 3", StringComparison.Ordinal));
        var other = RunLine($"audit other.water log.csv --list {FileOf(0)}");
        Assert.Equal(("", 2), (other.Output, other.ExitCode));
        Assert.Equal(
            "waterscript: lists/00.csv:4:1: the site has nothing at output \"2\" of \"controller\"; give the site as it was when the list was compiled\n",
            other.Error);
        Write(FileOf(0), Read(FileOf(0)).Replace(",open,", ",close,", StringComparison.Ordinal));
        Assert.Contains("the list was altered after it was written", RunLine($"audit garden.water log.csv --list {FileOf(0)}").Error, StringComparison.Ordinal);
        RunLine("compile garden.water --to yaml --days 2 -o whole.yaml");
        Assert.Contains("--list and --revision need the file with the site",
            RunLine($"audit whole.yaml log.csv --list {FileOf(1)}").Error, StringComparison.Ordinal);
        Assert.Contains("no such file: gone.csv", RunLine("audit garden.water log.csv --list gone.csv").Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("runs", "morning")]
    [InlineData("openings", null)]
    public void Lists_of_runs_and_of_openings_mean_the_same(string only, string? schedule)
    {
        CompileLists(7);
        WriteLog(7, hasHashes: false, hasFaults: true);
        var lists = Lists;
        var switchings = Entries($"audit garden.water log.csv --report json --list {lists}");
        CompileLists(7, only);
        var others = Entries($"audit garden.water log.csv --report json --list {lists}");
        Assert.All(others, entry => Assert.Equal(schedule, (string?)entry!["schedule"]));
        foreach (var entry in others) entry!.AsObject().Remove("schedule");
        Assert.Equal(switchings.ToJsonString(), others.ToJsonString());
    }

    [ShellFact]
    public void A_revision_is_what_was_meant()
    {
        Write("part/garden.water", SiteOf(10));
        Shell("git init -q . && git add -A && git -c user.name=n -c user.email=e -c commit.gpgsign=false commit -q -m first");
        Write("part/garden.water", SiteOf(15));
        Write("log.csv", "zone,from,to\nlawn,2026-06-01 06:00,2026-06-01 06:10\nbeds,2026-06-01 06:10,2026-06-01 06:20\n");
        Assert.Equal(1, RunLine("audit part/garden.water log.csv").ExitCode);
        var meant = RunLine("audit part/garden.water log.csv --revision HEAD");
        Assert.Contains("2 of 2 waterings done", meant.Output, StringComparison.Ordinal);
        Assert.Equal(("", 0), (meant.Error, meant.ExitCode));
        Assert.Equal(2, RunLine("audit part/garden.water log.csv --revision none").ExitCode);
    }

    /// <summary>Each week's file is a commit of its Monday: its revisions mean what the lists do, with dates or with those of the commits.</summary>
    [Player.ShellTheory]
    [InlineData(true)]
    [InlineData(false)]
    public void Revisions_mean_what_the_lists_of_their_dates_do(bool areDated)
    {
        CompileLists(7);
        WriteLog(7, hasHashes: areDated, hasFaults: true);
        Shell("git init -q .");
        var revisions = new StringBuilder();
        for (var week = 0; week < Weeks; week++)
        {
            var monday = First.PlusDays(7 * week);
            Write("garden.water", SiteOf(MinutesOf(week)));
            Shell($"git add garden.water && GIT_COMMITTER_DATE={monday:uuuu-MM-dd}T05:00:00Z "
                + "git -c user.name=n -c user.email=e -c commit.gpgsign=false commit -q -m week");
            revisions.Insert(0, string.Create(CultureInfo.InvariantCulture, $" --revision HEAD~{Weeks - 1 - week}")
                + (areDated ? $"={monday:uuuu-MM-dd}/{monday.PlusDays(7):uuuu-MM-dd}" : ""));
        }

        var lists = Entries($"audit garden.water log.csv --report json --list {Lists}");
        Write("garden.water", SiteOf(30));
        var entries = Entries("audit garden.water log.csv --report json" + revisions);
        foreach (var entry in entries) Assert.True(entry!.AsObject().Remove("schedule"));
        Assert.Equal(lists.ToJsonString(), entries.ToJsonString());
    }

    [ShellFact]
    public void Revisions_and_lists_go_together_and_odd_dates_are_refused()
    {
        Write("garden.water", SiteOf(10));
        RunLine("compile garden.water --only switchings --to csv --from 2026-06-02 --days 1 -o second.csv");
        Shell("git init -q . && git add garden.water && git -c user.name=n -c user.email=e -c commit.gpgsign=false commit -q -m first");
        Write("garden.water", SiteOf(15));
        Write("log.csv", "zone,from,to\nlawn,2026-06-01 06:00,2026-06-01 06:10\nbeds,2026-06-01 06:10,2026-06-01 06:20\n"
            + "lawn,2026-06-02 06:00,2026-06-02 06:10\nbeds,2026-06-02 06:10,2026-06-02 06:20\n");
        var both = RunLine("audit garden.water log.csv --revision HEAD=2026-06-01/2026-06-02 --list second.csv");
        Assert.Contains("4 of 4 waterings done", both.Output, StringComparison.Ordinal);
        Assert.Equal(("", 0), (both.Error, both.ExitCode));
        foreach (var (odd, words) in new[]
        {
            ("HEAD=2026-06-02/2026-06-01", "its last date is not after the first"), ("HEAD=monday/", "write the dates like HEAD=2026-05-04/2026-05-11"),
            ("none=2026-06-01/", "git knows no revision none"), ("--output=x=2026-06-01/", ""),
        })
        {
            var refused = RunLine($"audit garden.water log.csv --revision {odd}");
            Assert.Equal(("", 2), (refused.Output, refused.ExitCode));
            Assert.Contains(words, refused.Error, StringComparison.Ordinal);
        }
    }

    private static string Lists => string.Join(' ', Enumerable.Range(0, Weeks).Select(FileOf));

    private static string FileOf(int week) => string.Create(CultureInfo.InvariantCulture, $"lists/{week:00}.{Forms[week % 3]}");

    private static int MinutesOf(int week) => 10 + (week % 4);

    private static string SiteOf(int minutes) => string.Create(CultureInfo.InvariantCulture,
        $$"""
        site garden { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1; flow 10 L/min }
        zone beds { output 2 }
        schedule morning { every day; start at 06:00; steps { water lawn, beds for {{minutes}} min } }

        """);

    private void Shell(string line) => Assert.Equal(0, WaterscriptProcess.Shell(Folder, line).ExitCode);

    private JsonArray Entries(string line) => JsonNode.Parse(RunLine(line).Output)!["entries"]!.AsArray();

    private string NextList(LocalDate from)
    {
        RunLine($"compile garden.water --to csv --only switchings --from {from:uuuu-MM-dd} --days 7 -o lists/next.csv");
        return "lists/next.csv";
    }

    private void CompileLists(int days, string only = "switchings")
    {
        Directory.CreateDirectory(PathOf("lists"));
        for (var week = 0; week < Weeks; week++)
        {
            Write("garden.water", SiteOf(MinutesOf(week)));
            var line = $"compile garden.water --only {only} --from {First.PlusDays(7 * week):uuuu-MM-dd} --days {days}";
            Assert.Equal("", RunLine($"{line} --to {Forms[week % 3]} -o {FileOf(week)}").Error);
            _hashes[week] = RunLine(line + " --to csv").Output.Split("\r\n")[^2].Split(',')[2];
        }
    }

    /// <summary>What a device does and logs, by the minutes of each week, without a word of the program's own.</summary>
    private void WriteLog(int days, bool hasHashes, bool hasFaults)
    {
        _log.Append("number,time,zone,do,list\n");
        for (var day = 0; day < 7 * Weeks; day++)
        {
            var (week, date) = (day / 7, First.PlusDays(day));
            var isMissed = hasFaults && week == MissedWeek && hasHashes;
            var list = isMissed ? MissedWeek - 1 : week;
            var hash = hasHashes ? _hashes[list][..12] : "";
            var (start, length) = (Lisbon.AtStrictly(date.At(new LocalTime(6, 0))).ToInstant().ToUnixTimeSeconds(), 60 * MinutesOf(list));
            void Row(long at, string zone, string what) =>
                _log.Append(CultureInfo.InvariantCulture, $"{++_number},{start + at},{zone},{what},{hash}\n");
            void Expect(string zone, string kind) => _expected[($"{date:uuuu-MM-dd}", zone)] = (kind, length);
            void Water(string zone, long from, long to)
            {
                Row(from, zone, "open");
                Row(to, zone, "close");
                Expect(zone, "done");
            }

            Row(-3_600, "", "alive");
            if (isMissed && days == 7)
            {
                length = 60 * MinutesOf(week);
                Row(7_200, "", "alive");
                Expect("lawn", "missed");
                Expect("beds", "missed");
            }
            else if (hasFaults && day == 60)
            {
                // The firmware starts anew after three minutes, and goes on.
                Row(0, "lawn", "open");
                Row(180, "", "boot");
                Row(190, "lawn", "open");
                Row(length, "lawn", "close");
                Expect("lawn", "interrupted");
                Water("beds", length, 2 * length);
            }
            else if (hasFaults && day == 250)
            {
                // The power is cut while the lawn is watered, and comes back three hours later.
                Row(0, "lawn", "open");
                Row(10_800, "", "boot");
                Expect("lawn", "interrupted");
                Expect("beds", "not known");
            }
            else
            {
                Water("lawn", 0, length);
                Water("beds", length, 2 * length);
            }
        }

        End();
        Write("log.csv", _log.ToString());
    }

    /// <summary>The log goes on to the end of the last date.</summary>
    private void End() => _log.Append(CultureInfo.InvariantCulture,
        $"{++_number},{Lisbon.AtStartOfDay(First.PlusDays(7 * Weeks)).ToInstant().ToUnixTimeSeconds() - 60},,alive,\n");
}
