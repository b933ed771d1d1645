using NodaTime;
using WaterScript.Agronomy;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>What holds of the cycles of any site: within one the ground takes all of the water, and a soak that another pass cuts is found.</summary>
public sealed class SoakPropertyTests
{
    private static readonly LocalDate Day = new(2026, 6, 1);

    /// <summary>Each cycle alone, with lengths from the ground: what stands never comes over what may, and every zone gets all of its time.</summary>
    [SampledProperty(40)]
    public void Cycles_by_the_ground_never_run_off(ushort number)
    {
        if (RandomRunsTests.Read(RandomSource.Of(number).Text, out _) is not { } site) return;
        foreach (var cycle in site.Schedules.SelectMany(schedule => schedule.Steps).OfType<CycleStep>())
        {
            var auto = (CycleStep)OnGround(cycle with { Cycle = null, Soak = null }, number);
            var (pieces, whole) = (RunsOf(site, auto), RunsOf(site, auto with { Cycle = Duration.FromDays(300), Soak = Duration.Zero }));
            Assert.Equal(SumsOf(whole), SumsOf(pieces));
            foreach (var zone in Waterings.ZonesIn([auto])) Assert.True(MostStanding(pieces.Where(run => run.Zone == zone.Index),
                zone) <= zone.Soil!.PondsOn(zone.SlopePercent!.Value)!.Value.InBase + 0.001m);
        }
    }

    /// <summary>
    /// Every pair of runs is looked at: wherever one begins while its zone still soaks, and does not meet another, the zone is reported; and no other.
    /// </summary>
    [SampledProperty(60)]
    public void A_soak_that_is_cut_anywhere_is_found(ushort number)
    {
        var source = RandomSource.Of(number);
        if (RandomRunsTests.Read(source.Text, out _) is not { } site) return;
        var horizon = Horizon.DaysFrom(source.From, 20);
        var runs = Timetable.Of(site, horizon).Runs().ToLookup(run => run.Zone);
        var cut = site.Zones.Where(zone => runs[zone.Index].Any(run => IsCut(run, [.. runs[zone.Index]])))
            .Select(zone => $"zone {zone.Name} soaks for ");
        var found = Linter.Check(site, horizon).Findings.Where(finding => finding.Rule.Slug == "soak-too-short")
            .Select(finding => BeforeNumbers(finding.Heading)).Distinct();
        Assert.Equal(cut.Order(), found.Order());
    }

    /// <summary>A heading up to its first number, which is a length, as the second is.</summary>
    private static string BeforeNumbers(string heading)
    {
        const string Verb = " soaks for ";
        Assert.Matches(@" soaks for [\dhmins ]+, needs [\dhmins ]+$", heading);
        return heading[..(heading.IndexOf(Verb, StringComparison.Ordinal) + Verb.Length)];
    }

    private static bool IsCut(Run run, Run[] all) =>
        all.Any(before => before.End <= run.Start && run.Start < before.End + before.Soak)
        && !all.Any(other => other.Number != run.Number && other.Start <= run.Start && run.Start < other.End);

    private static List<Run> RunsOf(Site site, CycleStep step)
    {
        var schedule = new Schedule { Index = 0, Name = "alone", Origin = site.Origin, IsManual = true, Steps = [step] };
        return [.. Timetable.OfOnePass(site with { Schedules = [schedule] }, schedule, Day.AtMidnight()).Runs()];
    }

    private static IEnumerable<(int Zone, long Seconds)> SumsOf(List<Run> runs) =>
        runs.GroupBy(run => run.Zone).Select(zone => (zone.Key, zone.Sum(run => run.Seconds))).Order();

    private static decimal MostStanding(IEnumerable<Run> runs, Zone zone)
    {
        var (stands, most, now) = (0m, 0m, 0L);
        var (rate, intake) = (zone.MillimetresPerHour!.Value / 3600, zone.Soil!.Intake!.Value.InBase / 3600);
        foreach (var run in runs)
        {
            stands = Math.Max(0, stands - (intake * (run.Start - now)));
            stands = Math.Max(0, stands + ((rate - intake) * run.Seconds));
            (most, now) = (Math.Max(most, stands), run.End);
        }

        return most;
    }

    /// <summary>The same step with a soil and a slope for each zone.</summary>
    private static Step OnGround(Step step, int number) => step switch
    {
        WaterStep water => water with { Parts = [.. water.Parts.Select(part => part with { Zones = [.. part.Zones.Select(zone => OnGround(zone, number))] })] },
        CycleStep cycle => cycle with { Steps = [.. cycle.Steps.Select(inner => OnGround(inner, number))] },
        RunStep run => run with { Sequence = run.Sequence with { Steps = [.. run.Sequence.Steps.Select(inner => OnGround(inner, number))] } },
        _ => step,
    };

    private static Zone OnGround(Zone zone, int number) =>
        zone with
        {
            Soil = SoilTable.All[(number + zone.Index) % SoilTable.All.Length],
            SlopePercent = new Placed<decimal>((number + zone.Index) % 20, zone.Origin),
        };
}
