using WaterScript.Agronomy;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation.Water;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Plants;

/// <summary>A day's watering that is more than the root zone can hold, however dry it is.</summary>
internal sealed class BelowRoots(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("below-roots", Severity.Advice, "water that runs below the roots")
    {
        Category = RuleCategory.PlantsAndSoil,
        CanBeAccepted = true,
        Finds = "What a zone gets on one day, as far as plants can use it, is more than its soil holds in the depth of the roots, from wilting point to " +
            "field capacity.",
        Matters = """
            The rest sinks below the roots, and takes fertiliser along. Less at a time and more often does more.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            plants young-lawn { roots 10 cm; allowed-depletion 50 % }
            zone lawn { output 1; rate 20 mm/h; soil sandy-loam; plants young-lawn }
            schedule weekly {
              on mon
              start at 05:00
              steps { water lawn for 1 h }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            plants young-lawn { roots 10 cm; allowed-depletion 50 % }
            zone lawn { output 1; rate 20 mm/h; soil sandy-loam; plants young-lawn }
            schedule weekly {
              on mon, wed, fri
              start at 05:00
              steps { water lawn for 20 min }
            }
            """,
        KnownLimits = "What the roots have left from the day before is not counted here: `over-watered` does that, month by month. Zones without soil, " +
            "plants, depth of roots or application rate are not looked at, nor are manual schedules.",
        Sources = "FAO Irrigation and Drainage Paper 56, 1998, eq. 82.",
    };

    public IEnumerable<Finding> Findings() => context.Site.Zones.Select(Judge).OfType<Finding>();

    public IEnumerable<Gap> NotChecked() =>
        Gap.Each(Concern.Roots, "water below the roots",
            context.Site.Zones.Where(zone => !zone.IsSpare && !zone.WatersNoPlants).Select(zone => (Thing.Of(zone), LacksFor(zone))));

    private static string? LacksFor(Zone zone) =>
        zone.Soil is null ? "soil"
        : zone.Soil.Holds is null ? "holds"
        : zone.Plants is null ? "plants"
        : zone.Plants.Roots is null ? "roots"
        : zone.Plants.DepletionPercent is null ? "allowed-depletion"
        : zone.MillimetresPerHour is null ? "rate"
        : null;

    private Finding? Judge(Zone zone)
    {
        if (LacksFor(zone) is not null || RootZone.Of(zone) is not { } roots) return null;
        WateredDay[] days = [.. context.Water.DaysOf(zone).Where(day => DepthOn(zone, day) > HeldBy(zone) + Tolerance)];
        return days.Length == 0 ? null : FindingFor(zone, roots, days);
    }

    /// <summary>What a quotient such as a flow by an area may be off, in mm.</summary>
    private const decimal Tolerance = 0.000001m;

    /// <summary>What the roots hold, in mm, exactly.</summary>
    private static decimal HeldBy(Zone zone) => zone.Soil!.Holds!.Value.InBase * zone.Plants!.Roots!.Value.InBase;

    private Finding FindingFor(Zone zone, RootZone roots, WateredDay[] days)
    {
        var most = days.Max(day => DepthOn(zone, day));
        return Finding.At(Rule, zone.Origin,
            $"zone {zone.Name} gets {context.Depths.Say(most)} in a day, its roots hold {context.Depths.Say((decimal)roots.Total)}",
            "the rest runs below the roots") with
        {
            Others = [.. context.Steps.Of(context.Water.FirstOf(zone)!.Value).Labels("waters it")],
            Details = $"More than the roots hold, on {Phrases.Count(days.Length, "day")} from " +
                $"{MomentWords.Date(CivilDate.FromDayNumber(days[0].Day).ToLocalDate())}.",
            Help = $"Water it with {context.Depths.Say((decimal)roots.Readily)} at a time, more often: plants can use that much before they suffer.",
        };
    }

    private static decimal DepthOn(Zone zone, WateredDay day) => WaterLedger.UsableDepth(zone, day.Seconds)!.Value;
}
