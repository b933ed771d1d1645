using System.Globalization;
using NodaTime;
using WaterScript.Checks;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Checks;

/// <summary>On a hundred sites nobody thought of, the linter finds what brute force finds: it looks at every pair of runs, and at every date.</summary>
public sealed class EveryPairTests
{
    private const int SitesEach = 10;

    /// <summary>Of more, comparing every pair takes minutes.</summary>
    private const int MostRuns = 1_500;

    private const int Rest = 1_800;
    private const int Most = 900;

    public static TheoryData<int> Batches => [.. Enumerable.Range(0, 10)];

    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_sites_have_the_findings_of_brute_force(int batch)
    {
        var (found, clean) = (0, 0);
        for (var number = batch * SitesEach; number < (batch + 1) * SitesEach; number++)
        {
            var source = RandomSource.Of(40_000 + number);
            var text = source.Text + "restriction town { allow on odd days; at most 15 min a day per zone }\n";
            if (RandomRunsTests.Read(text, out _) is not { } read) continue;
            var site = read with { Zones = [.. read.Zones.Select(zone => zone with { Rest = Duration.FromSeconds(Rest) })] };
            var horizon = Horizon.DaysFrom(source.From, 25);
            if (Timetable.Of(site, horizon).Runs().Skip(MostRuns).Any()) continue;
            var findings = Linter.Check(site, horizon).Findings;
            var runs = ReferenceRuns.Of(site, horizon);
            var context = string.Create(CultureInfo.InvariantCulture, $"number {number}\n{text}");
            found += Same("zone-twice", ZoneTwice(runs), findings, context);
            found += Same("pass-overlap", PassOverlap(runs), findings, context);
            found += Same("rest-too-short", RestTooShort(runs), findings, context);
            found += Same("forbidden-day", ForbiddenDay(site, runs), findings, context);
            found += Same("too-long-a-day", TooLongADay(site, runs), findings, context);
            if (findings.All(finding => finding.Severity != Severity.Error)) clean++;
        }

        Assert.True(found > SitesEach, string.Create(CultureInfo.InvariantCulture, $"only {found} found"));
        Assert.True(clean < SitesEach);
    }

    /// <summary>Holds that a rule finds something as often as it happens; what lies after the horizon is a warning and not counted.</summary>
    private static int Same(string slug, int expected, IEnumerable<Finding> findings, string context)
    {
        var actual = findings.Where(finding => finding.Rule.Slug == slug && finding.Severity == finding.Rule.Severity).Sum(finding => finding.Happens!.Times);
        Assert.True(expected == actual, string.Create(CultureInfo.InvariantCulture, $"{slug}: {expected} times, and {actual} found, {context}"));
        return expected;
    }

    private static int ZoneTwice(List<ReferenceRun> runs) =>
        runs.GroupBy(run => run.Zone).SelectMany(ofZone => Pairs(ofZone.ToList())).Count(pair => pair.First.Schedule != pair.Second.Schedule && Meet(pair.First.Start, pair.First.End, pair.Second.Start, pair.Second.End));

    private static int PassOverlap(List<ReferenceRun> runs)
    {
        var passes = runs.GroupBy(run => (run.Schedule, run.Day, run.StartNumber, run.Pass))
            .Select(pass => (pass.Key.Schedule, From: pass.Min(run => run.Start), To: pass.Max(run => run.End))).ToList();
        return passes.GroupBy(pass => pass.Schedule).SelectMany(ofSchedule => Pairs(ofSchedule.ToList())).Count(pair => Meet(pair.First.From, pair.First.To, pair.Second.From, pair.Second.To));
    }

    private static int RestTooShort(List<ReferenceRun> runs)
    {
        var times = 0;
        foreach (var ofZone in runs.GroupBy(run => run.Zone))
        {
            foreach (var start in ofZone.Select(run => run.Start).Distinct())
            {
                var before = ofZone.Where(run => run.Start < start).Select(run => run.End + run.Overlap).DefaultIfEmpty(long.MinValue / 2).Max();
                if (start > before && start - before < Rest) times++;
            }
        }

        return times;
    }

    private static int ForbiddenDay(Site site, List<ReferenceRun> runs) =>
        runs.Sum(run => Dates(site, run).Count(part => part.Date.Day % 2 == 0));

    /// <summary>Dates and zones with more than allowed; what two runs share counts once.</summary>
    private static int TooLongADay(Site site, List<ReferenceRun> runs) => runs
        .SelectMany(run => Dates(site, run).Select(part => (run.Zone, part.Date, part.From, part.To)))
        .GroupBy(part => (part.Zone, part.Date))
        .Count(parts => Covered([.. parts.Select(part => (part.From, part.To))]) > Most);

    private static long Covered(List<(long From, long To)> parts)
    {
        var edges = parts.SelectMany(part => new[] { part.From, part.To }).Distinct().Order().ToList();
        long seconds = 0;
        for (var i = 1; i < edges.Count; i++)
        {
            if (parts.Exists(part => part.From <= edges[i - 1] && edges[i] <= part.To)) seconds += edges[i] - edges[i - 1];
        }

        return seconds;
    }

    private static IEnumerable<(LocalDate Date, long From, long To)> Dates(Site site, ReferenceRun run)
    {
        var date = Instant.FromUnixTimeSeconds(run.Start).InZone(site.TimeZone).Date;
        for (; StartOf(site, date) < run.End; date = date.PlusDays(1))
        {
            var (from, to) = (Math.Max(run.Start, StartOf(site, date)), Math.Min(run.End, StartOf(site, date.PlusDays(1))));
            if (from < to) yield return (date, from, to);
        }
    }

    private static long StartOf(Site site, LocalDate date) => site.TimeZone.AtStartOfDay(date).ToInstant().ToUnixTimeSeconds();

    private static bool Meet(long from, long to, long otherFrom, long otherTo) => from < otherTo && otherFrom < to;

    private static IEnumerable<(T First, T Second)> Pairs<T>(List<T> all)
    {
        for (var i = 0; i < all.Count; i++)
        {
            for (var j = i + 1; j < all.Count; j++) yield return (all[i], all[j]);
        }
    }
}
