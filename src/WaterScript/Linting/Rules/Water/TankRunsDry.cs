using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>A tank that is drawn down to its reserve while somebody still needs water.</summary>
internal sealed class TankRunsDry : IRule, IDemandObserver
{
    public static Rule Rule { get; } = new("tank-runs-dry", Severity.Error, "a tank that runs dry")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = "Follows the level of a tank through all the dates that are looked at: what zones draw and give back, and what the `refill` and the rain " +
            "from its roof add until it is full. Finds when the level would fall under the `reserve`.",
        Matters = """
            A pump that draws air is soon broken, and the zones that come last stay dry on the hottest days, when most is needed.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply butt { flow 20 L/min; tank 1000 L; refill 5 L/min }
            zone lawn { output 1; flow 20 L/min }
            schedule morning {
              on mon
              start at 06:00
              steps { water lawn for 90 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply butt { flow 20 L/min; tank 1000 L; refill 5 L/min }
            zone lawn { output 1; flow 20 L/min }
            schedule morning {
              on mon
              start at 06:00
              steps { water lawn for 1 h }
            }
            """,
        KnownLimits = "The refill is taken to flow at all hours, and the rain of a month to fall evenly over it, year by year the same: a dry month leaves " +
            "less. What refills other tanks from this one is not taken off; such a tank is not judged. Of a manual schedule one pass is looked at, from a " +
            "full tank. What is proposed is tried, the run times in whole per cent and the refill in tenths of its unit; run times that a scale by climate " +
            "gives are not.",
        Sources = "Minutes to empty = (volume − reserve) / (out − in).",
    };

    private readonly LintContext _context;
    private readonly Tank?[] _tanks;

    public TankRunsDry(LintContext context)
    {
        _context = context;
        _tanks = [.. context.Site.Supplies.Select(supply => TankLevel.Of(context, supply) is { } level ? new Tank(level, context) : null)];
    }

    public bool Observes(Supply supply) => _tanks[supply.Index] is not null;

    public bool ObservesReturns => true;

    public void Visit(in DemandInterval interval) => _tanks[interval.Supply.Index]!.Draw(interval);

    public IEnumerable<Finding> Findings() => _tanks.OfType<Tank>().Where(tank => tank.Dry.Happened).Select(FindingFor);

    public IEnumerable<Gap> NotChecked() => _context.Site.Supplies.Where(supply => supply.Tank is not null).SelectMany(NotCheckedOf);

    private IEnumerable<Gap> NotCheckedOf(Supply supply) =>
        TankLevel.FillsAnother(_context.Site, supply) ? [new Gap(Concern.Tank, "tank", [Thing.Of(supply)], "") { Because = "it fills another tank" }]
        : TankInflow.LacksFor(supply, _context.Site) is { } lacks ? [new Gap(Concern.Tank, "tank", [Thing.Of(supply)], lacks)]
        : [.. FlowGaps.Of(_context, supply, Concern.Tank, $"draw on tank {supply.Name}"),
            .. FlowGaps.OfReturns(_context, supply, Concern.Tank, $"return to tank {supply.Name}")];

    private Finding FindingFor(Tank tank)
    {
        var supply = tank.Supply;
        var heading = $"tank of supply {supply.Name} {(supply.Reserve is null ? "runs dry" : "falls below its reserve")}";
        var finding = Finding.At(Rule, supply.Tank!.Value.Place, heading, Gets(supply)) with
        {
            Others = [.. Levels(tank), .. _context.Steps.Of(tank.Origin).Labels(Draws(tank))],
        };
        finding = _context.Happening(finding, tank.Dry);
        var level = supply.Reserve is { } kept ? $"the level is below the reserve of {kept}" : "it is empty";
        return finding with
        {
            Details = (Sum(tank) ?? $"{Phrases.Length((long)tank.FirstAfter)} after the watering begins, {level}.") + " " +
                (tank.Dry.Days > 1 ? $"{Say(tank.Shortfall)} short in all, {Say(tank.Dry.Worst)} on the worst day." : $"{Say(tank.Shortfall)} short."),
            Assumed = Assumed(tank) is { Length: > 0 } assumed ? $"{assumed}." : "",
            Help = Help(tank),
        };
    }

    /// <summary>What stands at the refill and at the reserve.</summary>
    private static IEnumerable<Label> Levels(Tank tank)
    {
        if (tank.Supply.Refill is { } refill) yield return new Label(refill.Place, "what flows in");
        if (tank.Supply.Reserve is { } reserve) yield return new Label(reserve.Place, "what has to stay in it");
    }

    private string Draws(Tank tank) => tank.SteadyDraw is { } draw ? $"draws {new WaterWords(_context.Site).SayFlow(draw)}" : "draws on it";

    /// <summary>
    /// How long what is in the tank lasts, where it is full at the start, nothing but a steady refill comes in, and one steady draw takes it the first time.
    /// </summary>
    private string? Sum(Tank tank)
    {
        var (supply, words) = (tank.Supply, new WaterWords(_context.Site));
        if (tank.SteadyDraw is not { } draw || !tank.IsFullAtStart || supply is not { CatchmentArea: null, RefillFrom: null }) return null;
        var (full, kept, inflow) = (supply.Tank!.Value.InBase, supply.Reserve?.InBase ?? 0, supply.Refill?.InBase ?? 0);
        if (draw <= inflow || Math.Abs((double)((full - kept) / (draw - inflow) * 60) - tank.FirstAfter) > 1) return null;
        var volume = kept > 0 ? $"{Phrases.Bare(Say(full))} - {Phrases.Bare(Say(kept))} = {Say(full - kept)}" : Say(full);
        var flow = inflow > 0
            ? $"{Phrases.Bare(words.SayFlow(draw))} - {Phrases.Bare(words.SayFlow(inflow))} = {words.SayFlow(draw - inflow)}"
            : words.SayFlow(draw);
        return $"{volume} lasts {Phrases.Length((long)tank.FirstAfter)} at {flow}.";
    }

    /// <summary>The greatest share of the run times, and the least refill, with which trials show that it does not run dry.</summary>
    private string Help(Tank tank)
    {
        var ways = new[]
        {
            Share(tank) is { } percent and > 0 ? $"water for {Phrases.Number(percent, 0)} % of the time" : "",
            Refill(tank) is { } refill ? $"refill at {refill} or more" : "",
        };
        return string.Join(", or ", ways.Where(way => way.Length > 0)) is { Length: > 0 } tried
            ? $"{char.ToUpperInvariant(tried[0])}{tried[1..]}."
            : "Water less or less often, or give the tank more time to refill.";
    }

    private long? Share(Tank tank) => Bisection.First(1, 100, percent => IsDry(tank, ScaledSite.Of(_context.Site, percent))) - 1;

    /// <summary>In tenths of the unit; so much as zones draw at most is surely enough, unless the tank is under its reserve at first.</summary>
    private Quantity? Refill(Tank tank)
    {
        var supply = tank.Supply;
        var unit = supply.Refill?.Unit ?? new WaterWords(_context.Site).Flow;
        var (least, most) = (Tenths(supply.Refill?.InBase ?? 0), Tenths(tank.MostDrawn));
        if (IsDry(tank, With(most)) is not false) return null;
        return Bisection.First(least, most, tenths => !IsDry(tank, With(tenths))) is { } enough ? RefillOf(enough) : null;

        long Tenths(decimal litresPerMinute) => (long)Math.Ceiling(litresPerMinute * unit.Denominator / unit.Numerator * 10);
        Quantity RefillOf(long tenths) => new(tenths / 10m, unit);
        Site With(long tenths) =>
            _context.Site with
            {
                Supplies =
            _context.Site.Supplies.SetItem(supply.Index, supply with { Refill = new(RefillOf(tenths), supply.Tank!.Value.Place) })
            };
    }

    private bool? IsDry(Tank tank, Site? site) =>
        site is not null && Trial.Of(_context, site, trial => new TankRunsDry(trial)) is { } tried ? tried._tanks[tank.Supply.Index]!.Dry.Happened : null;

    private static string Between(Supply supply) => supply is { RefillFrom: { } from, RefillTo: { } to } ? $" from {from} to {to}" : "";

    private static string Gets(Supply supply) =>
        $"holds {supply.Tank}{(supply.Refill is { } refill ? $", refilled at {refill}{Between(supply)}" : "")}" +
            $"{(supply.CatchmentArea is { } roof ? $", catches rain from {roof}" : "")}";

    private static string Assumed(Tank tank) => string.Join(
        "; ",
        new[]
        {
            tank.IsFullAtStart ? "the tank is full at the start" : "",
            tank.Supply.Refill is null ? "" : tank.Supply.RefillFrom is null ? "the refill flows at all hours" : "the refill flows at any hour",
            tank.Supply.CatchmentArea is null ? "" : "the rain of a month falls evenly over it",
        }.Where(sentence => sentence.Length > 0));

    private string Say(decimal litres) => new WaterWords(_context.Site).Say(litres, digits: 0);

    /// <summary>A tank, and when and how much it lacks.</summary>
    private sealed class Tank(TankLevel level, LintContext context)
    {
        private long _dryUntil = long.MinValue;
        private int _day = int.MinValue;
        private decimal _dayShortfall;

        public Supply Supply => level.Supply;

        public bool IsFullAtStart { get; private set; } = true;

        public StepOrigin Origin { get; private set; }

        /// <summary>When it begins to be dry, rounded down to the second; the worst is what is missing on a day, in L.</summary>
        public OccurrenceCounter Dry { get; } = new();

        /// <summary>Seconds from when the zones began to draw to the first time.</summary>
        public double FirstAfter { get; private set; }

        public decimal Shortfall { get; private set; }

        /// <summary>What one zone draws the first time that it is dry, in L/min; null where several do.</summary>
        public decimal? SteadyDraw { get; private set; }

        /// <summary>The most that is drawn at once, in L/min.</summary>
        public decimal MostDrawn { get; private set; }

        public void Draw(in DemandInterval interval)
        {
            MostDrawn = Math.Max(MostDrawn, interval.Flow);
            foreach (var (part, before, after) in level.Draw(interval))
            {
                if (!Dry.Happened) IsFullAtStart = !level.IsRead;
                if (after < level.Least - Flows.Tolerance) Miss(part, before, after);
            }
        }

        private void Miss(in DemandInterval interval, decimal before, decimal after)
        {
            var isDryAlready = before <= level.Least;
            var dryAfter = isDryAlready ? 0 : (double)((before - level.Least) * interval.Seconds / (before - after));
            var at = interval.From + (long)dryAfter;
            if (!isDryAlready || _dryUntil < interval.From) Begin(at, interval.From - level.DrawnSince + dryAfter, interval);
            _dryUntil = interval.To;
            var missing = (Math.Min(before, level.Least) - after) / TankLevel.PerLitre;
            Shortfall += missing;
            _dayShortfall += missing;
            Dry.Reach(_dayShortfall);
        }

        private void Begin(long at, double after, in DemandInterval interval)
        {
            var day = context.DayOf(at);
            if (Dry.Add(at, day))
            {
                (FirstAfter, Origin) = (after, interval.Contributions.MaxBy(contribution => contribution.Amount).Origin);
                SteadyDraw = interval.Contributions.Count == 1 && interval.Returned == 0 ? interval.Flow : null;
            }

            if (day != _day) (_day, _dayShortfall) = (day, 0);
        }
    }
}
