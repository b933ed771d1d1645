using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Description;

/// <summary>Two numbers of which one rules out the other.</summary>
internal sealed class NumbersClash(LintContext context) : IRule
{
    public static Rule Rule { get; } = new("numbers-clash", Severity.Error, "two numbers of which one rules out the other")
    {
        Category = RuleCategory.Reading,
        CanBeAccepted = true,
        Finds = """
            A `minimum-flow` above the `flow` of its supply; a `refill` above the `flow` of the supply that feeds the tank, or that in a day comes to more
            than its `daily`; a `peak` below the `continuous` current; a `recharge` of more power than is there; a `holding` current above the `inrush`.
            """,
        Matters = """
            One of the two is a slip, and what is calculated from it looks right and is not: a tank fills on paper only, a power supply carries what it
            does not.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 14 L/min; minimum-flow 18 L/min }
            zone beds { output 1; flow 12 L/min }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 14 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 18 L/min; minimum-flow 9 L/min }
            zone beds { output 1; flow 12 L/min }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 14 min }
            }
            """,
        KnownLimits = "The `refill` of a tank may be held back by a float, so that over a day it comes to less: write what flows in on average, or " +
            "the levels at which it begins and ends, with which it is not compared with a day.",
        Sources = "P = U · I.",
    };

    private const string Exchange = "Exchange the two, or correct one.";
    private const decimal MinutesInDay = 24 * 60;

    public IEnumerable<Finding> Findings() =>
    [
        .. context.Site.Supplies.SelectMany(OfSupply),
        .. context.Site.Controllers.SelectMany(OfPower),
        .. context.Site.Valves.OfType<NonLatchingValve>().SelectMany(OfValve),
    ];

    private static IEnumerable<Finding> OfSupply(Supply supply)
    {
        if (supply is { MinimumFlow: { } least, Flow: { } most } && least.InBase > most.InBase)
        {
            yield return Between(least, most, $"pump of supply {supply.Name} needs {Flow(least, most)}, supply gives {Bare(most, most, 1)}",
                Difference(least, most, 1), Exchange);
        }

        if (supply is not { Refill: { } refill, FedBy: { } feeder }) yield break;
        if (feeder.Flow is { } gives && refill.InBase > gives.InBase)
        {
            yield return Between(refill, gives, $"supply {supply.Name} refills at {Flow(refill, gives)}, supply {feeder.Name} gives {Bare(gives, gives, 1)}",
                Difference(refill, gives, 1), $"Write a `refill` of {gives} or less.");
        }
        else if (supply.RefillFrom is null && feeder.Daily is { } daily && refill.InBase * MinutesInDay > daily.InBase)
        {
            yield return OverADay(supply, feeder, refill, daily);
        }
    }

    /// <summary>What flows in at all hours, against what the feeder gives in a day.</summary>
    private static Finding OverADay(Supply supply, Supply feeder, Placed<Quantity> refill, Placed<Quantity> daily)
    {
        var day = Phrases.Amount(refill.InBase * MinutesInDay, daily.Unit, DigitsOf(daily));
        return Between(refill, daily, $"supply {supply.Name} refills {day} a day, supply {feeder.Name} gives {Bare(daily, daily, DigitsOf(daily))}",
            $"{refill} × 1440 min = {day} a day.",
            $"Write a `refill` of {Phrases.Amount(decimal.Floor(100 * daily.InBase / MinutesInDay) / 100, Units.Of(Dimension.Flow).First(), 2)} or less.") with
        {
            Severity = Severity.Advice,
            Assumed = "the refill flows at all hours.",
        };
    }

    private static int DigitsOf(Quantity volume) => volume.Unit.Symbol == "L" ? 0 : 2;

    private static IEnumerable<Finding> OfPower(Controller controller)
    {
        if (controller.Power is not { } power) yield break;
        if (power is { Peak: { } peak, Continuous: { } always } && peak.InBase < always.InBase)
        {
            yield return Between(peak, always, $"power of {controller.Name} gives {always} for long, {peak} for a moment", "", Exchange);
        }

        if (power.Recharge is { } recharge && PowerOf(power) is var (watts, from, sum) && recharge.InBase > watts)
        {
            yield return Between(recharge, from, $"capacitor of {controller.Name} recharges with {recharge}, its power gives {Trimmed(watts)} W", sum,
                $"Write a `recharge` of {Trimmed(watts)} W or less, or a stronger power source.");
        }
    }

    /// <summary>What is there for as long as needed, in W, and how it comes about; null where it is not given.</summary>
    private static (decimal Watts, Placed<Quantity> From, string Sum)? PowerOf(Power power) => power switch
    {
        { Transformer: { } transformer } => (transformer.InBase, transformer, ""),
        { Continuous: { } current, ContinuousVoltage: { } volts } =>
            (current.InBase * volts.InBase, current, $"{volts} × {current} = {Trimmed(current.InBase * volts.InBase)} W."),
        _ => null,
    };

    private static IEnumerable<Finding> OfValve(NonLatchingValve valve)
    {
        if (valve is { Holding: { } holding, Inrush: { } inrush } && holding.InBase > inrush.InBase)
            yield return Between(holding, inrush, $"valve {valve.Name} holds with {holding}, opens with {inrush}", "", Exchange);
    }

    private static Finding Between(Placed<Quantity> one, Placed<Quantity> other, string heading, string details, string help) =>
        Finding.At(Rule, one.Place, heading, "one of the two is wrong") with
        {
            Others = [new Label(other.Place, "the other")],
            Details = details,
            Help = help,
        };

    private static string Flow(Quantity one, Quantity like) => Phrases.Amount(one.InBase, like.Unit, 1);

    private static string Bare(Quantity one, Quantity like, int digits) => Phrases.Bare(Phrases.Amount(one.InBase, like.Unit, digits));

    private static string Difference(Quantity more, Quantity less, int digits) =>
        $"{Bare(more, less, digits)} − {Bare(less, less, digits)} = {Phrases.Amount(more.InBase - less.InBase, less.Unit, digits)} too much.";

    private static string Trimmed(decimal value) => Phrases.Number(value, 3).TrimEnd('0').TrimEnd('.');
}
