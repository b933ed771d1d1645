using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Plants;

/// <summary>One time for zones of which one gets twice as much in it as another.</summary>
internal sealed class UnevenTogether(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("uneven-together", Severity.Advice, "one time for zones that need different ones")
    {
        Category = RuleCategory.PlantsAndSoil,
        CanBeAccepted = true,
        Finds = "A step gives one length of time to zones of which one gets at least twice the depth of another in it, by their application rates and " +
            "trims; or to drip and sprays.",
        Matters = """
            In the time in which a spray brings 10 mm, drip has hardly begun. One of the two gets too much or too little for as long as they share a line.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone lawn { output 1; rate 12 mm/h }
            zone beds { output 2; rate 30 mm/h }
            schedule morning {
              on mon
              start at 06:00
              steps { water lawn, beds for 20 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone lawn { output 1; rate 12 mm/h }
            zone beds { output 2; rate 30 mm/h }
            schedule morning {
              on mon
              start at 06:00
              steps {
                water lawn for 20 min
                water beds for 8 min
              }
            }
            """,
        KnownLimits = "Zones without an application rate are distinguished only as drip and sprays. Steps that say how much, `with 12 mm`, give each zone " +
            "its " +
            "own time and are not looked at. Nor are manual schedules.",
        Sources = "Common practice.",
    };

    private const decimal TwiceAsMuch = 2;

    public IEnumerable<Finding> Findings() => context.Site.Schedules.Where(schedule => !schedule.IsManual)
        .SelectMany(schedule => Waterings.In(schedule.Steps))
        .DistinctBy(step => step.Origin)
        .Where(step => step.For is not null)
        .Select(Judge).OfType<Finding>();

    private Finding? Judge(WaterStep step)
    {
        Zone[] zones = [.. Waterings.ZonesIn([step])];
        var (least, most) = (zones.Where(zone => zone.MillimetresPerHour > 0).MinBy(RateOf), zones.Where(zone => zone.MillimetresPerHour > 0).MaxBy(RateOf));
        if (least is not null && most is not null && Math.Round(RateOf(most) - (TwiceAsMuch * RateOf(least)), Decimals) >= 0 && RateOf(least) > 0)
            return FindingFor(step, most, least, RateWords(most), RateWords(least),
                $"In the same time {most.Name} gets {Phrases.Number(RateOf(most) / RateOf(least), 1)} times as much.");
        return zones.FirstOrDefault(zone => zone.Method == IrrigationMethod.Spray) is { } spray
            && zones.FirstOrDefault(zone => zone.Method == IrrigationMethod.Drip) is { } drip
            ? FindingFor(step, spray, drip, "sprays", "drip", "")
            : null;
    }

    /// <summary>Depth an hour of watering as written, in mm.</summary>
    private static decimal RateOf(Zone zone) => (zone.MillimetresPerHour ?? 0) * zone.TrimPercent / 100;

    /// <summary>Of a quotient such as a flow by an area; its last digits are not known.</summary>
    private const int Decimals = 12;

    private string RateWords(Zone zone) => $"{context.Depths.Say(RateOf(zone))}/h{(zone.TrimPercent == 100 ? "" : " after its trim")}";

    private static Finding FindingFor(WaterStep step, Zone one, Zone other, string oneIs, string otherIs, string details) =>
        Finding.At(Rule, step.Origin, $"zones {one.Name} and {other.Name} need different run times", "one time for all") with
        {
            Others = [new Label(one.Origin, oneIs), new Label(other.Origin, otherIs)],
            Details = details,
            Help = "Give each its own line and time, or an amount such as `with 10 mm`.",
        };
}
