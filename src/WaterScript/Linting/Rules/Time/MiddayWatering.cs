using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Linting.Rules.Time;

/// <summary>Sprays or rotors around noon in the light months.</summary>
internal sealed class MiddayWatering(LintContext context) : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("midday-watering", Severity.Advice, "sprays or rotors in the heat of the day")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            Sprays or rotors run between 10:00 and 16:00 in a month with more than 12 h of daylight.
            """,
        Matters = """
            Sun and wind then take a large share of the water before it reaches the roots, and many local rules forbid it.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              location   39.6 N 8.1 W
              effective  2026-03-01
            }
            zone lawn { output 1; method rotor }
            schedule noon {
              every day
              from 1 may to 31 aug
              start at 11:30
              steps { water lawn for 20 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              location   39.6 N 8.1 W
              effective  2026-03-01
            }
            zone lawn { output 1; method rotor }
            schedule noon {
              every day
              from 1 may to 31 aug
              start at 05:00
              steps { water lawn for 20 min }
            }
            """,
        KnownLimits = "Drip, bubblers and mist are not looked at, nor manual schedules, nor sites without a location.",
        Sources = "Common practice; hours as in local bans on watering by day, for instance Florida Administrative Code 40D-22.201.",
    };

    private const int First = 10 * 3_600;
    private const int Last = 16 * 3_600;
    private const int LightHours = 12;

    private readonly Daylight? _daylight = Daylight.Of(context);
    private readonly Dictionary<(Location Start, int Schedule), OccurrenceCounter> _found = [];

    public bool Observes(Zone zone) => _daylight is not null && zone.WatersFromAbove;

    public void Visit(in Run run)
    {
        var start = context.WallClock.At(run.Start);
        var end = start.SecondOfDay + run.Seconds;
        if (start.SecondOfDay >= Last || end <= First || !_daylight!.IsInMonthLighterThan(start.Day, LightHours)) return;
        var key = (context.StartOf(run), run.Schedule);
        if (!_found.TryGetValue(key, out var found)) _found[key] = found = new OccurrenceCounter();
        found.Add(run.Start, start.Day);
    }

    public IEnumerable<Finding> Findings() => _found.Select(entry =>
        Finding.At(Rule, entry.Key.Start, $"schedule {context.Site.Schedules[entry.Key.Schedule].Name} sprays in the heat of the day",
            "waters between 10:00 and 16:00") with
        {
            Happens = entry.Value.Happens(context),
            Help = "Water before sunrise or after sunset, or accept it with the reason.",
        });

    public IEnumerable<Gap> NotChecked() =>
        Daylight.IsLackingAt(context.Site) ? [new Gap(Concern.Daylight, "watering in the heat of the day", [], "location")] : [];
}
