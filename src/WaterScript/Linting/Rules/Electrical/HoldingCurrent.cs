using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>More valves held open than the power supply can carry.</summary>
internal sealed class HoldingCurrent : IRule, ISwitchingObserver
{
    public static Rule Rule { get; } = new("holding-current", Severity.Error, "open valves need more current than the power gives")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "Adds up the holding currents of all that a controller has on, valves and the loads of pumps, and what its capacitor draws to recharge after " +
            "a pulse, and compares the sum with what its power supply gives for as long as needed.",
        Matters = "An overloaded transformer gives less voltage, so that the last valve opened chatters or closes, and it grows hot until its fuse ends " +
            "the watering of the whole garden.",
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box {
              outputs 4
              power { continuous 500 mA at 24 V; peak 1 A }
            }
            valve dc24 non-latching { inrush 250 mA; holding 250 mA }
            zone a { output 1; valve dc24 }
            zone b { output 2; valve dc24 }
            zone c { output 3; valve dc24 }
            schedule morning {
              every day
              start at 06:00
              steps { water a + b + c for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            controller box {
              outputs 4
              power { continuous 500 mA at 24 V; peak 1 A }
            }
            valve dc24 non-latching { inrush 250 mA; holding 250 mA }
            zone a { output 1; valve dc24 }
            zone b { output 2; valve dc24 }
            zone c { output 3; valve dc24 }
            schedule morning {
              every day
              start at 06:00
              steps {
                water a + b for 10 min
                water c for 10 min
              }
            }
            """,
        FixSafety = "Writes commas in place of the pluses of a step, or a later start. Unsafe: the watering takes longer or comes later. A later start is " +
            "tried against all rules before it is proposed.",
        KnownLimits = "What the controller itself draws is not known: give the power that is left for the outputs. Excess that lasts less than a second is " +
            "left to `inrush-current`. An output that waits for\n" +
            "its turn, because the controller has a `stagger`, draws nothing yet.",
        Sources = "S = U · I. Common practice: 24 V AC valves hold with 0.10 to 0.30 A.",
    };

    private readonly LintContext _context;
    private readonly Overloads _overloads;
    private readonly CurrentDraw _draw;
    private readonly Recharging _recharging;
    private readonly OpenContributions[] _open;
    private readonly PowerLimit?[] _limits;

    /// <summary>By controller: what is over its limit now; null where nothing is.</summary>
    private readonly Excess?[] _excesses;

    public HoldingCurrent(LintContext context)
    {
        _context = context;
        _overloads = new Overloads(context);
        _excesses = new Excess?[context.Site.Controllers.Length];
        _open = [.. context.Site.Controllers.Select(_ => new OpenContributions())];
        _limits = [.. context.Site.Controllers.Select(controller => PowerLimit.Continuous(controller.Power))];
        _draw = new CurrentDraw(context.Site, _limits);
        _recharging = new Recharging(context.Site, _limits);
    }

    public bool Observes(Controller controller) => _limits[controller.Index] is { } limit && _draw.AllAtOnce(controller) > limit.Most;

    public void Visit(in Switching switching)
    {
        var open = _open[switching.Controller];
        SeeUntil(open, switching.Controller, switching.Milliseconds);
        open.Since = switching;
        var origin = _context.Origins.Of(switching.Opening);
        _recharging.Give(switching, origin);
        if (!switching.IsOpen) open.Close(switching);
        else open.Open(switching, new Contribution(origin, switching.Zone, switching.Device, _draw.Holding(switching)));
    }

    /// <summary>Sees what was drawn since the latest switching: while the capacitor recharges, and from then on.</summary>
    private void SeeUntil(OpenContributions open, int controller, long now)
    {
        var from = open.Since.Milliseconds;
        if (from >= now) return;
        var full = Math.Clamp(_recharging.Until(controller), from, now);
        if (from < full && _recharging.At(controller, from) is { } recharge)
            SeeStretch(controller, [.. open.Contributions, recharge], open.Sum + recharge.Amount, from, full);
        if (full < now) SeeStretch(controller, open.Contributions, open.Sum, full, now);
    }

    /// <summary>
    /// Sees a stretch in which nothing changes. An excess is reported from its beginning as soon as it has lasted for a second, through whatever was switched
    /// meanwhile, and then goes on from one switching to the next.
    /// </summary>
    private void SeeStretch(int controller, IReadOnlyList<Contribution> drawn, decimal sum, long from, long until)
    {
        ref var excess = ref _excesses[controller];
        var most = _limits[controller]!.Most;
        if (sum <= most)
        {
            excess = null;
            return;
        }

        excess ??= new Excess(from, IsReported: false);
        if (!excess.IsReported && until - excess.From < Switching.MillisecondsInSecond) return;
        var (first, end) = (Switching.SecondOf(excess.From), Switching.SecondOf(until));
        if (first < end) _overloads.Add(controller, most, drawn, first, end);
        excess = new Excess(until, IsReported: true);
    }

    public IEnumerable<Finding> Findings() => _overloads.All.Select(FindingFor);

    public IEnumerable<Gap> NotChecked() => _context.Site.Controllers.SelectMany(NotCheckedOf);

    private IEnumerable<Gap> NotCheckedOf(Controller controller) =>
        _limits[controller.Index] is not null ? CurrentGaps.Of(_draw, controller, isInrush: false)
        : controller.Power?.Capacitor is not null ? []
        : controller.Origin is null ? [new Gap(Concern.Power, "power", [], "power")]
        : [new Gap(Concern.Power, "power", [Thing.Of(controller)], controller.Power is null ? "power" : "continuous")];

    private Finding FindingFor(Overload overload)
    {
        var controller = _context.Site.Controllers[overload.Owner];
        var limit = _limits[overload.Owner]!;
        var finding = PowerOverload.FindingFor(
            Rule, _context, limit, overload,
            $"{PowerOverload.Needing(overload, "open valves")} need {limit.Say(overload.Worst)}, " +
                $"the power of {controller.Name} gives {Phrases.Bare(limit.Say(limit.Amount.InBase))}",
            "needs",
            "gives");
        return PowerOverload.RechargeHelp(_context, limit, overload) is { } less
            ? finding with { Help = less }
            : OverloadWords.WithHelp(finding, _context, overload, _overloads, trial => new HoldingCurrent(trial));
    }

    /// <summary>More held than there may be.</summary>
    /// <param name="From">When what is not reported yet begins, in Unix milliseconds.</param>
    /// <param name="IsReported">Whether it has lasted for a second, so that what was before is reported.</param>
    private sealed record Excess(long From, bool IsReported);
}
