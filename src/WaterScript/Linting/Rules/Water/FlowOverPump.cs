using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>Zones that together draw more than their pump, master valve or injector passes.</summary>
internal sealed class FlowOverPump : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("flow-over-pump", Severity.Error, "more water needed at once than a pump gives")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = """
            Adds up the flow of all zones that are open together and that a pump, a master valve or an injector serves, and compares the sum with its
            `flow`. Through an injector goes only what is watered through it.
            """,
        Matters = """
            A pump that is asked for more than it gives loses pressure, and a weak one draws air. A master valve that is too small costs pressure, and an
            injector outside of its range doses wrongly.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            supply well { flow 60 L/min }
            pump jet { output 4; supply well; load 80 mA; flow 22 L/min }
            zone lawn { output 1; flow 16 L/min }
            zone beds { output 2; flow 10 L/min }
            schedule morning { every day; start at 06:00; steps { water lawn + beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01 }
            supply well { flow 60 L/min }
            pump jet { output 4; supply well; load 80 mA; flow 22 L/min }
            zone lawn { output 1; flow 16 L/min }
            zone beds { output 2; flow 10 L/min }
            schedule morning { every day; start at 06:00; steps { water lawn, beds for 10 min } }
            """,
        FixSafety = "Writes commas in place of the pluses of a step, or a later start. Unsafe: the watering takes longer or comes later. A later start is " +
            "tried against all rules before it is proposed.",
        KnownLimits = "A change-over `overlap` does not count. What a pump gives depends on the height: `flow` is what it gives at the pressure that the " +
            "zones need.",
        Sources = "Common practice: the curve of a pump shows its flow at the head of the site.",
    };

    private readonly LintContext _context;
    private readonly Overloads _overloads;
    private readonly Served[] _devices;
    private readonly PriorityQueue<(Served Device, int Zone), long> _ends = new();

    public FlowOverPump(LintContext context)
    {
        _context = context;
        _overloads = new Overloads(context);
        _devices = [.. context.Site.Devices.Where(device => device.Flow is not null).Select(device => new Served(device))];
    }

    public bool Observes(Zone zone) => Array.Exists(_devices, served => served.Serves(zone));

    public void Visit(in Run run)
    {
        EndUpTo(run.Start);
        var zone = _context.Site.Zones[run.Zone];
        foreach (var served in _devices)
        {
            if (!served.Serves(zone) || (served.Device.Kind == DeviceKind.Injector && run.Injector != served.Device.Index)) continue;
            Report(served, run.Start);
            served.Open.Add(new Contribution(new StepOrigin(run.Schedule, run.Step), run.Zone, Device: -1, zone.LitresPerMinute ?? 0));
            _ends.Enqueue((served, run.Zone), run.End);
        }
    }

    public IEnumerable<Finding> Findings()
    {
        EndUpTo(long.MaxValue);
        return _overloads.All.Select(FindingFor);
    }

    public IEnumerable<Gap> NotChecked() => _devices.SelectMany(served => Gap.Each(Concern.Flow, "flow",
        served.Device.Zones.Where(zone => !zone.IsSpare && zone.LitresPerMinute is null).Select(zone => (Thing.Of(zone), (string?)"flow"))));

    private void EndUpTo(long second)
    {
        while (_ends.TryPeek(out var ended, out var end) && end <= second)
        {
            _ends.Dequeue();
            Report(ended.Device, end);
            ended.Device.Open.RemoveAt(ended.Device.Open.FindIndex(part => part.Zone == ended.Zone));
        }
    }

    /// <summary>Looks at what was open up to now; a zone that two schedules water at once takes its flow once.</summary>
    private void Report(Served served, long now)
    {
        if (served.Since < now && served.Open.Count > 0)
        {
            var open = served.Open.DistinctBy(part => part.Zone).ToList();
            var limit = served.Device.Flow!.Value.InBase + Flows.Tolerance;
            _context.Spend(open.Count, open[0].Origin.Schedule);
            if (open.Sum(part => part.Amount) > limit) _overloads.Add(served.Device.Index, limit, open, served.Since, now);
        }

        served.Since = now;
    }

    private Finding FindingFor(Overload overload)
    {
        var device = _context.Site.Devices[overload.Owner];
        var finding = ExcessFlow.FindingFor(Rule, _context, overload, $"{device.Word} {device.Name}", device.Kind == DeviceKind.Pump ? "gives" : "passes",
            device.Flow!.Value);
        return overload is { Places.Length: 1, Contributions.Length: 1 }
            ? finding with { Help = $"Correct the flow of the zone or of {device.Word} {device.Name}, or split the zone." }
            : OverloadWords.WithHelp(finding, _context, overload, _overloads, trial => new FlowOverPump(trial));
    }

    /// <summary>A device and what is open on it.</summary>
    private sealed class Served(Device device)
    {
        public Device Device { get; } = device;

        public List<Contribution> Open { get; } = [];

        public long Since { get; set; }

        public bool Serves(Zone zone) => Device.Zones.Any(served => served.Index == zone.Index);
    }
}
