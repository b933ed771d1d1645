using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>A dose without water to carry it, or without the rinse after it.</summary>
internal sealed class DoseWithoutFlow : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("dose-without-flow", Severity.Error, "a dose without flow or without its rinse")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = "An injector doses before its zone opens or after it closes, through a gap in which nothing flows, or so that less than its `rinse` " +
            "follows; or the watering is so short that nothing is dosed at all. A dose of its own length, `for` or `with`, needs `after`, dose and `rinse` " +
            "in the shortest of the waterings that begin together, as scale, `cut off at` and holds leave them; else there is none.",
        Matters = """
            What is dosed into water that stands is strong enough to burn roots, eats at valves, and may find its way back to the source.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone a { output 1; flow 15 L/min }
            injector feeder { output 9; zones a; load 40 mA; after 5 min; rinse 8 min }
            schedule morning {
              on mon
              start at 06:00
              steps { water a for 12 min through feeder }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone a { output 1; flow 15 L/min }
            injector feeder { output 9; zones a; load 40 mA; after 5 min; rinse 8 min }
            schedule morning {
              on mon
              start at 06:00
              steps { water a for 20 min through feeder }
            }
            """,
        KnownLimits = "How long the dose takes to the last head is not known: the `rinse` has to be long enough for that. Where drinking water is near, " +
            "local codes and licensed practice govern.",
        Sources = "Common practice: dose only into flowing water, and rinse afterwards.",
    };

    private readonly LintContext _context;
    private readonly ByOutput<Injector?> _devices;
    private readonly Dictionary<(int Device, string What, StepPlace Place), OccurrenceCounter> _doses = [];

    public DoseWithoutFlow(LintContext context)
    {
        _context = context;
        _devices = new ByOutput<Injector?>(context.Site, device => device.Kind == DeviceKind.Injector ? new Injector(device) : null);
    }

    public bool Observes(Zone zone) => _context.Site.Devices.Any(device => device.Kind == DeviceKind.Injector);

    public void Visit(in Run run)
    {
        if (run.Injector < 0 || _devices[run.Injector, _context.Site.Zones[run.Zone].Controller!.Index] is not { } injector) return;
        if (!IsLongEnough(run))
        {
            foreach (var what in injector.MistakesIn(run)) Add(what, injector.Device, run);
        }

        injector.Remember(run);
    }

    public IEnumerable<Finding> Findings() =>
        _doses.Select(entry => FindingFor(_context.Site.Devices[entry.Key.Device], entry.Key.What, entry.Key.Place, entry.Value));

    /// <summary>Where a dose of its own length does not fit, another of the waterings that begin together is the one that is too short.</summary>
    private bool IsLongEnough(in Run run) =>
        run.Dose < 0 && _context.Timetable.StepOf(run.Schedule, run.Step).Dose is { } dose && run.Seconds >= dose.Needs;

    private void Add(string what, Device device, in Run run)
    {
        var place = _context.Steps.Of(new StepOrigin(run.Schedule, run.Step));
        if (!_doses.TryGetValue((device.Index, what, place), out var doses)) _doses[(device.Index, what, place)] = doses = new OccurrenceCounter();
        doses.Add(run.Start, _context);
    }

    private Finding FindingFor(Device device, string what, StepPlace place, OccurrenceCounter doses)
    {
        Label[] labels = [.. place.Labels(what)];
        var finding = new Finding(Rule, $"injector {device.Name}: {what}", labels[0]) { Others = [.. labels[1..], new Label(device.Origin, Says(device))] };
        return _context.Happening(finding, doses)
            with
        { Help = "Water longer, or correct `after`, `rinse`, `starts`, `stops` or `bridges gaps up to` of the injector." };
    }

    private static string Says(Device device) =>
        $"doses {Phrases.Length(Seconds(device.After))} after the water begins, and rinses for {Phrases.Length(Seconds(device.Rinse))}";

    private static long Seconds(NodaTime.Duration? length) => length?.WholeSeconds() ?? 0;

    /// <summary>An injector and the dose before.</summary>
    private sealed class Injector(Device device)
    {
        private readonly long _lead = Seconds(device.After) + Seconds(device.StartsAfter);
        private readonly long _lag = Seconds(device.StopsAfter) - Seconds(device.Rinse);
        private readonly long _through = Math.Max(Seconds(device.Bridges), Seconds(device.StopsAfter) - Seconds(device.StartsAfter));
        private long _asked = long.MinValue / 2;
        private long _end = long.MinValue / 2;

        public Device Device { get; } = device;

        public IEnumerable<string> MistakesIn(Run run)
        {
            var (from, to) = (run.Start + _lead, run.End + _lag);
            if (run.Dose != 0)
            {
                foreach (var mistake in MistakesInSized(run, from)) yield return mistake;
                yield break;
            }

            if (run.Start + Seconds(Device.After) >= run.End - Seconds(Device.Rinse) || to <= from)
            {
                yield return "nothing is dosed, the watering is too short";
                yield break;
            }

            if (from < run.Start) yield return "doses before the water flows";
            if (to > run.End) yield return "doses after the water has stopped";
            else if (run.End - to < Seconds(Device.Rinse)) yield return "the rinse is shorter than it should be";
            var asked = run.Start + Seconds(Device.After);
            if (run.Start > _end && asked > _asked && asked - _asked <= _through) yield return "doses on through a gap without water";
        }

        /// <summary>Those of a dose that has a size of its own.</summary>
        private IEnumerable<string> MistakesInSized(Run run, long from)
        {
            var to = run.Start + Seconds(Device.After) + run.Dose + Seconds(Device.StopsAfter);
            if (run.Dose < 0 || to <= from)
            {
                yield return "nothing is dosed: the dose, with the water before and after it, is longer than the watering";
                yield break;
            }

            if (from < run.Start) yield return "doses before the water flows";
            if (to > run.End) yield return "doses after the water has stopped";
            else if (run.End - to < Seconds(Device.Rinse)) yield return "the rinse is shorter than it should be";
            var asked = run.Start + Seconds(Device.After);
            if (run.Start > _end && asked > _asked && asked - _asked <= _through) yield return "doses on through a gap without water";
        }

        public void Remember(in Run run)
        {
            _asked = Math.Max(_asked, run.Dose == 0 ? run.End - Seconds(Device.Rinse) : run.Start + Seconds(Device.After) + run.Dose);
            _end = Math.Max(_end, run.End);
        }
    }
}
