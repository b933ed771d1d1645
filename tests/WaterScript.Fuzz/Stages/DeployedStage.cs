using NodaTime;
using WaterScript.Answers.Audit;
using WaterScript.Answers.Deployed;
using WaterScript.Answers.Diff;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Fuzz.Inputs;
using WaterScript.Model;

namespace WaterScript.Fuzz.Stages;

/// <summary>
/// A timetable that is deployed: as it was compiled nothing changes; with odd values, lines and bytes it is compared or refused in words, with a
/// place that it has.
/// </summary>
internal sealed class DeployedStage : IStage
{
    private const int Rounds = 12;

    /// <summary>Letters that are read in all rounds together, however few of them that leaves.</summary>
    private const int MostLetters = 4_000_000;

    private static readonly string[] Odd =
    [
        "&a ", "*a", "!!str ", "!x ", "<<: *a", "[", "]", "{", "}", ": ", "- ", "? ", "| ", ">", "\"", "'", "#",
        "\n", "\n---\n", "\n...\n", "%YAML 1.2\n", "\t", "\0", "\u0085", "\u2028", "\ufeff", "\ud83d", "~", "null", "-1", "0", "1e9", "0x1F", ".inf",
        "99999999999999999999999999999999", "9999-12-31T23:59:59+00:00", "0000-00-00T00:00:00+00:00", "2026-02-30", "\"\\u202e\"", "\"\\x00\"", "on", "true",
        "waterscript: 1\n", "runs:\n", "runs: []\n", "end: {}\n", "zones:\n  - {}\n",
    ];

    public string Name => "deployed";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (site.Sound is not { } sound || DeviceListStage.IsRefused(site, controller: null, isForDevice: false)) return false;
        var yaml = CompileStage.Document(site, OutputFormat.Yaml, null);
        using (var deployed = Open(yaml))
        {
            var changes = WateringChanges.Of(deployed, sound);
            Must.Hold(
                !changes.IsChanged && !changes.IsDescriptionChanged && changes.Schedules.IsEmpty && changes.Zones.IsEmpty,
                "what was compiled is what the site says",
                string.Join('\n', changes.Schedules));
        }

        Trace(site, sound);
        if (original.Sound is { } other) Trace(site, other);
        var dice = new Dice((ulong)(yaml.Length * FuzzInput.Salts) + (ulong)site.Salt);
        var rounds = Math.Clamp(MostLetters / yaml.Length, 1, Rounds);
        for (var round = 0; round < rounds; round++) Try(Spoilt(yaml, dice), site, isAudit: dice.OneIn(2));
        return true;
    }

    /// <summary>A list is compared with what a site gives in its place: with its own all rows are the same, with any other there are words for it.</summary>
    private static void Trace(SiteInHand site, Site beside)
    {
        if (DeviceListStage.IsRefused(site, controller: null, isForDevice: true)) return;
        var list = DeployedList.Read(CompileStage.Document(site, OutputFormat.Csv, TimetableList.Switchings));
        try
        {
            var comparison = ListComparison.Of(list, beside, new WorkBudget(Limits.CheckWorkOf(beside.SourceLength)));
            if (beside == site.Sound) Must.Hold(comparison.HasSameRows, "a list that was compiled has the rows that the site gives");
            var words = new DifferenceWords(comparison, beside);
            Must.Hold(words.Sentences().Prepend(words.Head(list.From)).All(line => line.Length is > 0 and < 100_000), "a difference is said in words");
        }
        catch (Exception problem) when (problem is WorkUsedUpException or SwitchingContractException)
        {
            // The other site gives no list, or too long a one.
        }
    }

    private static DeployedTimetable Open(string yaml) => DeployedTimetable.Open(new StringReader(yaml), "deployed.yaml", DateTimeZoneProviders.Tzdb);

    private static void Try(string yaml, SiteInHand site, bool isAudit)
    {
        try
        {
            using var deployed = Open(yaml);
            if (isAudit) Audit(deployed);
            else WateringChanges.Of(deployed, site.Sound!);
        }
        catch (DeployedException problem)
        {
            Must.Hold(problem.Message.Length > 0 && problem.Help.Length > 0, "a timetable is refused in words");
            Must.Hold(
                problem.Line >= 1 && problem.Column >= 1 && problem.Line <= yaml.Length + 1,
                "a timetable is refused with a place",
                $"{problem.Line}:{problem.Column}");
        }
    }

    private static void Audit(DeployedTimetable deployed)
    {
        if (deployed.Site.Zones.IsEmpty) return;
        var from = deployed.Horizon.From.AtStartOfDayInZone(deployed.Site.TimeZone).ToInstant().ToUnixTimeSeconds();
        var log = new LogReader(deployed.Site, LogColumns.Default);
        var zone = deployed.Site.Zones[0].Name;
        var rows = FormattableString.Invariant($"time,zone,do\n{from},{zone},open\n{from + 600},{zone},close\n{from + 90_000},,alive\n");
        if (log.Read("log.csv", rows) is not null) return;
        Auditor.Audit(deployed, log, new AuditOptions());
    }

    private static string Spoilt(string yaml, Dice dice)
    {
        for (var changes = 1 + dice.Below(4); changes > 0 && yaml.Length > 0; changes--)
        {
            var at = dice.Below(yaml.Length);
            yaml = dice.Below(6) switch
            {
                0 => yaml.Remove(at, Math.Min(1 + dice.Below(30), yaml.Length - at)),
                1 => yaml.Insert(at, dice.Of(Odd)),
                2 => Value(yaml, at, dice.Of(Odd)),
                3 => yaml.Insert(at, yaml.Substring(at, Math.Min(1 + dice.Below(200), yaml.Length - at))),
                4 => Lines(yaml, at, dice),
                _ => yaml[..at] + (char)dice.Below(0x2100) + yaml[(at + 1)..],
            };
        }

        return dice.OneIn(10) ? yaml[..dice.Below(yaml.Length + 1)] : yaml;
    }

    /// <summary>Another value after a key near a place.</summary>
    private static string Value(string yaml, int at, string value)
    {
        var start = yaml.IndexOf(": ", at, StringComparison.Ordinal);
        if (start < 0) return yaml;
        var end = yaml.IndexOfAny([',', '}', '\n'], start);
        return end < 0 ? yaml : yaml[..(start + 2)] + value + yaml[end..];
    }

    /// <summary>A line twice, or the one after it first.</summary>
    private static string Lines(string yaml, int at, Dice dice)
    {
        var lines = yaml.Split('\n').ToList();
        var line = yaml.AsSpan(0, at).Count('\n');
        if (dice.OneIn(2)) lines.Insert(line, lines[line]);
        else lines.Reverse(line, Math.Min(2, lines.Count - line));
        return string.Join('\n', lines);
    }
}
