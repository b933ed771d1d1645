using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>A pump that starts more often than its motor bears.</summary>
internal sealed class MotorStarts : ISeesOpenings
{
    private const long Hour = 3600;

    public static Rule Rule { get; } = new("motor-starts", Severity.Warning, "more starts an hour than the motor bears")
    {
        CanBeAccepted = true,
        Finds = """
            Counts the starts of a pump within any hour, and holds the number against its `at most N starts an hour`.
            """,
        Matters = """
            Each start heats the winding more than minutes of running. A motor that starts too often burns out in the season in which it is needed.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 20 L/min }
            zone a { output 1; flow 5 L/min }
            pump lift { output 8; supply well; load 60 mA; at most 6 starts an hour }
            schedule mist {
              every day
              start at 06:00
              repeat every 8 min for 10 passes
              steps { water a for 30 s }
            }
            """,
        Mended = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply well { flow 20 L/min }
            zone a { output 1; flow 5 L/min }
            pump lift { output 8; supply well; load 60 mA; at most 6 starts an hour }
            schedule mist {
              every day
              start at 06:00
              repeat every 10 min for 10 passes
              steps { water a for 30 s }
            }
            """,
        KnownLimits = "Starts that a pressure switch makes by itself are not seen.",
        Sources = "The number is that of the motor's own data sheet.",
    };

    private readonly Survey _survey;
    private readonly Starts?[] _devices;

    public MotorStarts(Survey survey)
    {
        _survey = survey;
        _devices = [.. survey.Site.Devices.Select(device => device.StartsAnHour is null ? null : new Starts(device))];
    }

    public bool WantsAny => _devices.Any(device => device is not null);

    public void See(in Opening opening)
    {
        if (opening.Device >= 0) _devices[opening.Device]?.Add(opening.From, _survey);
    }

    public IEnumerable<Finding> Findings() => _devices.OfType<Starts>().Where(starts => starts.Times > 0).Select(FindingFor);

    private Finding FindingFor(Starts starts)
    {
        var finding = Finding.At(Rule, starts.Device.PlaceOf(Schema.Device.AtMost), $"{starts.Device.DisplayName} starts too often", $"at most {Wording.Count(starts.Device.StartsAnHour!.Value, "start")} an hour, has {starts.Worst}");
        if (_survey.Manual is { } manual) finding = finding with { Others = [new Label(manual.Origin, "one pass of this")] };
        return _survey.Happening(finding, starts.First, starts.Last, starts.Times, starts.Days) with
        {
            WayOut = "Water longer and less often, or let it run on with `stays-on-through` where it has a bypass or a vessel.",
        };
    }

    /// <summary>The starts of a device.</summary>
    private sealed class Starts(Device device)
    {
        private readonly Queue<long> _lastHour = new();
        private bool _isOver;
        private int _day = int.MinValue;

        public Device Device { get; } = device;

        public int Worst { get; private set; }

        public long First { get; private set; }

        public long Last { get; private set; }

        /// <summary>How often it begins to be too much.</summary>
        public long Times { get; private set; }

        public long Days { get; private set; }

        public void Add(long start, Survey survey)
        {
            _lastHour.Enqueue(start);
            while (_lastHour.Peek() <= start - Hour) _lastHour.Dequeue();
            Worst = Math.Max(Worst, _lastHour.Count);
            var wasOver = _isOver;
            _isOver = _lastHour.Count > Device.StartsAnHour;
            if (wasOver || !_isOver) return;
            if (Times++ == 0) First = start;
            Last = start;
            var day = survey.DayOf(start);
            if (day != _day) Days++;
            _day = day;
        }
    }
}
