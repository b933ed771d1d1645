using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;

namespace WaterScript.Linting.Rules.Plants;

/// <summary>A zone that gets more than its plants need.</summary>
internal sealed class OverWatered(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("over-watered", Severity.Advice, "more water than the plants need")
    {
        Category = RuleCategory.PlantsAndSoil,
        CanBeAccepted = true,
        Finds = "In some month a zone gets more than 125 % of what its plants need: crop coefficient times reference evapotranspiration, less effective " +
            "rain. Says how much runs below the roots, by a daily balance of the root zone where soil and roots are given.",
        Matters = "Roots without air rot, and the water and what it carries are lost. In most gardens that is the water of spring and autumn: the times of " +
            "July go on into September.",
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              location   39.6 N 8.1 W 310 m
              effective  2026-03-01
            }
            climate { sep 14.8 C to 26.1 C, rain 30 mm }
            zone lawn { output 1; rate 15 mm/h; soil loam; plants turf-cool }
            schedule every-other-day {
              every 2 days
              from 1 sep to 30 sep
              start at 05:00
              steps { water lawn for 50 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              location   39.6 N 8.1 W 310 m
              effective  2026-03-01
            }
            climate { sep 14.8 C to 26.1 C, rain 30 mm }
            zone lawn { output 1; rate 15 mm/h; soil loam; plants turf-cool }
            schedule every-other-day {
              every 2 days
              from 1 sep to 30 sep
              start at 05:00
              steps { water lawn for 28 min }
            }
            """,
        KnownLimits = DemandMetWords.KnownLimits,
        Sources = "FAO Irrigation and Drainage Paper 56, 1998; the bounds are common practice.",
    };

    private const decimal Most = 1.25m;

    public IEnumerable<Finding> Findings() =>
        context.DemandMet.Where(month => month.IsOver(Most, DemandMetWords.LeastDifference))
        .Select(zone => DemandMetWords.FindingFor(
        Rule, context, zone.Zone, zone.Months, DemandMetWords.UpTo(zone.Months, isMost: true),
            HasClimateScale
            ? "Water less in these months; waterscript advise shows how long."
            : "Water less in these months: `scale year { by climate }`, or see waterscript advise."));

    /// <summary>Whether some scale follows the climate already: then another one is no advice.</summary>
    private bool HasClimateScale => context.Site.Scales.Any(scale => scale is ClimateScale);
}
