using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A run of sprays or rotors that hardly fills the pipes.</summary>
internal sealed class ShortRun(LintContext context) : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("short-run", Severity.Advice, "a run that hardly fills the pipes")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            Sprays or rotors run for less than two minutes, as they do after scale and trim.
            """,
        Matters = """
            In that time the pipes have hardly filled: the heads nearest to the valve get water, the last ones do not.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; method spray }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 80 s }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; method spray }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 3 min }
            }
            """,
        KnownLimits = """
            Drip, bubblers and mist are not looked at, nor are manual schedules.
            """,
        Sources = "Common practice.",
    };

    private const int LeastSeconds = 120;

    private readonly Dictionary<(Location Step, int Zone), Found> _found = [];

    public bool Observes(Zone zone) => zone.WatersFromAbove;

    public void Visit(in Run run)
    {
        if (run.Seconds >= LeastSeconds) return;
        var key = (context.Steps.Of(run).Step.Origin, run.Zone);
        if (!_found.TryGetValue(key, out var found)) _found[key] = found = new Found(run);
        found.Counter.Add(run.Start, context);
        if (run.Seconds < found.Shortest.Seconds) found.Shortest = run;
    }

    public IEnumerable<Finding> Findings() => _found.Select(entry => Finding.At(
        Rule, entry.Key.Step, $"zone {context.Site.Zones[entry.Key.Zone].Name} runs for only {Phrases.Length(entry.Value.Shortest.Seconds)}",
            "pipes hardly fill in that time") with
    {
        Happens = entry.Value.Counter.Happens(context),
        Help = HelpFor(entry.Value.Shortest),
    });

    private string HelpFor(in Run run)
    {
        if (context.Timetable.IsPiece(run)) return "Write a longer `cycle`, or water longer, less often.";
        var (zone, scale) = (context.Site.Zones[run.Zone], context.Timetable.PercentOn(run.Schedule, run.Day));
        var step = context.Steps.Of(run).Step;
        var written = WrittenLength.AtLeast(LeastSeconds, scale, zone, step);
        return $"Water for {Phrases.Length(written)} or more{WrittenLength.Why(Phrases.Length(LeastSeconds), scale, zone, step)}, less often.";
    }

    private sealed class Found(Run run)
    {
        public OccurrenceCounter Counter { get; } = new();

        public Run Shortest { get; set; } = run;
    }
}
