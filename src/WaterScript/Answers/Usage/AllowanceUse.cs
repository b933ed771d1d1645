using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation.Restrictions;
using WaterScript.Wording;

namespace WaterScript.Answers.Usage;

/// <summary>A volume that a restriction allows, and the period of some dates in which most of it is used.</summary>
/// <param name="Restriction">The restriction.</param>
/// <param name="Line">Its line.</param>
/// <param name="Start">The first date of that period, in days since 1970-01-01.</param>
/// <param name="Litres">What is used in it; of zones whose flow is known.</param>
/// <param name="Zone">The zone, where each counts for itself; else null.</param>
internal sealed record AllowanceUse(Restriction Restriction, AtMost Line, int Start, Fraction Litres, Zone? Zone)
{
    private const int Percent = 100;

    /// <summary>Work of adding up an entry of the ledger.</summary>
    private const int WorkOfEntry = 20;

    /// <summary>What of it is left, in litres; less than nothing where too much is used.</summary>
    public Fraction Left => Fraction.Of(Line.Volume!.Value) - Litres;

    /// <summary>The period in words: <c>Jul 2026</c>.</summary>
    public string Period
    {
        get
        {
            var date = CivilDate.FromDayNumber(Start);
            return Line.Period switch
            {
                LimitPeriod.Day => SiteWords.Date(Start),
                LimitPeriod.Week => $"the week from {SiteWords.Date(Start)}",
                LimitPeriod.Month => string.Create(CultureInfo.InvariantCulture, $"{Phrases.Month(date.Month)[..3]} {date.Year}"),
                LimitPeriod.Season => $"the season from {SiteWords.Date(Start)}",
                _ => date.Year.ToString(CultureInfo.InvariantCulture),
            };
        }
    }

    /// <summary><c>Allowance, Town rule, at most 30 m3 a month: most in Jul 2026, 29.77 of 30 m3 (99 %); 0.23 left.</c></summary>
    public string Sentence
    {
        get
        {
            var limit = Line.Volume!.Value;
            var percent = limit.Value == 0 ? "" : $" ({(Litres * Fraction.Of(Percent) / Fraction.Of(limit)).ToString(0)} %)";
            var left = Left.Sign < 0 ? $"{Say(-Left)} too much" : $"{Say(Left)} left";
            var zone = Zone is null ? "" : $"of {Zone.DisplayName} ";
            return $"Allowance, {Restriction.DisplayName}, at most {limit} a {Line.Period.ToString().ToLowerInvariant()}: most {zone}in {Period}, "
                + $"{Say(Litres)} of {limit}{percent}; {left}.";
        }
    }

    /// <summary>A volume in the unit of the line, with digits that suit it.</summary>
    public string Say(Fraction litres) => Say(litres, Line.Volume!.Value.Unit);

    /// <summary>A volume in a unit, with digits that suit it.</summary>
    public static string Say(Fraction litres, Unit unit)
    {
        ArgumentNullException.ThrowIfNull(unit);
        return (litres / Fraction.Of(unit)).ToString(unit.Symbol is "L" or "gal" ? 0 : 2);
    }

    /// <summary>All that the restrictions of a site allow, in order of the file; what no date of the ledger uses is left out.</summary>
    /// <exception cref="WorkUsedUpException">There is too much to add up.</exception>
    public static ImmutableArray<AllowanceUse> Of(Site site, UsageLedger ledger, WorkBudget budget)
    {
        ArgumentNullException.ThrowIfNull(budget);
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(ledger);
        var uses = ImmutableArray.CreateBuilder<AllowanceUse>();
        foreach (var restriction in site.Restrictions.Where(restriction => restriction.AtMost.Any(line => line.Kind == LimitKind.Volume)))
        {
            var reach = new RestrictionReach(restriction, site);
            var water = ledger.Zones.Where(entry => entry.Value.Seconds > 0 && site.Zones[entry.Key.Zone].ExactLitresPerMinute is not null)
                .OrderBy(entry => entry.Key.Day).Where(entry => reach.Binds(entry.Key.Zone, entry.Key.Day))
                .Select(entry => (entry.Key.Day, entry.Key.Zone,
                    Litres: site.Zones[entry.Key.Zone].ExactLitresPerMinute!.Value * new Fraction(entry.Value.Seconds, 60))).ToList();
            foreach (var line in restriction.AtMost.Where(line => line.Kind == LimitKind.Volume))
            {
                budget.Spend(WorkOfEntry * (water.Count + 1L));
                var most = water.GroupBy(each => (Start: VolumeAccount.StartOf(line.Period, restriction, each.Day), Zone: line.PerZone ? each.Zone : -1))
                    .Select(group => (group.Key.Start, group.Key.Zone, Litres: group.Aggregate(Fraction.Zero, (sum, each) => sum + each.Litres)))
                    .OrderByDescending(each => each.Litres).ThenBy(each => each.Start).ThenBy(each => each.Zone).FirstOrDefault();
                if (most.Litres.Sign > 0) uses.Add(new AllowanceUse(restriction, line, most.Start, most.Litres, most.Zone < 0 ? null : site.Zones[most.Zone]));
            }
        }

        return uses.DrainToImmutable();
    }
}
