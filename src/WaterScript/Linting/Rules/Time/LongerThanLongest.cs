using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A run longer than its zone is meant to have.</summary>
internal sealed class LongerThanLongest(LintContext context) : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("longer-than-longest", Severity.Warning, "a run longer than its zone is meant to have")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A run lasts longer than the `longest` of its zone, as it is after scale and trim.
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

    private readonly Dictionary<(Location Step, int Zone), OccurrenceCounter> _found = [];

    public bool Observes(Zone zone) => zone.Longest is { } longest && context.Plans.LongestOf(zone) > longest.WholeSeconds();

    public void Visit(in Run run)
    {
        if (run.Seconds <= context.Site.Zones[run.Zone].Longest!.Value.WholeSeconds()) return;
        var key = (context.Steps.Of(run).Step.Origin, run.Zone);
        if (!_found.TryGetValue(key, out var found)) _found[key] = found = new OccurrenceCounter();
        found.Add(run.Start, context);
        found.Reach(run.Seconds);
    }

    public IEnumerable<Finding> Findings() => _found.Select(entry => FindingFor(entry.Key.Step, entry.Key.Zone, entry.Value));

    private Finding FindingFor(Location step, int index, OccurrenceCounter found)
    {
        var zone = context.Site.Zones[index];
        var longest = Phrases.Length(zone.Longest!.Value.WholeSeconds());
        return Finding.At(Rule, step, $"zone {zone.Name} runs for {Phrases.Length((long)found.Worst)}, its longest is {longest}", "the longest run") with
        {
            Others = [new Label(zone.Longest!.Value.Place, "the limit")],
            Happens = found.Happens(context),
            Help = $"Water it for {longest} at a time, or change its `longest`.",
        };
    }
}
