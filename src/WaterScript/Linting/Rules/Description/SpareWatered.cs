using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Description;

/// <summary>A zone that is not in use, and is watered.</summary>
internal sealed class SpareWatered(LintContext context) : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("spare-watered", Severity.Error, "a spare zone that is watered")
    {
        Category = RuleCategory.Reading,
        CanBeAccepted = true,
        Finds = """
            A step waters a zone that is `spare`: wired, but not in use.
            """,
        Matters = """
            Behind a spare valve the pipe is often open or not laid at all. And a spare zone is left out of what is said to be unchecked, so that nobody
            notices that its flow or its current is not known.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone bank { output 2; spare }
            schedule morning {
              every day
              start at 06:00
              steps { water beds, bank for 14 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1 }
            zone bank { output 2; spare }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 14 min }
            }
            """,
        KnownLimits = "`all` leaves spare zones out by itself; so only what names one is found.",
    };

    private readonly Dictionary<(Location Step, int Zone), (OccurrenceCounter Counter, Run First)> _found = [];

    public bool Observes(Zone zone) => zone.IsSpare;

    public void Visit(in Run run)
    {
        var key = (context.Steps.Of(run).Step.Origin, run.Zone);
        if (!_found.TryGetValue(key, out var found)) _found[key] = found = (new OccurrenceCounter(), run);
        found.Counter.Add(run.Start, context);
        found.Counter.Reach(run.Seconds);
    }

    public IEnumerable<Finding> Findings() => _found.Values.Select(found => FindingFor(found.Counter, found.First));

    private Finding FindingFor(OccurrenceCounter counter, Run first)
    {
        var zone = context.Site.Zones[first.Zone];
        var labels = context.Steps.Of(first).Labels("waters it").ToArray();
        var finding = new Finding(Rule, $"zone {zone.Name} is spare, and is watered for {Phrases.Length((long)counter.Worst)}", labels[0]) with
        {
            Others = [.. labels[1..], new Label(zone.Origin, "is not in use")],
            Help = $"Delete `spare` once zone {zone.Name} is in use, or take the zone out of the step.",
        };
        return context.Happening(finding, counter);
    }
}
