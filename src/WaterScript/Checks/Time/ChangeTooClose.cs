using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Waterings of two passes that leave a supply less than its gap.</summary>
internal sealed class ChangeTooClose : ISeesRuns
{
    public static Rule Rule { get; } = new("change-too-close", Severity.Warning, "two waterings of a supply closer than its gap")
    {
        CanBeAccepted = true,
        Finds = """
            A supply has a `change gap`, and a pass begins to water from it sooner than that after another pass has stopped. Inside a pass the
            gap is part of the plan; between passes nothing is shifted.
            """,
        Matters = """
            The gap is there for something: a valve that closes slowly, a pump that has to come to rest, a pressure that has to settle. Without
            it both valves are open for a moment, or the pump starts against its own pressure.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { change gap 5 s }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 10 min }
            }
            schedule weekend {
              on sat
              start at 06:10
              steps { water lawn for 10 min }
            }
            """,
        Mended = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            supply tap { change gap 5 s }
            zone beds { output 1 }
            zone lawn { output 2 }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 10 min }
            }
            schedule weekend {
              on sat
              start at 06:11
              steps { water lawn for 10 min }
            }
            """,
        KnownLimits = """
            Waterings that overlap are no change-over and are not looked at here. Nor is a zone that runs on from one pass to the next without
            a break: its valve stays open. Where a line makes passes of one schedule overlap, `pass-overlap` says so and this rule says nothing more of it.
            """,
    };

    private readonly Survey _survey;
    private readonly List<Run>?[] _lately;
    private readonly Dictionary<(Location Earlier, Location Later, int Supply), Close> _close = [];

    public ChangeTooClose(Survey survey)
    {
        _survey = survey;
        _lately = [.. survey.Site.Supplies.Select(supply => supply.Change is { IsOverlap: false } ? new List<Run>() : null)];
    }

    public bool Wants(Zone zone) => zone.Supply is { } supply && _lately[supply.Index] is not null;

    public void See(in Run run)
    {
        var supply = _survey.Site.Zones[run.Zone].Supply!;
        var lately = _lately[supply.Index]!;
        var gap = GapOf(supply);
        var kept = 0;
        for (var i = 0; i < lately.Count; i++)
        {
            if (lately[i].End + gap <= run.Start) continue;
            if (IsTooClose(lately[i], run)) Add(lately[i], run, supply);
            lately[kept++] = lately[i];
        }

        lately.RemoveRange(kept, lately.Count - kept);
        lately.Add(run);
    }

    public IEnumerable<Finding> Findings() => _close
        .Where(entry => !IsTold(entry.Key.Later, entry.Value))
        .Select(entry => FindingFor(entry.Key.Later, _survey.Site.Supplies[entry.Key.Supply], entry.Value));

    /// <summary>Whether `pass-overlap` says of the same line that a pass begins too soon after another one of its schedule.</summary>
    private bool IsTold(Location cause, Close close) =>
        close.Earlier.Schedule == close.Later.Schedule && _survey.PassMeetings.Has(close.Later.Schedule, cause);

    private static bool IsTooClose(in Run earlier, in Run later) =>
        earlier.End <= later.Start && !later.IsInPassOf(earlier) && (earlier.Zone != later.Zone || earlier.End < later.Start);

    private static long GapOf(Supply supply) => supply.Change!.Length.WholeSeconds();

    private void Add(in Run earlier, in Run later, Supply supply)
    {
        var key = (CauseOf(earlier, earlier), CauseOf(earlier, later), supply.Index);
        if (!_close.TryGetValue(key, out var close)) _close[key] = close = new Close(earlier, later);
        close.Add(earlier, later, _survey);
    }

    /// <summary>The line that a run comes from: the repeat where both are of one start of a date, else the start.</summary>
    private Location CauseOf(in Run earlier, in Run later) =>
        earlier.Number != later.Number && IsRepeat(earlier, later) ? _survey.Site.Schedules[later.Schedule].Repeat!.Origin : _survey.StartOf(later);

    private bool IsRepeat(in Run earlier, in Run later) =>
        earlier.Schedule == later.Schedule && earlier.Day == later.Day && earlier.StartNumber == later.StartNumber && _survey.Site.Schedules[later.Schedule].Repeat is not null;

    private Finding FindingFor(Location cause, Supply supply, Close close)
    {
        var (earlier, later) = (close.Earlier, close.Later);
        var gap = GapOf(supply);
        var between = later.Start - earlier.End;
        var start = _survey.StartOf(earlier);
        var before = $"waters {ZoneOf(earlier).Name} until {_survey.Time(earlier.End)}";
        var wish = new Label(supply.Change!.Origin, $"wants {Wording.Length(gap)}");
        var heading = between == 0
            ? $"no gap between two waterings from {supply.Name}"
            : $"only {Wording.Length(between)} between two waterings from {supply.Name}";
        return Finding.At(Rule, cause, heading, $"waters {ZoneOf(later).Name} from {_survey.Time(later.Start)}") with
        {
            Others = start == cause ? [wish] : [new Label(start, before), wish],
            Details = start == cause ? $"The one before {before}." : "",
            Happens = close.Recurrence.Happens(_survey),
            WayOut = $"Start the later one {Wording.Length(gap - close.Shortest)} later or more, or shorten the one before.",
        };
    }

    private Zone ZoneOf(in Run run) => _survey.Site.Zones[run.Zone];

    private sealed class Close(Run earlier, Run later)
    {
        private long _moment = long.MinValue;

        public Run Earlier { get; } = earlier;

        public Run Later { get; } = later;

        public Recurrence Recurrence { get; } = new();

        /// <summary>The least that ever lies between, in seconds.</summary>
        public long Shortest { get; private set; } = long.MaxValue;

        /// <summary>Zones that open together are one time.</summary>
        public void Add(in Run earlier, in Run later, Survey survey)
        {
            Shortest = Math.Min(Shortest, later.Start - earlier.End);
            if (later.Start == _moment) return;
            _moment = later.Start;
            Recurrence.Add(later.Start, survey);
        }
    }
}
