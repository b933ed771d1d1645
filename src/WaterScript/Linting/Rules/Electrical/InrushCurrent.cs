using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>Valves that draw more current as they open than the power supply gives for a moment.</summary>
internal sealed class InrushCurrent : IRule, ISwitchingObserver
{
    /// <summary>The stagger that is tried, in milliseconds: an inrush is over long before (common practice).</summary>
    private const long TriedSpacing = 500;

    private const string Example = """
        site plot {
          timezone   Europe/Lisbon
          effective  2026-03-01
        }
        controller box {
          outputs 4STAGGER
          power { transformer 21 VA at 24 V }
        }
        valve ac24 non-latching { inrush 400 mA; holding 220 mA }
        zone a { output 1; valve ac24 }
        zone b { output 2; valve ac24 }
        zone c { output 3; valve ac24 }
        schedule morning {
          every day
          start at 06:00
          steps { water a + b + c for 10 min }
        }
        """;

    public static Rule Rule { get; } = new("inrush-current", Severity.Error, "valves that open need more current than their power gives")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "At each instant at which a controller opens outputs, adds their inrush currents to the holding currents of what is on already, and holds " +
            "the sum against the\n" +
            "peak of its power supply. A controller with a `stagger` opens one by one, so that only one inrush counts at a time. A latching valve on a " +
            "controller without a `capacitor`\n" +
            "draws its pulse from the power supply: the voltage over the resistance of its coil.",
        Matters = "A solenoid needs about twice its holding current for the moment in which it moves. Where the voltage breaks down in that moment, it " +
            "does not move, and hums until somebody comes.",
        Fires = Example.Replace("STAGGER", "", StringComparison.Ordinal),
        Fixed = Example.Replace("STAGGER", "\n  stagger 500 ms", StringComparison.Ordinal),
        FixSafety = "Writes a `stagger` into a controller that has none; where even one by one is too much, commas in place of the pluses of a step, or a " +
            "later start. Unsafe: valves open later, or the watering\n" +
            "takes longer or comes later. A stagger and a later start are tried against all rules before they are proposed.",
        KnownLimits = "A `stagger` is taken to be longer than an inrush, which lasts tens of milliseconds. Of a transformer the apparent power that is " +
            "stated is taken for the peak too; many bear more for a moment.\n" +
            "Instants within one second count as one time. Pulses that close valves are not counted.",
        Sources = "S = U · (Σ holding of those open + inrush of the one that opens). Common practice: 24 V AC valves need 0.20 to 0.50 A for tens of " +
            "milliseconds.",
    };

    private readonly LintContext _context;
    private readonly Overloads _overloads;
    private readonly CurrentDraw _draw;
    private readonly PowerLimit?[] _limits;
    private readonly Opener[] _openers;

    public InrushCurrent(LintContext context)
    {
        _context = context;
        _overloads = new Overloads(context);
        _limits = [.. context.Site.Controllers.Select(controller => PowerLimit.Peak(controller.Power))];
        _draw = new CurrentDraw(context.Site, _limits);
        _openers = [.. context.Site.Controllers.Select(_ => new Opener())];
    }

    public bool Observes(Controller controller) => _limits[controller.Index] is { } limit && _draw.AllAtOnce(controller) > limit.Most;

    public void Visit(in Switching switching)
    {
        var opener = _openers[switching.Controller];
        if (!switching.IsOpen || opener.Milliseconds != switching.Milliseconds) Judge(switching.Controller);
        opener.Milliseconds = switching.Milliseconds;
        if (!switching.IsOpen)
        {
            opener.Held.Close(switching);
            return;
        }

        opener.Open(switching, new Contribution(_context.Origins.Of(switching.Opening), switching.Zone, switching.Device, _draw.Inrush(switching)));
    }

    public IEnumerable<Finding> Findings()
    {
        for (var controller = 0; controller < _openers.Length; controller++) Judge(controller);
        return _overloads.All.Select(FindingFor);
    }

    public IEnumerable<Gap> NotChecked() => _context.Site.Controllers
        .Where(controller => _limits[controller.Index] is not null).SelectMany(controller => CurrentGaps.Of(_draw, controller, isInrush: true));

    /// <summary>Looks at what opens at one instant, after which it is held.</summary>
    private void Judge(int controller)
    {
        var opener = _openers[controller];
        if (opener.Opening.Count == 0) return;
        var most = _limits[controller]!.Most;
        var second = opener.Opening[0].Switching.Second;
        if (opener.Inrush + opener.Held.Sum > most)
            _overloads.Add(controller, most, [.. opener.Opening.Select(entry => entry.Inrush), .. opener.Held.Contributions], second, second);
        opener.Hold(_draw);
    }

    private Finding FindingFor(Overload overload)
    {
        var controller = _context.Site.Controllers[overload.Owner];
        var limit = _limits[overload.Owner]!;
        var finding = PowerOverload.FindingFor(
            Rule, _context, limit, overload,
            $"opening valves need {limit.Say(overload.Worst)}, the power of {controller.Name} gives {Phrases.Bare(limit.Say(limit.Amount.InBase))}",
            "needs",
            "gives") with
        {
            Assumed = limit.IsStated ? "" : "the peak current is the continuous one, as none is given.",
        };
        finding = finding with { Details = finding.Details + PulseOf(overload) };
        if (overload.Contributions.Length == 1) return finding with { Help = "Use a stronger power source, or a valve that needs less." };
        return controller.Stagger == NodaTime.Duration.Zero ? OneByOne(finding, overload, controller) : LessAtOnce(finding, overload);
    }

    /// <summary>How the current of a pulse comes about, of the first that has one.</summary>
    private string PulseOf(Overload overload)
    {
        var volts = Electricity.VoltsOf(_context.Site.Controllers[overload.Owner].Power);
        var valve = overload.Contributions.Where(part => part.Amount > 0).Select(ValveOf).OfType<LatchingValve>().FirstOrDefault();
        return valve is null || volts is null ? ""
            : $"\nA pulse of {valve.Name}: {volts} / {valve.Coil} = {Phrases.Number(Electricity.Current(volts.Value.InBase, valve.Coil!.Value.InBase), 2)} A.";
    }

    private Valve? ValveOf(Contribution part) => part.Zone >= 0 ? _context.Site.Zones[part.Zone].Valve : _context.Site.Devices[part.Device].Valve;

    /// <summary>With a stagger, where that is enough; else with how much it is even so.</summary>
    private Finding OneByOne(Finding finding, Overload overload, Controller controller)
    {
        if (Trial.Of(_context, LongerStagger.In(_context.Site, controller, TriedSpacing), trial => new InrushCurrent(trial)) is not { } tried)
            return finding with { Help = $"Write a `stagger` in controller {controller.Name}, or open fewer at once." };
        if (tried._overloads.All.Where(left => left.Owner == overload.Owner).MaxBy(left => left.Worst) is not { } most)
        {
            var words = LongerStagger.Words(TriedSpacing);
            return finding with
            {
                Help = $"Write `{words}` in controller {controller.Name}: its valves then open one by one, which clears it.",
                Fix = LongerStagger.To(controller, TriedSpacing)
            };
        }

        var less = LessAtOnce(finding, overload);
        return less with { Help = $"{less.Help.TrimEnd('.')}: even with a `stagger`, up to {_limits[overload.Owner]!.Say(most.Worst)} is needed." };
    }

    private Finding LessAtOnce(Finding finding, Overload overload) =>
        OverloadWords.WithHelp(finding, _context, overload, _overloads, trial => new InrushCurrent(trial));

    /// <summary>What a controller has on, and what it opens at the instant that is looked at.</summary>
    private sealed class Opener
    {
        public OpenContributions Held { get; } = new();

        public List<(Switching Switching, Contribution Inrush)> Opening { get; } = [];

        public decimal Inrush { get; private set; }

        public long Milliseconds { get; set; } = long.MinValue;

        public void Open(in Switching switching, in Contribution inrush)
        {
            Opening.Add((switching, inrush));
            Inrush += inrush.Amount;
        }

        /// <summary>The moment of opening is over.</summary>
        public void Hold(CurrentDraw draw)
        {
            foreach (var (switching, inrush) in Opening) Held.Open(switching, inrush with { Amount = draw.Holding(switching) });
            Opening.Clear();
            Inrush = 0;
        }
    }
}
