using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Rules.Electrical;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Answers.Usage;

/// <summary>What is drawn on a battery over some dates, how low it gets, and how long it lasts.</summary>
/// <param name="Owner">The controller that has it.</param>
/// <param name="Full">What it holds when it is full, in joules.</param>
/// <param name="Drawn">What is drawn on these dates.</param>
/// <param name="Brought">What its panel brings on them; null where it has none, or not enough is known of the sun.</param>
/// <param name="Least">The least that is in it; null where it is not known what charges it.</param>
/// <param name="LeastOn">The date of that, in days since 1970-01-01.</param>
/// <param name="DaysWithoutSun">The fewest whole dates that it lasts without any sun, full before; null where that is more than there are dates.</param>
internal sealed record BatteryUse(
    Controller Owner, decimal Full, decimal Drawn, decimal? Brought, decimal? Least, int LeastOn, int? DaysWithoutSun)
{
    private const int JoulesInWattHour = 3600;

    /// <summary>All of it in a sentence.</summary>
    public string Sentence
    {
        get
        {
            var brought = Brought is { } energy ? $", {BatteryWords.WattHours(energy)} brought" : "";
            var lowest = Least is { } least
                ? $", at the lowest {BatteryWords.WattHours(least)} on {SiteWords.Date(LeastOn)}"
                : ", how low it gets is not known";
            var lasts = DaysWithoutSun is { } days ? $" It lasts {Phrases.Count(days, "day")} without sun; means hide dull weeks." : "";
            return $"Battery of {Owner.DisplayName}: {BatteryWords.WattHours(Full)} when full, {BatteryWords.WattHours(Drawn)} drawn{brought}{lowest}.{lasts}";
        }
    }

    /// <summary>An energy in joules as Wh.</summary>
    public static decimal InWattHours(decimal joules) => joules / JoulesInWattHour;

    /// <summary>That of each battery of a site. They are followed from the site's first date, whatever dates are asked for.</summary>
    public static ImmutableArray<BatteryUse> Of(Site site, Horizon horizon, WorkBudget budget)
    {
        var owners = BatteryCharge.OwnersIn(site).ToList();
        if (owners.Count == 0) return [];
        var context = new SimulationContext(Timetable.Of(site, new Horizon(NodaTime.LocalDate.Min(site.Effective, horizon.From), horizon.Until), budget));
        var followed = owners.Select(owner => new Followed(new BatteryCharge(context, owner))).ToList();
        new TimelineWalker(context, followed).Go();
        var (from, until) = (CivilDate.DayNumberOf(horizon.From), CivilDate.DayNumberOf(horizon.Until));
        return [.. followed.Select(each => Of(each.Charge, from, until))];
    }

    private static BatteryUse Of(BatteryCharge charge, int from, int until)
    {
        charge.Finish();
        var days = charge.Days.Where(day => day.Day >= from && day.Day < until).ToList();
        var isKnown = charge.MonthsWithoutYield().Length == 0;
        var lowest = days.MinBy(day => day.Least);
        return new BatteryUse(
            charge.Owner, charge.Full, days.Sum(day => day.Drawn), charge.Yield is not null && isKnown ? days.Sum(day => day.Brought) : null,
            isKnown ? lowest?.Least : null, lowest?.Day ?? from, LastsIn(days, charge.Full));
    }

    /// <summary>
    /// The fewest dates in a row that take no more than may be used in the month of the last of them. From each date on no more are looked at than lasted
    /// from one before.
    /// </summary>
    private static int? LastsIn(List<DayOfBattery> days, decimal full)
    {
        var fewest = default(int?);
        for (var first = 0; first < days.Count; first++)
        {
            var sum = 0m;
            for (var last = first; last < days.Count && last - first < (fewest ?? int.MaxValue); last++)
            {
                sum += days[last].Drawn;
                if (sum <= full - days[last].Kept) continue;
                fewest = last - first;
                break;
            }
        }

        return fewest;
    }

    private sealed class Followed(BatteryCharge charge) : ISwitchingObserver
    {
        public BatteryCharge Charge => charge;

        public void Visit(in Switching switching) => charge.Visit(switching);
    }
}
