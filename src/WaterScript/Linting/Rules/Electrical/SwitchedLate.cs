using System.Runtime.InteropServices;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>Outputs that wait so long for their turn that it shows in the watering.</summary>
internal sealed class SwitchedLate : IRule, IOpeningObserver, ISwitchingObserver
{
    /// <summary>What a valve may take to open or close by itself.</summary>
    private const long SlowValve = 5_000;

    private const long Minute = 60_000;

    private const string Example = """
        site plot {
          timezone   Europe/Lisbon
          effective  2026-03-01
        }
        controller box {
          outputs 4
          stagger STAGGER
        }
        zone a { output 1 }
        zone b { output 2 }
        zone c { output 3 }
        zone d { output 4 }
        schedule morning {
          every day
          start at 06:00
          steps { water a + b + c + d for 3 min }
        }
        """;

    public static Rule Rule { get; } = new("switched-late", Severity.Warning, "an output waits long for its turn")
    {
        Category = RuleCategory.Power,
        CanBeAccepted = true,
        Finds = "A controller with a `stagger` switches one output after the other. Finds outputs that wait for their turn until they are switched more " +
            "than a minute late, or are on for at least a tenth, and 5 s, less or more than is asked of them.",
        Matters = "A valve that opens late and closes in time waters too little. One that has to wait for its turn to close, as latching valves have, goes " +
            "on watering; where more is switched than the stagger lets\n" +
            "through, each one waits longer than the one before it.",
        Fires = Example.Replace("STAGGER", "30 s", StringComparison.Ordinal),
        Fixed = Example.Replace("STAGGER", "500 ms", StringComparison.Ordinal),
        KnownLimits = """
            How far a watering may be off is not known: a tenth is taken, and 5 s, since a valve itself takes some seconds to open and close.
            """,
        Sources = "Common practice: a diaphragm valve takes a few seconds to open or close.",
    };

    private readonly LintContext _context;
    private readonly Delays?[] _controllers;
    private readonly Dictionary<long, Waiting> _openings = [];

    public SwitchedLate(LintContext context)
    {
        _context = context;
        _controllers = [.. context.Site.Controllers.Select(controller => controller.Stagger > NodaTime.Duration.Zero ? new Delays(controller) : null)];
    }

    public bool ObservesAny => _controllers.Any(delays => delays is not null);

    public bool Observes(Controller controller) => _controllers[controller.Index] is not null;

    public void Visit(in Opening opening)
    {
        if (opening.Output > 0 && _controllers[opening.Controller] is not null) _openings[opening.Number] = new Waiting(opening.From, opening.To);
    }

    public void Visit(in Switching switching)
    {
        if (switching.IsOpen)
        {
            ref var open = ref CollectionsMarshal.GetValueRefOrNullRef(_openings, switching.Opening);
            open = open with { Opened = switching.Milliseconds };
            return;
        }

        if (!_openings.Remove(switching.Opening, out var waiting)) throw new InvalidOperationException("A controller closes what it has not opened.");
        var done = waiting with { Closed = switching.Milliseconds };
        if (IsMuch(done)) _controllers[switching.Controller]!.Add(done, switching, _context);
    }

    public IEnumerable<Finding> Findings() => _controllers.OfType<Delays>().Where(delays => delays.OccurrenceCounter.Happened).Select(FindingFor);

    private static bool IsMuch(Waiting done)
    {
        var off = Math.Abs(done.Off);
        return done.Late > Minute || (off >= SlowValve && off * 10 >= done.Asked);
    }

    private Finding FindingFor(Delays delays)
    {
        var controller = delays.Controller;
        var finding = Finding.At(Rule, controller.WrittenStagger!.Value.Place, $"outputs of controller {controller.Name} wait too long for their turn",
            "switches one after the other, this far apart") with
        {
            Others = [.. _context.Steps.Of(delays.Origin).Labels("this waits for its turn")],
        };
        finding = _context.Happening(finding, delays.OccurrenceCounter);
        return finding with
        {
            Details = $"{finding.Details}{Worst(delays)}",
            Excess = delays.Worst.Harm,
            Help = $"Start steps further apart, water fewer at once, or write a shorter `stagger` in controller {controller.Name} where its power allows it.",
        };
    }

    private string Worst(Delays delays)
    {
        var (worst, switching) = (delays.Worst, delays.WorstSwitching);
        return $"Longest wait {_context.Moment(worst.From)}: {_context.NameOf(switching)} opens {Late(worst.OpensLate)} and closes {Late(worst.ClosesLate)}; " +
            $"it is on for {Length(worst.Closed - worst.Opened)} instead of {Length(worst.Asked)}.";
    }

    private static string Late(long milliseconds) => milliseconds == 0 ? "in time" : $"{Length(milliseconds)} late";

    /// <summary><c>1 min 30 s</c>, or <c>1.50 s</c> where it is no whole second.</summary>
    private static string Length(long milliseconds) => milliseconds % 1000 == 0
        ? Phrases.Length(milliseconds / 1000)
        : $"{Phrases.Number(milliseconds / 1000m, 2)} s";

    /// <summary>An opening that waits for its turn, or has had it.</summary>
    /// <param name="From">When it is due, in Unix seconds.</param>
    /// <param name="To">When its end is due.</param>
    /// <param name="Opened">When it opens, in Unix milliseconds.</param>
    /// <param name="Closed">When it closes.</param>
    private readonly record struct Waiting(long From, long To, long Opened = 0, long Closed = 0)
    {
        /// <summary>How long it is to be on, in milliseconds.</summary>
        public long Asked => (To - From) * Switching.MillisecondsInSecond;

        /// <summary>By how much longer it is on, in milliseconds; negative where it is shorter.</summary>
        public long Off => Closed - Opened - Asked;

        public long OpensLate => Opened - (From * Switching.MillisecondsInSecond);

        public long ClosesLate => Closed - (To * Switching.MillisecondsInSecond);

        /// <summary>The most by which it is late, in milliseconds.</summary>
        public long Late => Math.Max(OpensLate, ClosesLate);

        /// <summary>The greater of both.</summary>
        public long Harm => Math.Max(Math.Abs(Off), Late);
    }

    /// <summary>What a controller keeps waiting for too long.</summary>
    private sealed class Delays(Controller controller)
    {
        public Controller Controller { get; } = controller;

        public OccurrenceCounter OccurrenceCounter { get; } = new();

        /// <summary>Who asked for the first of it.</summary>
        public StepOrigin Origin { get; private set; }

        public Waiting Worst { get; private set; }

        public Switching WorstSwitching { get; private set; }

        public void Add(Waiting done, in Switching switching, LintContext context)
        {
            if (!OccurrenceCounter.Happened || done.Harm > Worst.Harm) (Worst, WorstSwitching) = (done, switching);
            if (OccurrenceCounter.Add(done.From, context)) Origin = context.Origins.Of(switching.Opening);
        }
    }
}
