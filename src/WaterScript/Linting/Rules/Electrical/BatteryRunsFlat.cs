using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>A battery that is drawn below what may be used of it.</summary>
internal sealed class BatteryRunsFlat : IRule, ISwitchingObserver
{
    private const string Example = """
        site plot {
          timezone   Europe/Lisbon
          effective  2026-03-01
          location   39.6 N 8.1 W 310 m
        }
        climate {
          jan 7 C to 15 C
          feb 8 C to 16 C
          mar 9 C to 18 C
          apr 11 C to 20 C
          may 13 C to 23 C
          jun 16 C to 27 C
          jul 18 C to 29 C
          aug 18 C to 30 C
          sep 17 C to 27 C
          oct 14 C to 23 C
          nov 11 C to 18 C
          dec 8 C to 15 C
        }
        controller box {
          outputs 2
          power {
            battery      7 Ah at 12 V
            standby      20 mA
            solar-panel  PANEL tilt 50 deg
          }
        }
        valve hold non-latching { inrush 400 mA; holding 250 mA }
        zone lawn { output 1; valve hold }
        zone beds { output 2; valve hold }
        schedule morning {
          every day
          start at 06:00
          steps { water lawn, beds for 40 min }
        }
        """;

    public static Rule Rule { get; } = new("battery-runs-flat", Severity.Error, "a battery that runs flat")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "Follows the charge of a `battery` through all the dates that are looked at: what the controllers on it draw at rest, while outputs are open " +
            "and with each pulse, and what the `solar-panel` brings between sunrise and sunset. Finds when it would fall below what may be used: " +
            "`usable`, less the `cold-loss` of each degree of the month's mean minimum below 25 °C.",
        Matters = "A controller whose battery is flat does not open anything, or, worse, does not close what is open. A battery that is often drawn too " +
            "low is soon worn out.",
        Fires = Example.Replace("PANEL", "2 W", StringComparison.Ordinal),
        Fixed = Example.Replace("PANEL", "20 W", StringComparison.Ordinal),
        KnownLimits = "Each day of a month is its mean day, the same year by year: means hide dull weeks, for which `autonomy` asks. The battery is full at " +
            "the start and on the dates at `renewed on`, nothing shades the panel, and it faces the equator. What a motor draws as it starts is not counted. " +
            "While the battery is flat, watering is taken to go on. What is proposed is tried, in steps of a tenth.",
        Sources = "Charge = Ah · V. Energy of a pulse C · (U0² − U1²) / 2, by the efficiency of the recharge. Panel: W · H / 3.6 · efficiency, H on the " +
            "tilted surface by Klein (1977) with the diffuse part of Erbs (1982), from sunshine or temperatures by FAO 56, eq. 35 and 50.",
    };

    private readonly LintContext _context;
    private readonly Batteries _batteries;

    public BatteryRunsFlat(LintContext context) => (_context, _batteries) = (context, new Batteries(context));

    public bool Observes(Controller controller) => _batteries.Observes(controller);

    public void Visit(in Switching switching) => _batteries.Visit(switching);

    public IEnumerable<Finding> Findings() => _batteries.Judged().Where(battery => battery.Flat.Happened).Select(FindingFor);

    public IEnumerable<Gap> NotChecked() => _batteries.NotChecked();

    private Finding FindingFor(BatteryCharge battery)
    {
        var words = new BatteryWords(_context.Site, battery);
        var finding = Finding.At(Rule, battery.Battery.Origin, $"battery of controller {battery.Owner.Name} runs flat", words.Holds) with
        {
            Others = [.. words.Labels()],
        };
        finding = _context.Happening(finding, battery.Flat);
        return finding with
        {
            Details = $"{words.Usable(MonthOf(battery.Flat.First))} {words.DaysIn(MonthOf(battery.Flat.First))} " +
                $"Lowest on {MomentWords.Date(_context.ClockAt(battery.LeastAt).Date)}: {BatteryWords.WattHours(battery.Least)} of "
                + $"{BatteryWords.WattHours(battery.Full)}.",
            Assumed = words.Assumed,
            Help = Help(battery),
            Excess = battery.Flat.Worst,
        };
    }

    private int MonthOf(long instant) => CivilDate.FromDayNumber(_context.DayOf(instant)).Month;

    /// <summary>The least battery and the least panel, in tenths of what there is, with which trials show that it does not run flat.</summary>
    private string Help(BatteryCharge battery)
    {
        var ways = new List<string>();
        if (Least(battery, tenths => battery.Battery with { Capacity = Times(battery.Battery.Capacity, tenths) }) is { } charge)
            ways.Add($"a battery of {Times(battery.Battery.Capacity, charge)} or more");
        if (battery.Battery.Panel is { } panel && Least(battery, tenths => With(panel, tenths)) is { } power)
            ways.Add($"a panel of {Times(panel.Value.Power, power)} or more");
        if (ways.Count > 0) return $"Use {string.Join(", or ", ways)}.";
        return $"Draw less, charge the battery on dates at `renewed on`, or {(battery.Battery.Panel is null ? "add a `solar-panel`" : "use a larger panel")}.";

        Battery With(Placed<SolarPanel> panel, long tenths) =>
            battery.Battery with { Panel = new(panel.Value with { Power = Times(panel.Value.Power, tenths) }, panel.Place) };
    }

    private static Quantity Times(Quantity quantity, long tenths) => new(quantity.Value * tenths / 10, quantity.Unit);

    private long? Least(BatteryCharge battery, Func<long, Battery> create)
    {
        const int least = 11, most = 200;
        return IsFlat(most) == false ? Bisection.First(least, most, tenths => IsFlat(tenths) is { } isFlat ? !isFlat : null) : null;

        bool? IsFlat(long tenths)
        {
            var owner = battery.Owner with { Power = battery.Owner.Power! with { Battery = create(tenths) } };
            var site = _context.Site with { Controllers = _context.Site.Controllers.SetItem(owner.Index, owner) };
            return Trial.Of(_context, site, trial => new BatteryRunsFlat(trial)) is { } tried
                ? tried._batteries.Judged().Any(other => other.Owner.Index == owner.Index && other.Flat.Happened)
                : null;
        }
    }
}
