using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>A pump that runs while no zone is open.</summary>
internal sealed class PumpWithoutFlow : IRule, IRunObserver
{
    /// <summary>What a pump bears, in seconds, as while valves change over (common practice).</summary>
    private const long Borne = 10;

    public static Rule Rule { get; } = new("pump-without-flow", Severity.Error, "a pump that runs while no zone is open")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = """
            A pump stays on through a gap of more than 10 s in which none of its zones is open, and longer than its lead and lag would bridge anyway.
            Each such gap is one time, and begins when the last zone closes. Also finds a pump that starts more than 10 s before its zones, or stops more than
            10 s after them; on another controller than they, by clocks that may be apart.
            """,
        Matters = """
            A pump that presses against closed valves heats the water in it until seals and pipes give way.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 20 L/min }
            zone a { output 1; flow 15 L/min }
            pump lift { output 8; supply well; load 60 mA; bridges gaps up to 5 min }
            schedule morning {
              on mon
              start at 06:00
              steps {
                water a for 10 min
                pause 4 min
                water a for 10 min
              }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 20 L/min; pressure-tank 24 L from 2 bar to 3.5 bar }
            zone a { output 1; flow 15 L/min }
            pump lift { output 8; supply well; load 60 mA; bridges gaps up to 5 min }
            schedule morning {
              on mon
              start at 06:00
              steps {
                water a for 10 min
                pause 4 min
                water a for 10 min
              }
            }
            """,
        KnownLimits = "Pumps on a supply with a `bypass` or a `pressure-tank` with its pressures are not looked at, nor are those whose zones are all on " +
            "such supplies.",
        Sources = "Common practice: a pump must not run with no zone open.",
    };

    private readonly LintContext _context;
    private readonly Gaps?[] _devices;
    private readonly Gaps[][] _byZone;

    public PumpWithoutFlow(LintContext context)
    {
        _context = context;
        var devices = context.Site.Devices;
        _devices = [.. devices.SelectMany(OutputsOf)];
        _byZone = [.. context.Site.Zones.Select(zone => _devices.OfType<Gaps>()
            .Where(gaps => devices[gaps.Device.Index].Zones.Any(other => other.Index == zone.Index)).ToArray())];
    }

    public bool Observes(Zone zone) => _byZone[zone.Index].Length > 0;

    public void Visit(in Run run)
    {
        foreach (var gaps in _byZone[run.Zone])
        {
            if (gaps.Device.RunsBecauseOf(_context.Site.Zones[run.Zone])) gaps.Add(run, _context);
            else gaps.Flow(run);
        }
    }

    public IEnumerable<Finding> Findings()
    {
        foreach (var gaps in _devices.OfType<Gaps>()) gaps.Finish(_context);
        var alone = _devices.OfType<Gaps>().DistinctBy(gaps => gaps.Device.Index).Where(gaps => gaps.Times.Counter.Happened);
        return [.. alone.Select(FindingFor), .. LongLeads()];
    }

    private IEnumerable<Finding> LongLeads() => _context.Manual is null
        ? _context.Site.Devices.Where(device => !MayRunOn(device)).SelectMany(LongLeads)
        : [];

    /// <summary>What is found of the lead of a pump, and of its lag.</summary>
    private static IEnumerable<Finding> LongLeads(Device pump)
    {
        if (-pump.StartsAfter.WholeSeconds() is > 0 and var lead && Alone(lead, pump) > Borne)
            yield return LongLead(pump, lead, pump.WrittenStart!.Value.Place, "starts", "before its zones open", "before zones");
        if (pump.StopsAfter.WholeSeconds() is > 0 and var lag && Alone(lag, pump) > Borne)
            yield return LongLead(pump, lag, pump.WrittenStop!.Value.Place, "stops", "after its zones close", "after zones");
    }

    /// <summary>Seconds for which it runs alone at most, where its clock and that of its zones are apart.</summary>
    private static long Alone(long length, Device pump) => length + PumpClock.MostApart(pump);

    private static Finding LongLead(Device pump, long length, Location place, string verb, string when, string side)
    {
        var (alone, apart) = (Alone(length, pump), PumpClock.MostApart(pump));
        var most = Borne - apart;
        var heading = $"pump {pump.Name} {verb} {(apart > 0 ? "up to " : "")}{Phrases.Length(alone)} {when}";
        return Finding.At(Rule, place, heading, "runs against closed valves") with
        {
            Severity = Severity.Warning,
            Details = (apart > 0 ? $"{Phrases.Length(length)} + {Phrases.Length(apart)} between the clocks = " : "") +
                $"{Phrases.Length(alone)} with no zone open; up to {Borne} s is common practice.",
            Help = most > 0
                ? $"Write `{verb} {most} s {side}` or less, or give the supply {Relief} where there is one."
                : $"Wire it to the controller of its zones, or give the supply {Relief} where there is one.",
        };
    }

    private Finding FindingFor(Gaps gaps)
    {
        var finding = Finding.At(Rule, gaps.Device.Origin, $"pump {gaps.Device.Name} runs while no zone is open",
            $"runs alone for up to {Phrases.Length((long)gaps.Times.Counter.Worst)}") with
        {
            Others = [.. _context.Steps.Of(gaps.Times.Origin).Labels("until this opens")],
        };
        return _context.Happening(finding, gaps.Times.Counter) with
        {
            Help = $"Bridge shorter gaps: write `bridges gaps up to {Borne} s` or less, or give the supply {Relief} where there is one.",
        };
    }

    /// <summary>What takes the water that zones do not: a pressure tank does so between two pressures, and without them excuses nothing.</summary>
    public const string Relief = "a `bypass` or a `pressure-tank` with its pressures";

    /// <summary>Whether no harm is known in a device that is on while no zone is open: it lifts no water, or what it lifts has somewhere to go.</summary>
    public static bool MayRunOn(Device device) => device.Kind != DeviceKind.Pump || device.Output == 0 || IsRelieved(device);

    private static IEnumerable<Gaps?> OutputsOf(Device device)
    {
        var times = new AloneTimes();
        return device.ByOutput().Select(output => GapsOf(output, times));
    }

    private static Gaps? GapsOf(Device device, AloneTimes times)
    {
        if (MayRunOn(device)) return null;
        var bridged = Math.Max(Borne, (device.StopsAfter - device.StartsAfter).WholeSeconds());
        var through = device.Bridges.WholeSeconds();
        return through > bridged ? new Gaps(device, bridged, through, times) : null;
    }

    private static bool IsRelieved(Device pump) => pump.Supply is { } supply ? IsRelieved(supply) : pump.Zones.All(zone => IsRelieved(zone.Supply));

    private static bool IsRelieved(Supply? supply) => supply is { TakesUp: true };

    /// <summary>When a pump runs alone, by any of its outputs; the worst is the longest, in seconds.</summary>
    private sealed class AloneTimes
    {
        private readonly HashSet<long> _begun = [];

        public OccurrenceCounter Counter { get; } = new();

        /// <summary>What opens after the first time.</summary>
        public StepOrigin Origin { get; private set; }

        /// <summary>Counts a time; two outputs may stay on through the same one.</summary>
        public void Add(long from, long seconds, StepOrigin origin, LintContext context)
        {
            if (_begun.Add(from) && Counter.Add(from, context)) Origin = origin;
            Counter.Reach(seconds);
        }
    }

    /// <summary>
    /// The gaps between the zones of a pump. One that starts late is off in a gap that comes before; one that stops early is off in a gap that nothing
    /// long enough follows. So gaps wait until what follows them is.
    /// </summary>
    private sealed class Gaps(Device device, long bridged, long through, AloneTimes times)
    {
        private readonly long _startsAfter = device.StartsAfter.WholeSeconds();
        private readonly long _stopsAfter = device.StopsAfter.WholeSeconds();
        private readonly Queue<Gap> _waiting = new();

        /// <summary>The stretches since the last zone of this output closed in which no zone of the pump is open.</summary>
        private readonly List<(long From, long To)> _still = [];
        private long _flowsUntil = long.MinValue / 2;
        private long _began;
        private long _end = long.MinValue / 2;

        public Device Device { get; } = device;

        public AloneTimes Times { get; } = times;

        public void Add(in Run run, LintContext context)
        {
            var gap = run.Start - _end;
            if (gap > through)
            {
                Finish(context);
                _began = run.Start;
            }
            else if (gap > bridged)
            {
                Flow(run);
                foreach (var (from, to) in _still) _waiting.Enqueue(new Gap(from, to, new StepOrigin(run.Schedule, run.Step)));
            }

            _still.Clear();
            _end = Math.Max(_end, run.End + run.Overlap);
            while (_waiting.TryPeek(out var first) && first.To <= _end + _stopsAfter) Report(_waiting.Dequeue(), context);
        }

        /// <summary>Takes in a run that another output of the pump is on for: while it lasts, the water has somewhere to go.</summary>
        public void Flow(in Run run)
        {
            var last = Math.Max(_end, _flowsUntil);
            if (run.Start > last) _still.Add((last, run.Start));
            _flowsUntil = Math.Max(_flowsUntil, run.End + run.Overlap);
        }

        /// <summary>Nothing is to come that the pump would stay on for.</summary>
        public void Finish(LintContext context)
        {
            while (_waiting.TryDequeue(out var gap)) Report(gap, context);
        }

        private void Report(in Gap gap, LintContext context)
        {
            var alone = Math.Min(gap.To, _end + _stopsAfter) - Math.Max(gap.From, _began + _startsAfter);
            if (alone <= Borne) return;
            Times.Add(gap.From, alone, gap.Origin, context);
        }

        private readonly record struct Gap(long From, long To, StepOrigin Origin);
    }
}
