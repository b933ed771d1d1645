using System.Globalization;
using NodaTime;
using WaterScript.Answers.Usage;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Answers.Usage;

/// <summary>
/// The water of random sites is what comes of looking at every second: which zones are open in it by the runs of the reference, which date the clock of the
/// site shows by Noda Time, and a sixtieth of the flow as written.
/// </summary>
public sealed class UsageAgainstSecondsTests
{
    private const int Days = 5;

    /// <summary>What is under way at the beginning has begun within so many days.</summary>
    private const int DaysBefore = 4;

    private static readonly int SitesEach = Samples.OfBatch(40);

    public static TheoryData<int> Batches => [.. Samples.Batches(5)];

    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_sites_use_what_they_use_second_by_second(int batch)
    {
        var (compared, seconds) = (0, 0L);
        for (var number = batch * SitesEach; number < (batch + 1) * SitesEach; number++)
        {
            var source = RandomSource.Of(40_000 + number);
            if (RandomRunsTests.Read(source.Text, out _) is not { } site) continue;
            var horizon = Horizon.DaysFrom(source.From.PlusDays(DaysBefore), Days);
            seconds += Agree(site, horizon, string.Create(CultureInfo.InvariantCulture, $"number {number}\n{source.Text}"));
            compared++;
        }

        Assert.True(compared > SitesEach / 2, $"only {compared} sites");
        Assert.True(seconds > 10_000 * SitesEach, $"only {seconds} s of water");
    }

    private static long Agree(Site site, Horizon horizon, string context)
    {
        var runs = ReferenceRuns.Of(site, new Horizon(horizon.From.PlusDays(-DaysBefore), horizon.Until));
        var expected = SecondsOf(site, runs, horizon);
        foreach (UsageAxis[] by in (UsageAxis[][])[[UsageAxis.Day, UsageAxis.Zone], [UsageAxis.Month, UsageAxis.Schedule], [UsageAxis.Week, UsageAxis.Supply]])
            Hold(site, WaterUsage.Of(site, horizon, [.. by]), expected, context);
        HoldOpenings(site, horizon, runs, context);
        return expected.Values.Sum();
    }

    private static void Hold(Site site, WaterUsage usage, Dictionary<(LocalDate Date, int Zone, string Schedule), long> expected, string context)
    {
        var sums = new Dictionary<(int, int), (decimal SixtiethLitres, long Seconds)>();
        foreach (var ((date, zone, schedule), seconds) in expected)
        {
            var key = (PlaceOf(usage.By[0], site, date, zone, schedule), PlaceOf(usage.By[1], site, date, zone, schedule));
            var (litres, before) = sums.GetValueOrDefault(key);
            sums[key] = (litres + (site.Zones[zone].Flow!.Value.Value.Value * seconds), before + seconds);
        }

        var actual = usage.Rows.Where(row => row.Seconds > 0).ToDictionary(row => (row.First, row.Second));
        Assert.True(sums.Keys.ToHashSet().SetEquals(actual.Keys), $"other places\n{context}");
        foreach (var (key, (sixtieths, seconds)) in sums)
        {
            Assert.True(actual[key].Seconds == seconds, $"{key}: {actual[key].Seconds} s, not {seconds}\n{context}");
            Assert.True((actual[key].Litres * WaterScript.Quantities.Fraction.Of(60)).ToDecimal(9) == sixtieths / 1.0000000000000000000000000000m,
                $"{key}: {actual[key].Litres} L, not {sixtieths} sixtieths\n{context}");
        }
    }

    /// <summary>Which entry of an axis something belongs to, by the calendar of Noda Time.</summary>
    private static int PlaceOf(UsageAxis axis, Site site, LocalDate date, int zone, string schedule) => axis switch
    {
        UsageAxis.Zone => zone,
        UsageAxis.Schedule => site.Schedules.Single(known => known.Name == schedule).Index,
        UsageAxis.Supply => site.Zones[zone].Supply?.Index ?? site.Supplies.Length,
        UsageAxis.Week => DayOf(date.DayOfWeek == IsoDayOfWeek.Monday ? date : date.Previous(IsoDayOfWeek.Monday)),
        UsageAxis.Month => DayOf(new LocalDate(date.Year, date.Month, 1)),
        _ => DayOf(date),
    };

    private static int DayOf(LocalDate date) => Period.DaysBetween(new LocalDate(1970, 1, 1), date);

    private static Dictionary<(LocalDate Date, int Zone, string Schedule), long> SecondsOf(Site site, List<ReferenceRun> runs, Horizon horizon)
    {
        var sums = new Dictionary<(LocalDate Date, int Zone, string Schedule), long>();
        var open = new HashSet<(int Zone, long Second)>();
        foreach (var run in runs.OrderBy(run => run.Start).ThenBy(run => run.Schedule, StringComparer.Ordinal))
        {
            for (var second = run.Start; second < run.End; second++)
            {
                if (!open.Add((run.Zone, second))) continue;
                var date = Instant.FromUnixTimeSeconds(second).InZone(site.TimeZone).Date;
                if (date < horizon.From || date >= horizon.Until) continue;
                sums[(date, run.Zone, run.Schedule)] = sums.GetValueOrDefault((date, run.Zone, run.Schedule)) + 1;
            }
        }

        return sums;
    }

    private static void HoldOpenings(Site site, Horizon horizon, List<ReferenceRun> runs, string context)
    {
        var usage = WaterUsage.Of(site, horizon, [UsageAxis.Zone]);
        LocalDate DateOf(long second) => Instant.FromUnixTimeSeconds(second).InZone(site.TimeZone).Date;
        bool IsIn(long second) => DateOf(second) >= horizon.From && DateOf(second) < horizon.Until;
        var openings = SecondBySecond.Openings(site, runs, horizon.From.PlusDays(-DaysBefore));
        foreach (var device in site.Devices)
        {
            var own = SecondBySecond.Together(openings.Where(opening => opening.Device == device.Index));
            var (seconds, starts) = (own.Sum(opening => CountIn(opening, IsIn)), own.Count(opening => IsIn(opening.From)));
            var actual = usage.Devices.Single(use => use.Device == device);
            Assert.True((actual.Seconds, actual.Starts) == (seconds, starts),
                $"{device.Name}: {actual.Seconds} s, {actual.Starts}, not {seconds} s, {starts}\n{context}");
        }

        Assert.Equal(openings.Count(opening => opening.Zone >= 0 && IsIn(opening.From)), usage.Openings);
    }

    private static long CountIn((long From, long To) opening, Func<long, bool> isIn)
    {
        var count = 0L;
        for (var second = opening.From; second < opening.To; second++) count += isIn(second) ? 1 : 0;
        return count;
    }
}
