using System.Collections.Immutable;
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
            "field capacity, and its plants use on that day.",
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

    private readonly ImmutableArray<MonthWeather?> _year = MonthWeather.YearOf(context.Site);

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
        WateredDay[] days = [.. context.Water.DaysOf(zone).Where(day => Math.Round(DepthOn(zone, day) - roots.Total - UsedOn(zone, day), Decimals) > 0)];
        return days.Length == 0 ? null : FindingFor(zone, roots, days);
    }

    private Finding FindingFor(Zone zone, RootZone roots, WateredDay[] days)
    {
        var worst = days.MaxBy(day => DepthOn(zone, day) - UsedOn(zone, day));
        var (most, used) = (DepthOn(zone, worst), UsedOn(zone, worst));
        return Finding.At(Rule, zone.Origin,
            $"zone {zone.Name} gets {context.Depths.Say(most)} in a day, its roots hold {context.Depths.Say(roots.Total)}",
            "the rest runs below the roots") with
        {
            Others = [.. context.Steps.Of(context.Water.FirstOf(zone)!.Value).Labels("waters it")],
            Details = (used > 0 ? $"They hold {context.Depths.Say(roots.Total)} and use {context.Depths.Say(used)} in a day.\n" : "") +
                $"More than the roots hold, on {Phrases.Count(days.Length, "day")} from " +
                $"{MomentWords.Date(CivilDate.FromDayNumber(days[0].Day).ToLocalDate())}.",
            Excess = days.Sum(day => DepthOn(zone, day) - UsedOn(zone, day) - roots.Total),
            Help = $"Water it with {context.Depths.Say(roots.Readily / MostOf(zone, worst))} at a time, more often: plants can use " +
                $"{(MostOf(zone, worst) > 1 ? $"the {context.Depths.Say(roots.Readily)} that come of it" : "that much")} before they suffer.",
        };
    }

    /// <summary>What scale and trim make of a written amount at most on a date; 1 where they lessen it.</summary>
    private decimal MostOf(Zone zone, in WateredDay day)
    {
        var number = day.Day;
        var scales = context.Site.Schedules.Where(schedule => !schedule.IsManual && context.Timetable.Waters(schedule.Index, zone.Index))
            .Select(schedule => context.Timetable.PercentOn(schedule.Index, number));
        return Math.Max(1, scales.Max() * zone.TrimPercent / 10_000);
    }

    /// <summary>What the plants use on a date, in mm, where the climate says it: several waterings a day have room for that, too.</summary>
    private decimal UsedOn(Zone zone, in WateredDay day) =>
        _year[CivilDate.FromDayNumber(day.Day).Month - 1] is { } weather ? CropDemand.PerDay(zone.Plants!, weather) ?? 0 : 0;

    private static decimal DepthOn(Zone zone, WateredDay day) => WaterLedger.UsableDepth(zone, day.Seconds)!.Value;

    /// <summary>Of a quotient such as a flow by an area; its last digits are not known.</summary>
    private const int Decimals = 12;
}
