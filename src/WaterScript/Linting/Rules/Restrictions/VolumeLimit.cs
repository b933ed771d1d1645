using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Restrictions;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Restrictions;

/// <summary>More water in a day, a week, a month, a season or a year than a restriction allows.</summary>
internal sealed class VolumeLimit(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("volume-limit", Severity.Error, "more water than a restriction allows")
    {
        Category = RuleCategory.Restrictions,
        CanBeAccepted = true,
        Finds = """
            The zones that a restriction binds use more water than its `at most … m3 a month` allows, or a `day`, `week`, `season` or `year`; with
            `per zone` one of them does. Water is flow times time, split at local midnight; as much as allowed is within. Dates on which the
            restriction is not in force, and zones that are exempt, do not count. A period that begins before `effective` or ends after the dates
            that are checked keeps its whole limit.
            """,
        Matters = """
            An allowance is a limit that is fined, or that raises the price of what comes after it. It is used up in the middle of a period, long
            before the bill shows it.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; flow 20 L/min }
            restriction town {
              at most 10 m3 a month
            }
            schedule morning {
              every day
              start at 05:50
              steps { water beds for 20 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; flow 20 L/min }
            restriction town {
              at most 10 m3 a month
            }
            schedule morning {
              every day
              start at 05:50
              steps { water beds for 16 min }
            }
            """,
        KnownLimits = """
            Zones without a `flow` or `emitters` add nothing; the report names them. It is reported at the run with which a period becomes too much, runs
            counted whole in order of their start; all water of the zones counts, of whatever schedule.
            """,
    };

    public IEnumerable<Finding> Findings() => context.Restrictions.BreachesOf(BreachKind.VolumeLimit).Select(FindingFor);

    public IEnumerable<Gap> NotChecked() => context.Restrictions.Each.SelectMany(entry => Gap.Each(
        Concern.Restrictions, $"volume under {entry.Restriction.Name}",
        entry.Judge.WithoutFlow(context.Site).Select(zone => (Thing.Of(zone), (string?)"flow"))));

    private Finding FindingFor(Breach breach)
    {
        var limit = breach.Limit!;
        var alone = limit.PerZone ? context.Site.Zones[breach.WorstZone] : breach.Restriction.Zones is [var only] ? only : null;
        var who = alone is null ? "zones use" : $"zone {alone.Name} uses";
        var (used, period) = (Of(breach.Worst, limit.Volume!.Value), PeriodOf(breach.WorstDay, breach));
        return breach.FindingFor(
            Rule,
            context,
            $"{who} {used} {limit.Volume.Value.Unit} {period}; {BreachWords.Number(limit.Volume.Value.Value)} is allowed",
            $"too much for {breach.Restriction.Name} with this run",
            $"allows {limit.Volume.Value} a {limit.Period.ToString().ToLowerInvariant()}",
            "Water for less time, or on fewer days.");
    }

    /// <summary>With more digits where it would seem to be no more than allowed.</summary>
    private static string Of(decimal litres, Quantity allowed)
    {
        var amount = litres * allowed.Unit.Denominator / allowed.Unit.Numerator;
        return BreachWords.Number(amount) == BreachWords.Number(allowed.Value)
            ? amount.ToString("0.######", CultureInfo.InvariantCulture)
            : BreachWords.Number(amount);
    }

    /// <summary><c>in Jul 2026</c>, <c>on Fri 3 Jul 2026</c></summary>
    private static string PeriodOf(int day, Breach breach)
    {
        var first = VolumeAccount.StartOf(breach.Limit!.Period, breach.Restriction, day);
        var date = CivilDate.FromDayNumber(first);
        return breach.Limit.Period switch
        {
            LimitPeriod.Day => $"on {SiteWords.Date(first)}",
            LimitPeriod.Week => $"in the week from {SiteWords.Date(first)}",
            LimitPeriod.Month => string.Create(CultureInfo.InvariantCulture, $"in {Phrases.Month(date.Month)[..3]} {date.Year}"),
            LimitPeriod.Season => $"in the season from {SiteWords.Date(first)}",
            _ => string.Create(CultureInfo.InvariantCulture, $"in {date.Year}"),
        };
    }
}
