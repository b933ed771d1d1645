using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A zone that opens again before it has rested.</summary>
internal sealed class RestTooShort(LintContext context) : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("rest-too-short", Severity.Warning, "a zone that opens again before it has rested")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A zone opens again sooner after closing than its `rest`. Runs that touch are one opening and need no rest between them.
            """,
        Matters = """
            The rest is there for the soil to take the water in, or for a valve that must not be switched too often.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; rest 30 min }
            schedule morning {
              every day
              start at 06:00, 06:20
              steps { water beds for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; rest 30 min }
            schedule morning {
              every day
              start at 06:00, 06:40
              steps { water beds for 10 min }
            }
            """,
        FixSafety = "Moves the later start, or lengthens the repeat interval. Unsafe: the watering comes later.",
    };

    private readonly (Run Run, long Closes)[] _last = new (Run, long)[context.Site.Zones.Length];
    private readonly Dictionary<(int Zone, int First, int Second), Found> _found = [];

    public bool Observes(Zone zone) => zone.Rest is not null;

    public void Visit(in Run run)
    {
        ref var last = ref _last[run.Zone];
        var closes = run.End + run.Overlap;
        var pause = run.Start - last.Closes;
        if (last.Run.Number > 0 && pause > 0 && pause < context.Site.Zones[run.Zone].Rest!.Value.WholeSeconds()) Add(last.Run, run, pause);
        if (last.Run.Number == 0 || closes >= last.Closes) last = (run, closes);
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
        var rest = zone.Rest!.Value.WholeSeconds();
        var place = found.Run.IsInPassOf(found.Before) ? context.Steps.Of(found.Run).Step.Origin : context.StartOf(found.Run);
        return Finding.At(Rule, place, $"zone {zone.Name} rests for {Phrases.Length(found.Shortest)}, needs {Phrases.Length(rest)}",
            $"opens again at {context.Time(found.Run.Start)}") with
        {
            Others = [new Label(zone.Rest!.Value.Place, "the least rest")],
            Happens = found.OccurrenceCounter.Happens(context),
            Details = $"The first time it closed at {context.Time(found.Before.End + found.Before.Overlap)}.",
            Excess = rest - found.Shortest,
            Help = $"Start it {Phrases.Length(rest - found.Shortest)} later.",
            Fix = FixFor(found, rest - found.Shortest),
        };
    }

    private Fix? FixFor(Found found, long seconds)
    {
        var (before, run) = (found.Before, found.Run);
        var schedule = context.Site.Schedules[run.Schedule];
        if (before.Schedule != run.Schedule) return MovedStart.OfOnly(schedule, seconds)?.Fix;
        if (before.StartNumber != run.StartNumber) return MovedStart.Of(schedule, run.StartNumber, seconds)?.Fix;
        return before.Day == run.Day && before.Pass != run.Pass && schedule.Repeat is { } repeat ? LongerRepeat.By(repeat, seconds) : null;
    }

    private sealed class Found(Run before, Run run)
    {
        public Run Before { get; } = before;

        public Run Run { get; } = run;

        public OccurrenceCounter OccurrenceCounter { get; } = new();

        public long Shortest { get; set; } = long.MaxValue;
    }
}
