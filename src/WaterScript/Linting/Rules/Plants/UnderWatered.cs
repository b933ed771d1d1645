using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;

namespace WaterScript.Linting.Rules.Plants;

/// <summary>A zone that gets less than its plants need.</summary>
internal sealed class UnderWatered(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("under-watered", Severity.Advice, "less water than the plants need")
    {
        Category = RuleCategory.PlantsAndSoil,
        CanBeAccepted = true,
        Finds = "In some month a zone gets less than 75 % of what its plants need: crop coefficient times reference evapotranspiration, less effective " +
            "rain. Of what is watered counts what plants can use. Says the days on which they lack water, by a daily balance of the root zone where soil " +
            "and roots are given.",
        Matters = """
            Plants that lack water stop growing before they wilt. Where that is meant, as for a lawn that may turn brown in August, accept it.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              location   39.6 N 8.1 W 310 m
              effective  2026-03-01
            }
            climate { jul 16.1 C to 27.9 C, rain 4 mm }
            zone lawn { output 1; rate 15 mm/h; soil loam; plants turf-cool }
            schedule twice-a-week {
              on tue, fri
              from 1 jul to 31 jul
              start at 05:00
              steps { water lawn for 20 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              location   39.6 N 8.1 W 310 m
              effective  2026-03-01
            }
            climate { jul 16.1 C to 27.9 C, rain 4 mm }
            zone lawn { output 1; rate 15 mm/h; soil loam; plants turf-cool }
            schedule twice-a-week {
              on tue, fri
              from 1 jul to 31 jul
              start at 05:00
              steps { water lawn for 1 h 5 min }
            }
            """,
        KnownLimits = DemandMetWords.KnownLimits,
        Sources = "FAO Irrigation and Drainage Paper 56, 1998; the bounds are common practice.",
    };

    private const decimal Least = 0.75m;

    public IEnumerable<Finding> Findings() =>
        context.DemandMet.Where(month => month.IsUnder(Least, DemandMetWords.LeastDifference))
        .Select(zone => DemandMetWords.FindingFor(
        Rule, context, zone.Zone, zone.Months, DemandMetWords.UpTo(zone.Months, isMost: false),
            "Water longer or more often; waterscript advise shows how long."));

    public IEnumerable<Gap> NotChecked() => DemandMetWords.NotChecked(context);
}
