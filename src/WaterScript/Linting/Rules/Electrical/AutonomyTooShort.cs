using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>A battery that does not last as many days without sun as it has to.</summary>
internal sealed class AutonomyTooShort : IRule, ISwitchingObserver
{
    private const string Example = """
        site plot {
          timezone   Europe/Lisbon
          effective  2026-03-01
        }
        controller box {
          outputs 1
          power {
            battery   15 Ah at 12 V
            standby   15 mA
            renewed   on 1 jan, 1 feb, 1 mar, 1 apr, 1 may, 1 jun, 1 jul, 1 aug, 1 sep, 1 oct, 1 nov, 1 dec
            usable    90 %
            autonomy  DAYS
          }
        }
        valve hold non-latching { inrush 400 mA; holding 250 mA }
        zone lawn { output 1; valve hold }
        schedule weekly {
          on sun
          start at 06:00
          steps { water lawn for 30 min }
        }
        """;

    public static Rule Rule { get; } = new("autonomy-too-short", Severity.Warning, "a battery that lasts too few days without sun")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "Adds up what the controllers on a battery draw on as many whole dates in a row as its `autonomy` says, wherever they begin. Finds where " +
            "that is more than may be used of the full battery in the month of the last of them.",
        Matters = "A week of fog is not in a mean month. A battery that has to be full again after two dull days is flat after four.",
        Fires = Example.Replace("DAYS", "40 days", StringComparison.Ordinal),
        Fixed = Example.Replace("DAYS", "30 days", StringComparison.Ordinal),
        KnownLimits = "The battery is taken to be full before the first of those days, and old batteries hold less than is written on them. What a motor " +
            "draws as it starts is not counted.",
        Sources = "Usable energy = Ah · V · usable · (1 − cold-loss · (25 − mean minimum)). Common practice: three to ten days.",
    };

    private readonly LintContext _context;
    private readonly Batteries _batteries;

    public AutonomyTooShort(LintContext context) => (_context, _batteries) = (context, new Batteries(context));

    public bool Observes(Controller controller) => _batteries.Observes(controller);

    public void Visit(in Switching switching) => _batteries.Visit(switching);

    public IEnumerable<Finding> Findings() =>
        _batteries.Followed().Where(battery => battery.Battery.AutonomyDays is not null).Select(FindingFor).OfType<Finding>();

    private Finding? FindingFor(BatteryCharge battery)
    {
        var autonomy = battery.Battery.AutonomyDays!.Value;
        var counter = new OccurrenceCounter();
        var (sum, worst, least) = (0m, default((decimal Drawn, decimal Usable, int Day)?), (decimal?)0m);
        for (var index = 0; index < battery.Days.Count; index++)
        {
            sum += battery.Days[index].Drawn;
            if (index >= autonomy.Value) sum -= battery.Days[index - autonomy.Value].Drawn;
            if (index < autonomy.Value - 1) continue;
            var last = battery.Days[index];
            var usable = battery.Full - last.Kept;
            if (sum <= usable) continue;
            counter.Add(_context.WallClock.StartOfDay(last.Day), last.Day);
            least = usable > 0 && least is { } before ? Math.Max(before, sum / usable) : null;
            if (counter.Reach(sum - usable)) worst = (sum, usable, last.Day);
        }

        return worst is { } found ? Finding(battery, counter, found, least) : null;
    }

    private Finding Finding(BatteryCharge battery, OccurrenceCounter counter, (decimal Drawn, decimal Usable, int Day) worst, decimal? least)
    {
        var autonomy = battery.Battery.AutonomyDays!.Value;
        var words = new BatteryWords(_context.Site, battery);
        return Diagnostics.Finding.At(Rule, autonomy.Place,
            $"{Phrases.Count(autonomy.Value, "day")} without sun take {BatteryWords.WattHours(worst.Drawn)}, "
                + $"{BatteryWords.WattHours(worst.Usable)} may be used",
            "as long as it has to last") with
        {
            Others = [new Label(battery.Battery.Origin, words.Holds), .. words.Labels().Where(label => label.Location != battery.Battery.Panel?.Place)],
            Happens = counter.WholeDays,
            Details = $"{words.Usable(CivilDate.FromDayNumber(worst.Day).Month)} The dates are the last of those days.",
            Assumed = words.AssumedOfDraw,
            Help = Help(battery, least),
            Excess = worst.Drawn - worst.Usable,
        };
    }

    /// <summary>
    /// The least battery of the same kind: what may be used of it grows as it does. It is not always the worst date that asks for most of it: where less is
    /// missing in a colder month, each Ah brings less, too.
    /// </summary>
    private static string Help(BatteryCharge battery, decimal? least)
    {
        if (least is not { } times) return "Use a battery that bears the cold.";
        var capacity = battery.Battery.Capacity;
        var tenths = decimal.Ceiling(capacity.Value * times * 10) / 10;
        return $"Use a battery of {new Quantity(tenths, capacity.Unit)} or more, or draw less.";
    }
}
