using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A zone that is open for longer than it is meant to be.</summary>
internal sealed class LongerThanLongest(LintContext context) : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("longer-than-longest", Severity.Warning, "a run longer than its zone is meant to have")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A zone is open for longer than its `longest`, as it is after scale and trim. Runs that touch are one opening, whichever steps or schedules
            they are of.
            """,
        Matters = """
            `longest` is there because more does harm: it runs off, drowns roots, or empties a tank.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; longest 15 min }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 20 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; longest 15 min }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 15 min }
            }
            """,
    };

    private readonly Dictionary<int, Opened> _open = [];
    private readonly Dictionary<(Location Step, int Zone), Found> _found = [];

    public bool Observes(Zone zone) => zone.Longest is not null;

    public void Visit(in Run run)
    {
        if (_open.TryGetValue(run.Zone, out var opened) && opened.Touches(run))
        {
            opened.Add(run);
            return;
        }

        if (opened is not null) Judge(opened);
        _open[run.Zone] = new Opened(run);
    }

    public IEnumerable<Finding> Findings()
    {
        foreach (var opened in _open.Values) Judge(opened);
        _open.Clear();
        return _found.Select(entry => FindingFor(entry.Key.Step, entry.Key.Zone, entry.Value));
    }

    private void Judge(Opened opened)
    {
        var first = opened.First;
        if (opened.Seconds <= context.Site.Zones[first.Zone].Longest!.Value.WholeSeconds()) return;
        var key = (context.Steps.Of(first).Step.Origin, first.Zone);
        if (!_found.TryGetValue(key, out var found)) _found[key] = found = new Found(opened);
        found.Counter.Add(first.Start, context);
        if (found.Counter.Reach(opened.Seconds)) found.Worst = opened;
    }

    private Finding FindingFor(Location step, int index, Found found)
    {
        var zone = context.Site.Zones[index];
        var longest = Phrases.Length(zone.Longest!.Value.WholeSeconds());
        var length = Phrases.Length((long)found.Counter.Worst);
        var isOne = found.Worst.Runs == 1;
        return Finding.At(Rule, step, $"zone {zone.Name} {(isOne ? "runs" : "is open")} for {length}, its longest is {longest}",
            isOne ? "the longest run" : "opens it") with
        {
            Others = [.. Last(step, found.Worst), new Label(zone.Longest!.Value.Place, "the limit")],
            Details = isOne ? "" : $"{found.Worst.Runs} runs that touch are one opening of {length}.",
            Happens = found.Counter.Happens(context),
            Excess = found.Counter.Worst - zone.Longest!.Value.WholeSeconds(),
            Help = isOne ? HelpFor(zone, found.Worst.First)
                : $"Leave a pause between its runs after {longest} at most, or change its `longest`.",
        };
    }

    private string HelpFor(Zone zone, in Run run)
    {
        var (longest, scale) = (zone.Longest!.Value.WholeSeconds(), context.Timetable.PercentOn(run.Schedule, run.Day));
        var step = context.Steps.Of(run).Step;
        return $"Water it for {Phrases.Length(WrittenLength.AtMost(longest, scale, zone, step))} at a time" +
            $"{WrittenLength.Why(Phrases.Length(longest), scale, zone, step)}, or change its `longest`.";
    }

    /// <summary>The step that keeps it open to the end, where it is another.</summary>
    private Label[] Last(Location step, Opened opened) => context.Steps.Of(opened.Last).Step.Origin is var last && last != step
        ? [new Label(last, "keeps it open")]
        : [];

    /// <summary>Openings that a step begins and that last too long.</summary>
    private sealed class Found(Opened worst)
    {
        public OccurrenceCounter Counter { get; } = new();

        public Opened Worst { get; set; } = worst;
    }

    /// <summary>Runs of one zone between which its valve does not close.</summary>
    private sealed class Opened(Run first)
    {
        private long _end = first.End;
        private long _closes = first.End + first.Overlap;

        public Run First { get; } = first;

        public Run Last { get; private set; } = first;

        public int Runs { get; private set; } = 1;

        /// <summary>How long it is open, without the overlap at its end.</summary>
        public long Seconds => _end - First.Start;

        public bool Touches(in Run run) => run.Start <= _closes;

        public void Add(in Run run)
        {
            Runs++;
            if (run.End > _end) Last = run;
            _end = Math.Max(_end, run.End);
            _closes = Math.Max(_closes, run.End + run.Overlap);
        }
    }
}
