using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Simulation.Water;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>An amount of water of which a part does not flow, because the pump is off for some of the time calculated for it.</summary>
internal sealed class LessThanAsked : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("less-than-asked", Severity.Warning, "an amount of which the pump gives only a part")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = "A step waters with a volume or a depth. Its time is calculated from the flow, and for more than 5 % of it the pump or the master is off: it " +
            "starts `after zones` or stops `before zones`.",
        Matters = """
            Who writes litres counts on litres. A few seconds are nothing in half an hour, and most of a run of a minute.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 20 L/min }
            zone pots { output 1; flow 4 L/min }
            pump lift { output 8; supply well; load 60 mA; starts 45 s after zones }
            schedule morning {
              every day
              start at 06:00
              steps { water pots with 4 L }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 20 L/min }
            zone pots { output 1; flow 4 L/min }
            pump lift { output 8; supply well; load 60 mA; starts 3 s after zones }
            schedule morning {
              every day
              start at 06:00
              steps { water pots with 4 L }
            }
            """,
        KnownLimits = "The pump is taken to give all of the flow as soon as it is on, and none while it is off. Where no water flows at all it is the " +
            "matter of `pump-never-runs`. Pumps without an `output` are not looked at.",
        Sources = "Common practice: a flow is hardly known to 5 %.",
    };

    /// <summary>What may be missing of an amount, in per cent: no flow is known better.</summary>
    private const int Borne = 5;

    private readonly LintContext _context;
    private readonly PumpRuns[] _pumps;
    private readonly Dictionary<(int Device, Location Step, int Zone), ShortRuns> _short = [];

    public LessThanAsked(LintContext context)
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
        return _short.Values.Select(FindingFor);
    }

    /// <summary>The worst run is the one with the greatest share without water.</summary>
    private void Judge(PumpRuns pump, Run run, long without)
    {
        if (without >= run.Seconds || 100 * without <= Borne * run.Seconds) return;
        var step = _context.Steps.Of(run).Step;
        if (step is not WaterStep { With: not null }) return;
        var key = (pump.Device.Index, step.Origin, run.Zone);
        if (!_short.TryGetValue(key, out var found)) _short[key] = found = new ShortRuns(pump, run);
        found.Counter.Add(run.Start, _context);
        if (found.Counter.Reach((decimal)without / run.Seconds)) (found.Worst, found.Without) = (run, without);
    }

    private Finding FindingFor(ShortRuns found)
    {
        var (zone, run, pump) = (_context.Site.Zones[found.Worst.Zone], found.Worst, found.Pump);
        var asked = ((WaterStep)_context.Steps.Of(run).Step).With!.Value;
        var flows = run.Seconds - found.Without;
        var given = asked.InBase * flows / run.Seconds;
        var digits = Enumerable.Range(1, MostDigits).First(digits => digits == MostDigits || Say(given, digits) != Say(asked.InBase, digits));
        var kind = pump.Device.Kind == DeviceKind.Master ? "master" : "pump";
        var place = pump.Late > 0 ? pump.Device.WrittenStart : pump.Device.WrittenStop;
        var finding = Finding.At(Rule, _context.Steps.Of(run).Step.Origin,
            $"zone {zone.Name} gets {Phrases.Bare(Say(given, digits))} of {Say(asked.InBase, digits)}", $"opens for {Phrases.Length(run.Seconds)}") with
        {
            Others = [new Label(place!.Value.Place, $"no water for {Phrases.Length(found.Without)}")],
            Details = $"{Phrases.Length(run.Seconds)} open − {Phrases.Length(found.Without)} without {kind} {pump.Device.Name} = {Phrases.Length(flows)} of " +
                $"water: {Phrases.Number(100m * flows / run.Seconds, 0)} %.",
            Help = $"Start the {kind} sooner and stop it later, or ask for more.",
        };
        return _context.Happening(finding, found.Counter);

        string Say(decimal amount, int digits) => Phrases.Amount(amount, asked.Unit, digits);
    }

    /// <summary>Decimals, where fewer make what is given look like what is asked.</summary>
    private const int MostDigits = 3;

    /// <summary>The runs of a step that give less than was asked for.</summary>
    private sealed class ShortRuns(PumpRuns pump, Run first)
    {
        public PumpRuns Pump { get; } = pump;

        public OccurrenceCounter Counter { get; } = new();

        public Run Worst { get; set; } = first;

        public long Without { get; set; }
    }
}
