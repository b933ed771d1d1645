using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables.Switchings;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Water;

/// <summary>A pump that starts more often than its motor bears.</summary>
internal sealed class PumpStarts : IRule, IOpeningObserver
{
    private const long Hour = 3600;

    public static Rule Rule { get; } = new("pump-starts", Severity.Warning, "more starts an hour than the motor bears")
    {
        Category = RuleCategory.Water,
        CanBeAccepted = true,
        Finds = """
            Counts the starts of a pump within any hour, and compares the number with its `at most N starts an hour`.
            """,
        Matters = """
            Each start heats the winding more than minutes of running. A motor that starts too often burns out in the season in which it is needed.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 20 L/min; pressure-tank 24 L from 2 bar to 3.5 bar }
            zone a { output 1; flow 5 L/min }
            pump lift { output 8; supply well; load 60 mA; at most 6 starts an hour }
            schedule mist {
              every day
              start at 06:00
              repeat every 8 min for 10 passes
              steps { water a for 30 s }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 20 L/min; pressure-tank 24 L from 2 bar to 3.5 bar }
            zone a { output 1; flow 5 L/min }
            pump lift { output 8; supply well; load 60 mA; at most 6 starts an hour }
            schedule mist {
              every day
              start at 06:00
              repeat every 10 min for 10 passes
              steps { water a for 30 s }
            }
            """,
        FixSafety = "Writes `bridges gaps up to` with a length, or a longer one, where the supply has a `bypass` or a `pressure-tank` with its pressures. " +
            "Unsafe: the pump runs on while no zone is open. It is tried against all rules before it is proposed.",
        KnownLimits = "Starts that a pressure switch makes by itself are not seen. No gap is bridged that is longer than the shortest time for which the " +
            "pump is on: it would run longer for nothing than for its zones.",
        Sources = "The number is that of the motor's own data sheet.",
    };

    private readonly LintContext _context;
    private readonly Starts?[] _devices;
    private readonly DeviceTimes _times;

    public PumpStarts(LintContext context)
    {
        _context = context;
        _times = new DeviceTimes(context.Site);
        _devices = [.. context.Site.Devices.Select(device => device.StartsAnHour is null && !IsMotor(device) ? null : new Starts(device))];
    }

    public bool ObservesAny => _devices.Any(device => device is not null);

    public void Visit(in Opening opening)
    {
        if (opening.Device >= 0) _devices[opening.Device]?.Add(opening, _times.Add(opening), _context);
    }

    public IEnumerable<Finding> Findings() => _devices.OfType<Starts>().Where(starts => starts.TooMuch.Happened).Select(FindingFor);

    /// <summary>A pump that starts again within an hour may do so too often, where it is not known what its motor bears.</summary>
    public IEnumerable<Gap> NotChecked() => _devices.OfType<Starts>()
        .Where(starts => starts.Device.StartsAnHour is null && starts.Most > 1)
        .Select(starts => new Gap(Concern.PumpStarts, "starts an hour", [Thing.Of(starts.Device)], "at most … starts an hour"));

    private static bool IsMotor(Device device) => device.Kind == DeviceKind.Pump && device.Output > 0;

    private Finding FindingFor(Starts starts)
    {
        var limit = starts.Device.StartsAnHour!.Value;
        var finding = Finding.At(Rule, limit.Place,
            $"pump {starts.Device.Name} starts {MomentWords.Times((long)starts.TooMuch.Worst)} an hour, its limit is {limit.Value}",
            "the limit") with
        { Excess = starts.TooMuch.Worst - limit.Value };
        if (starts.Origin is { } origin) finding = finding with { Others = [.. Again(_context.Steps.Of(origin))] };
        if (_context.Manual is { } manual) finding = finding with { Others = [new Label(manual.Origin, "one pass of this")] };
        return WithHelp(_context.Happening(finding, starts.TooMuch), starts);
    }

    /// <summary>The line that repeats the passes, where there is one; else the step.</summary>
    private static IEnumerable<Label> Again(StepPlace place) => place.Schedule.Repeat is { } repeat
        ? [new Label(repeat.Origin, $"starts it again every {Phrases.Length(repeat.Every.WholeSeconds())}")]
        : place.Labels("starts it once more");

