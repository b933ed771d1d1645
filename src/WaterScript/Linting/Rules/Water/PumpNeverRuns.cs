using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>A pump or a master valve that is off for all of the time in which a zone is open.</summary>
internal sealed class PumpNeverRuns : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("pump-never-runs", Severity.Error, "a pump that is off while a zone is open")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = "A zone is open only while its pump or its master is off: before a start `after zones`, after a stop `before zones`, or for no longer than " +
            "both together. The pump never turns on, or turns on when the zone is closed again.",
        Matters = """
            The valves open and close by the clock, and no water comes. The timetable and the log look right, so that it is the plants that tell.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 20 L/min }
            zone pots { output 1; flow 6 L/min }
            pump lift { output 8; supply well; load 60 mA; starts 4 min after zones }
            schedule morning {
              every day
              start at 06:00
              steps { water pots for 3 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 20 L/min }
            zone pots { output 1; flow 6 L/min }
            pump lift { output 8; supply well; load 60 mA; starts 4 s after zones }
            schedule morning {
              every day
              start at 06:00
              steps { water pots for 3 min }
            }
            """,
        KnownLimits = "Pumps and masters without an `output` are not looked at; injectors are the matter of `dose-without-flow`. Zones that follow one " +
            "another, or with gaps that are bridged, are one opening, at whose beginning and end the pump is off.",
    };

    private readonly LintContext _context;
    private readonly PumpRuns[] _pumps;
    private readonly Dictionary<(int Device, Location Step, int Zone), DryRuns> _dry = [];

    public PumpNeverRuns(LintContext context)
    {
        _context = context;
        _pumps = PumpRuns.Of(context.Site, Judge);
    }

    public bool Observes(Zone zone) => _pumps.Any(pump => pump.Serves(zone.Index));

    public void Visit(in Run run)
    {
        foreach (var pump in _pumps)
        {
            if (pump.Serves(run.Zone)) pump.Add(run);
        }
    }

    public IEnumerable<Finding> Findings()
    {
        foreach (var pump in _pumps) pump.Finish();
        return _dry.Values.Select(FindingFor);
    }

    private void Judge(PumpRuns pump, Run run, long without)
    {
        if (without < run.Seconds) return;
        var key = (pump.Device.Index, _context.Steps.Of(run).Step.Origin, run.Zone);
        if (!_dry.TryGetValue(key, out var dry)) _dry[key] = dry = new DryRuns(pump, run, run.End - pump.From, pump.To - run.Start);
        dry.Counter.Add(run.Start, _context);
        dry.LeastScale = Math.Min(dry.LeastScale, _context.Timetable.PercentOn(run.Schedule, run.Day));
    }

    private Finding FindingFor(DryRuns dry)
    {
        var pump = dry.Pump;
        var isLate = dry.Closes <= pump.Late;
        var place = isLate || pump.Early == 0 ? pump.Device.WrittenStart : pump.Device.WrittenStop;
        var finding = Finding.At(Rule, place!.Value.Place, Heading(dry, isLate), "no water until then") with
        {
            Others = [.. _context.Steps.Of(dry.Run).Labels($"opens for {Phrases.Length(dry.Run.Seconds)}")],
            Details = Sum(dry, isLate) + Alone(dry),
            Help = $"{(isLate ? "Start it earlier" : "Stop it later")}, or water for longer than {Written(dry, isLate ? pump.Late : pump.Late + pump.Early)}.",
        };
        return _context.Happening(isLate ? finding : finding with { Primary = finding.Primary with { Text = "no water from then on" } }, dry.Counter);
    }

    /// <summary>The time that has to be written for one as long as that.</summary>
    private string Written(DryRuns dry, long seconds)
    {
        var (zone, step) = (_context.Site.Zones[dry.Run.Zone], _context.Steps.Of(dry.Run).Step);
        return Phrases.Length(WrittenLength.AtMost(seconds, dry.LeastScale, zone, step))
            + WrittenLength.Why(Phrases.Length(seconds), dry.LeastScale, zone, step);
    }

    private string Heading(DryRuns dry, bool isLate)
    {
        var (pump, zone) = (dry.Pump, _context.Site.Zones[dry.Run.Zone].Name);
        var name = $"{(pump.Device.Kind == DeviceKind.Master ? "master" : "pump")} {pump.Device.Name}";
        var ends = dry.Closes == dry.Run.Seconds ? "runs" : "closes at";
        return isLate ? $"{name} starts {Phrases.Length(pump.Late)} late, zone {zone} {ends} {Phrases.Length(dry.Closes)}"
            : dry.Opens <= pump.Early ? $"{name} stops {Phrases.Length(pump.Early)} early, zone {zone} runs the last {Phrases.Length(dry.Opens)}"
            : $"{name} is off for {Phrases.Length(pump.Late + pump.Early)}, zone {zone} runs {Phrases.Length(dry.Run.Seconds)}";
    }

    private static string Sum(DryRuns dry, bool isLate)
    {
        var pump = dry.Pump;
        var off = isLate ? $"{Phrases.Length(pump.Late)} off at the start"
            : dry.Opens <= pump.Early ? $"{Phrases.Length(pump.Early)} off at the end"
            : $"{Phrases.Length(pump.Late)} off at the start, {Phrases.Length(pump.Early)} at the end";
        return $"{off}: water flows for 0 s of {Phrases.Length(dry.Run.Seconds)}.";
    }

    /// <summary>Where it stops late enough, it runs when the zone is closed.</summary>
    private static string Alone(DryRuns dry)
    {
        var device = dry.Pump.Device;
        var on = dry.Run.Seconds + (device.StopsAfter - device.StartsAfter).WholeSeconds();
        var isOnlyOne = dry.Closes == dry.Run.Seconds && dry.Opens == dry.Run.Seconds + dry.Run.Overlap;
        return isOnlyOne && on > 0 ? $"\nIt then runs for {Phrases.Length(on)} with no zone open." : "";
    }

    /// <summary>Runs of a step in which no water flows, the first of them as an example.</summary>
    /// <param name="Pump">What is off.</param>
    /// <param name="Run">The first run.</param>
    /// <param name="Closes">Seconds from the first zone that opens to the end of the run.</param>
    /// <param name="Opens">Seconds from the start of the run to the last zone that closes.</param>
    private sealed record DryRuns(PumpRuns Pump, Run Run, long Closes, long Opens)
    {
        public OccurrenceCounter Counter { get; } = new();

        /// <summary>The least share that a scale leaves of the run.</summary>
        public decimal LeastScale { get; set; } = decimal.MaxValue;
    }
}
