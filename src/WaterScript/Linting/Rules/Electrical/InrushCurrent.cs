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
            "peak of its power supply. A controller with a `stagger` opens one by one, so that only one inrush counts at a time, but for the `inrush` of a " +
            "pump, which lasts as long as it says.\n" +
            "A latching valve on a controller without a `capacitor` draws its pulses from the power supply, those that close it too: the voltage over the " +
            "resistance of its coil. A capacitor draws its `recharge` from each pulse until it is full.",
        Matters = "A solenoid needs about twice its holding current for the moment in which it moves. Where the voltage breaks down in that moment, it " +
            "does not move, and hums until somebody comes.",
        Fires = Example.Replace("STAGGER", "", StringComparison.Ordinal),
        Fixed = Example.Replace("STAGGER", "\n  stagger 500 ms", StringComparison.Ordinal),
        FixSafety = "Writes a `stagger` into a controller that has none; where even one by one is too much, commas in place of the pluses of a step, or a " +
            "later start. Unsafe: valves open later, or the watering\n" +
            "takes longer or comes later. A stagger and a later start are tried against all rules before they are proposed.",
        KnownLimits = "A `stagger` is taken to be longer than an inrush, which lasts tens of milliseconds. Of a transformer the apparent power that is " +
            "stated is taken for the peak too; many bear more for a moment.\n" +
            "Instants within one second count as one time. A `recharge` counts from the moment of the pulse on.",
        Sources = "S = U · (Σ holding of those open + inrush of the one that opens). Common practice: 24 V AC valves need 0.20 to 0.50 A for tens of " +
            "milliseconds.",
    };

    private readonly LintContext _context;
    private readonly Overloads _overloads;
    private readonly CurrentDraw _draw;
    private readonly PowerLimit?[] _limits;
    private readonly Recharging _recharging;
    private readonly Opener[] _openers;

    public InrushCurrent(LintContext context)
    {
        _context = context;
        _overloads = new Overloads(context);
        _limits = [.. context.Site.Controllers.Select(controller => PowerLimit.Peak(controller.Power))];
        _draw = new CurrentDraw(context.Site, _limits);
        _recharging = new Recharging(context.Site, _limits);
        _openers = [.. context.Site.Controllers.Select(_ => new Opener())];
    }

    public bool Observes(Controller controller) => _limits[controller.Index] is { } limit && _draw.AllAtOnce(controller) > limit.Most;

    public void Visit(in Switching switching)
    {
        var opener = _openers[switching.Controller];
        if (opener.Milliseconds != switching.Milliseconds || opener.IsOpening(switching)) Judge(switching.Controller);
        opener.To(switching.Milliseconds);
        var origin = _context.Origins.Of(switching.Opening);
        if (_recharging.Give(switching, origin)) opener.IsPulse = true;
        var contribution = new Contribution(origin, switching.Zone, switching.Device, _draw.Inrush(switching));
        if (switching.IsOpen) opener.Open(switching, contribution, _draw);
        else opener.Close(switching, contribution with { Amount = _draw.Closing(switching), IsClosing = true });
    }

    public IEnumerable<Finding> Findings()
    {
        for (var controller = 0; controller < _openers.Length; controller++) Judge(controller);
        return _overloads.All.Select(FindingFor);
    }

    public IEnumerable<Gap> NotChecked() => _context.Site.Controllers
        .Where(controller => _limits[controller.Index] is not null).SelectMany(controller => CurrentGaps.Of(_draw, controller, isInrush: true));

    /// <summary>Looks at what opens, closes by a pulse or begins to recharge at one instant, after which it is held.</summary>
    private void Judge(int controller)
    {
        var opener = _openers[controller];
        if (!opener.HasHappened) return;
        var most = _limits[controller]!.Most;
        var recharge = _recharging.At(controller, opener.Milliseconds);
        var second = Switching.SecondOf(opener.Milliseconds);
        if (opener.Sum + (recharge?.Amount ?? 0) > most)
            _overloads.Add(controller, most, recharge is { } drawn ? [.. opener.Contributions, drawn] : [.. opener.Contributions], second, second);
        opener.Hold();
    }

    private Finding FindingFor(Overload overload)
    {
        var controller = _context.Site.Controllers[overload.Owner];
        var limit = _limits[overload.Owner]!;
        var finding = PowerOverload.FindingFor(
            Rule, _context, limit, overload,
            $"{PowerOverload.Needing(overload, "opening valves")} need {limit.Say(overload.Worst)}, " +
                $"the power of {controller.Name} gives {Phrases.Bare(limit.Say(limit.Amount.InBase))}",
            "needs",
            "gives") with
        {
            Assumed = limit.IsStated ? "" : "the peak current is the continuous one, as none is given.",
        };
        finding = finding with { Details = finding.Details + PulseOf(overload) };
        if (PowerOverload.RechargeHelp(_context, limit, overload) is { } less) return finding with { Help = less };
        if (overload.Contributions.Length == 1) return finding with { Help = "Use a stronger power source, or a valve that needs less." };
        if (overload.Contributions.Count(part => part.Zone >= 0) < 2)
            return finding with { Help = "Use a stronger power source, or switch the pump or master at another moment than the valve." };
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

    private Valve? ValveOf(Contribution part) =>
        part.IsRecharge ? null : part.Zone >= 0 ? _context.Site.Zones[part.Zone].Valve : _context.Site.Devices[part.Device].Valve;

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

        var fewer = LessAtOnce(finding, overload);
        return fewer with { Help = $"{fewer.Help.TrimEnd('.')}: even with a `stagger`, up to {_limits[overload.Owner]!.Say(most.Worst)} is needed." };
    }

    private Finding LessAtOnce(Finding finding, Overload overload) =>
        OverloadWords.WithHelp(finding, _context, overload, _overloads, trial => new InrushCurrent(trial));

    /// <summary>What a controller has on, and what it opens or closes at the instant that is looked at.</summary>
    private sealed class Opener
    {
        private readonly OpenContributions _held = new();
        private readonly List<Surge> _surges = [];
        private readonly List<Contribution> _closing = [];
        private bool _opens;

        public long Milliseconds { get; private set; } = long.MinValue;

        /// <summary>Whether a pulse is given from a capacitor at this instant.</summary>
        public bool IsPulse { get; set; }

        /// <summary>Whether anything begins to draw at this instant.</summary>
        public bool HasHappened => _opens || IsPulse || _closing.Count > 0;

        public decimal Sum
        {
            get
            {
                var (opening, closing) = (0m, 0m);
                foreach (var surge in _surges) opening += surge.Contribution.Amount;
                foreach (var pulse in _closing) closing += pulse.Amount;
                return _held.Sum + opening + closing;
            }
        }

        public IEnumerable<Contribution> Contributions => [.. _surges.Select(surge => surge.Contribution), .. _closing, .. _held.Contributions];

        /// <summary>Whether it is the close of what opens at this very instant.</summary>
        public bool IsOpening(in Switching switching) => !switching.IsOpen && _opens && SurgeOf(switching.Opening) >= 0;

        /// <summary>It is later: a surge that is over is held from now on.</summary>
        public void To(long milliseconds)
        {
            Milliseconds = milliseconds;
            var kept = 0;
            for (var i = 0; i < _surges.Count; i++)
            {
                var surge = _surges[i];
                if (surge.Until <= milliseconds) _held.Open(surge.Switching, surge.Then);
                else _surges[kept++] = surge;
            }

            _surges.RemoveRange(kept, _surges.Count - kept);
        }

        public void Open(in Switching switching, in Contribution inrush, CurrentDraw draw)
        {
            _opens = true;
            var until = switching.Milliseconds + Math.Max(1, draw.SurgeMilliseconds(switching));
            _surges.Add(new Surge(switching, inrush, inrush with { Amount = draw.Holding(switching) }, until));
        }

        public void Close(in Switching switching, in Contribution pulse)
        {
            var surge = SurgeOf(switching.Opening);
            if (surge >= 0) _surges.RemoveAt(surge);
            else _held.Close(switching);
            if (pulse.Amount > 0) _closing.Add(pulse);
        }

        /// <summary>The index of what draws more because of an opening; -1 where nothing does.</summary>
        private int SurgeOf(long opening)
        {
            for (var i = 0; i < _surges.Count; i++)
            {
                if (_surges[i].Switching.Opening == opening) return i;
            }

            return -1;
        }

        /// <summary>The instant is over.</summary>
        public void Hold()
        {
            (_opens, IsPulse) = (false, false);
            _closing.Clear();
        }

        /// <summary>A current as something opens, what it draws then, and until when, in milliseconds.</summary>
        private readonly record struct Surge(Switching Switching, Contribution Contribution, Contribution Then, long Until);
    }
}