    /// <summary>Without a bypass or a pressure tank a pump had better not run on: then it is only said what would do with one.</summary>
    private Finding WithHelp(Finding finding, Starts starts)
    {
        const string less = "Water longer and less often";
        if (Enough(starts) is not { } through) return finding with { Help = $"{less}." };
        var words = $"bridges gaps up to {Phrases.Length(through)}";
        var most = $"with which it starts no more than {MomentWords.Times(starts.Device.StartsAnHour!.Value)} an hour";
        return PumpWithoutFlow.MayRunOn(starts.Device)
            ? finding with { Help = $"Write `{words}`, {most}, or water longer and less often.", Fix = RunningOn(starts.Device, words) }
            : finding with { Help = $"{less}. Or give the supply {PumpWithoutFlow.Relief}, and write `{words}`, {most}." };
    }

    /// <summary>
    /// The least gap through which it has to stay on, in seconds, as trials show; null where none is enough, where it would run longer for nothing than
    /// for its zones, or where there are too many runs to try.
    /// </summary>
    private long? Enough(Starts starts)
    {
        var gaps = starts.Gaps.ToArray();
        if (gaps.Length == 0 || Clears(starts.Device, gaps[^1]) is not true) return null;
        return Bisection.First(0, gaps.Length - 1, index => Clears(starts.Device, gaps[index])) is { } least && gaps[least] <= starts.ShortestOn
            ? gaps[least]
            : null;
    }

    private bool? Clears(Device device, long through)
    {
        var site = _context.Site
            with
        {
            Devices = _context.Site.Devices.SetItem(
            device.Index, device with { WrittenBridges = new(NodaTime.Duration.FromSeconds(through), device.StartsAnHour!.Value.Place) })
        };
        return Trial.Of(_context, site, trial => new PumpStarts(trial)) is { } tried ? !tried._devices[device.Index]!.TooMuch.Happened : null;
    }

    private static Fix RunningOn(Device device, string words) => device.WrittenBridges?.Place is { } line
        ? Fix.Unsafe($"write {words}", line, words)
        : WrittenLine.Before(device.StartsAnHour!.Value.Place, words);

    /// <summary>The starts of a device.</summary>
    private sealed class Starts(Device device)
    {
        private const long Minute = 60;

        /// <summary>Seconds by which a gap between its zones is longer than one between its openings.</summary>
        private readonly long _between = (device.StopsAfter - device.StartsAfter).WholeSeconds();
        private readonly Queue<long> _lastHour = new();
        private long? _end;
        private bool _isOver;

        public Device Device { get; } = device;

        /// <summary>The gaps of under an hour between the zones that it serves, in seconds, rounded up to the minute, each once.</summary>
        public SortedSet<long> Gaps { get; } = [];

        /// <summary>Who asks for the start that is one too many, the first time; null where no output is switched for it.</summary>
        public StepOrigin? Origin { get; private set; }

        /// <summary>The most starts in any hour.</summary>
        public int Most { get; private set; }

        /// <summary>The shortest time that it is on, in seconds.</summary>
        public long ShortestOn { get; private set; } = long.MaxValue;

        /// <summary>When it begins to be too much; the worst is the most starts in an hour.</summary>
        public OccurrenceCounter TooMuch { get; } = new();

        public void Add(in Opening opening, in (long From, long To, bool IsStart) on, LintContext context)
        {
            if (!on.IsStart)
            {
                _end = on.To;
                return;
            }

            var start = opening.From;
            if (start - _end + _between is > 0 and < Hour and var gap) Gaps.Add((gap + Minute - 1) / Minute * Minute);
            _end = opening.To;
            ShortestOn = Math.Min(ShortestOn, opening.To - opening.From);
            _lastHour.Enqueue(start);
            while (_lastHour.Peek() <= start - Hour) _lastHour.Dequeue();
            Most = Math.Max(Most, _lastHour.Count);
            TooMuch.Reach(_lastHour.Count);
            var wasOver = _isOver;
            _isOver = _lastHour.Count > (Device.StartsAnHour?.Value ?? int.MaxValue);
            if (_isOver && !wasOver && TooMuch.Add(start, context) && opening.Output > 0) Origin = context.Origins.Of(opening.Number);
        }
    }
}
