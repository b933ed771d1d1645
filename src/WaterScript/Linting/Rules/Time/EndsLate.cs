using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>Watering from above that goes on into the morning.</summary>
internal sealed class EndsLate(LintContext context) : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("ends-late", Severity.Advice, "watering from above that ends late in the morning")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            Sprays or rotors that begin before 10:00 end more than two hours after sunrise.
            """,
        Matters = """
            The wind rises and the sun takes its share; and leaves that stay wet from the night into the day fall ill more easily.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              location   39.6 N 8.1 W
              effective  2026-03-01
            }
            zone lawn { output 1; method rotor }
            schedule morning {
              every day
              from 1 jun to 31 jul
              start at 07:30
              steps { water lawn for 45 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              location   39.6 N 8.1 W
              effective  2026-03-01
            }
            zone lawn { output 1; method rotor }
            schedule morning {
              every day
              from 1 jun to 31 jul
              finish by sunrise + 1 h
              steps { water lawn for 45 min }
            }
            """,
        KnownLimits = "Drip, bubblers and mist are not looked at, nor manual schedules, nor sites without a location. What begins at 10:00 or later is " +
            "the matter of `midday-watering`.",
        Sources = "Common practice.",
    };

    private const int Latest = 2 * 3_600;
    private const int Morning = 10 * 3_600;

    private readonly Daylight? _daylight = Daylight.Of(context);
    private readonly Dictionary<(Location Start, int Schedule), OccurrenceCounter> _found = [];

    public bool Observes(Zone zone) => _daylight is not null && zone.WatersFromAbove;

    public void Visit(in Run run)
    {
        var day = context.DayOf(run.End);
        if (_daylight!.Sunrise(day) is not { } sunrise || run.End <= sunrise + Latest || run.Start >= context.WallClock.Read(day, Morning).Instant) return;
        var key = (context.StartOf(run), run.Schedule);
        if (!_found.TryGetValue(key, out var late)) _found[key] = late = new OccurrenceCounter();
        late.Add(run.End, day);
        late.Reach(run.End - sunrise);
    }

    public IEnumerable<Finding> Findings() => _found.Select(entry =>
        Finding.At(Rule, entry.Key.Start, $"schedule {context.Site.Schedules[entry.Key.Schedule].Name} waters late into the morning",
            $"ends up to {Phrases.Length((long)entry.Value.Worst / 60 * 60)} after sunrise") with
        {
            Happens = entry.Value.Happens(context),
            Help = "Start earlier, or write `finish by sunrise + 1 h`.",
        });

    public IEnumerable<Gap> NotChecked() =>
        Daylight.IsLackingAt(context.Site) ? [new Gap(Concern.Daylight, "watering late in the morning", [], "location")] : [];
}
