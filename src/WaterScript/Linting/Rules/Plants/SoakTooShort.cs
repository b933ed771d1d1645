using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Plants;

/// <summary>A zone that is watered again while it still soaks from a cycle elsewhere.</summary>
internal sealed class SoakTooShort(LintContext context) : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("soak-too-short", Severity.Warning, "a zone watered again before it has soaked")
    {
        Category = RuleCategory.PlantsAndSoil,
        CanBeAccepted = true,
        Finds = """
            After a piece of a `cycle` a zone is watered again sooner than its soak, by another step, another pass or another schedule.
            """,
        Matters = "Within one cycle the soak is always kept. But passes are never moved because of one another: where two of them come close, the second " +
            "brings water while the first still stands.",
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone bank { output 1 }
            schedule morning {
              every day
              start at 06:00
              steps { cycle 6 min soak 30 min { water bank for 12 min } }
            }
            schedule again {
              on mon
              start at 07:00
              steps { water bank for 5 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone bank { output 1 }
            schedule morning {
              every day
              start at 06:00
              steps { cycle 6 min soak 30 min { water bank for 12 min } }
            }
            schedule again {
              on mon
              start at 07:30
              steps { water bank for 5 min }
            }
            """,
        KnownLimits = """
            Two runs that meet are for `zone-twice`. Manual schedules are not looked at.
            """,
    };

    private readonly Run[] _last = new Run[context.Site.Zones.Length];
    private readonly Dictionary<(int Zone, int First, int Second), Found> _found = [];

    public bool Observes(Zone zone) => context.Plans.Soaks(zone);

    public void Visit(in Run run)
    {
        ref var last = ref _last[run.Zone];
        var pause = run.Start - last.End;
        if (pause >= 0 && pause < last.Soak) Add(last, run, pause);
        if (run.End + run.Soak >= last.End + last.Soak) last = run;
    }

    public IEnumerable<Finding> Findings() => _found.Values.Select(FindingFor);

    private void Add(in Run before, in Run run, long pause)
    {
        var key = (run.Zone, before.Schedule, run.Schedule);
        if (!_found.TryGetValue(key, out var found)) _found[key] = found = new Found(before, run);
        found.OccurrenceCounter.Add(run.Start, context);
        found.Shortest = Math.Min(found.Shortest, pause);
    }

    private Finding FindingFor(Found found)
    {
        var zone = context.Site.Zones[found.Run.Zone];
        var labels = context.Steps.Of(found.Run).Labels("begins too soon").ToArray();
        return new Finding(Rule, $"zone {zone.Name} soaks for {Phrases.Length(found.Shortest)}, needs {Phrases.Length(found.Before.Soak)}", labels[0])
        {
            Others = [.. labels[1..], .. context.Steps.Of(found.Before).Labels($"needs to soak for {Phrases.Length(found.Before.Soak)}").Take(1)],
            Happens = found.OccurrenceCounter.Happens(context),
            Excess = found.Before.Soak - found.Shortest,
            Help = $"Start it {Phrases.Length(found.Before.Soak - found.Shortest)} later.",
        };
    }

    private sealed class Found(Run before, Run run)
    {
        public Run Before { get; } = before;

        public Run Run { get; } = run;

        public OccurrenceCounter OccurrenceCounter { get; } = new();

        public long Shortest { get; set; } = long.MaxValue;
    }
}
