using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Description;

/// <summary>A quantity so far from what is usual that another unit was probably meant.</summary>
internal sealed class UnlikelyValue(LintContext context) : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("unlikely-value", Severity.Advice, "a quantity that looks as if another unit was meant")
    {
        Category = RuleCategory.Reading,
        CanBeAccepted = true,
        Finds = """
            Sprays or rotors that run for over 3 h, or anything for over 12 h, in a zone without `longest`; a pulse of a second or more; an
            area of less than a hundredth of what the zones of the site mostly have; drip emitters of more than 60 L/h each; an evapotranspiration of more
            than 15 mm a day; more sunshine than the days of the month have; a soil that holds more than 600 mm/m.
            """,
        Matters = """
            h for min, s for ms, m2 for ft2 or ha: the file reads well and the water runs for hours, or a coil burns.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; method spray }
            schedule morning {
              every day
              start at 00:30
              steps { water beds for 8 h }
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
              start at 00:30
              steps { water beds for 8 min }
            }
            """,
        KnownLimits = """
            Areas are compared where at least three other zones have one. Where the quantity is right, `longest` says so of run times, an `accept` of the rest.
            """,
        Sources = "Common practice; of climate and soil FAO Irrigation and Drainage Paper 56, 1998, tables 2 and 19, eq. 34.",
    };

    private const long LongestOverhead = 3 * 3_600;
    private const long LongestOfAny = 12 * 3_600;
    private static readonly Duration LongestPulse = Duration.FromSeconds(1);
    private const int FewestAreas = 3;
    private const decimal LeastShareOfArea = 0.01m;

    private readonly Dictionary<(Location Step, int Zone), OccurrenceCounter> _long = [];

    public bool Observes(Zone zone) => zone.Longest is null && context.Plans.LongestOf(zone) > UsualOf(zone);

    public void Visit(in Run run)
    {
        if (run.Seconds <= UsualOf(context.Site.Zones[run.Zone])) return;
        var key = (context.Steps.Of(run).Step.Origin, run.Zone);
        if (!_long.TryGetValue(key, out var found)) _long[key] = found = new OccurrenceCounter();
        found.Add(run.Start, context);
        found.Reach(run.Seconds);
    }

    public IEnumerable<Finding> Findings() => [.. LongRuns(), .. LongPulses(), .. SmallAreas(), .. UnlikelyAmounts.Of(context.Site)];

    private static long UsualOf(Zone zone) => zone.WatersFromAbove ? LongestOverhead : LongestOfAny;

    private IEnumerable<Finding> LongRuns() => _long.Select(entry =>
    {
        var zone = context.Site.Zones[entry.Key.Zone];
        return Finding.At(Rule, entry.Key.Step, $"zone {zone.Name} runs for {Phrases.Length((long)entry.Value.Worst)}", "is another unit meant?") with
        {
            Happens = entry.Value.Happens(context),
            Help = $"Write the time that is meant; if it is this one, write `longest {Phrases.Length((long)entry.Value.Worst)}` in the zone.",
        };
    });

    private IEnumerable<Finding> LongPulses() => context.Site.Valves.OfType<LatchingValve>()
        .Where(valve => valve.Pulse?.Value >= LongestPulse)
        .Select(valve => Finding.At(Rule, valve.Pulse!.Value.Place,
            $"the pulse of valve {valve.Name} lasts {Phrases.Length(valve.Pulse!.Value.WholeSeconds())} or more", "is another unit meant?") with
        {
            Details = "Pulses last some tens of milliseconds; a coil that is not made for more may burn.",
            Help = "Write it in ms, such as `pulse 50 ms`.",
        });

    private IEnumerable<Finding> SmallAreas()
    {
        var areas = context.Site.Zones.Where(zone => zone.Area is not null).OrderBy(zone => zone.Area!.Value.InBase).ToArray();
        if (areas.Length <= FewestAreas) yield break;
        var middle = areas[areas.Length / 2];
        foreach (var zone in areas.Where(zone => zone.Area!.Value.InBase < middle.Area!.Value.InBase * LeastShareOfArea))
        {
            yield return Finding.At(Rule, zone.Area!.Value.Place, $"zone {zone.Name} has only {zone.Area}",
                "less than a hundredth of what most zones have") with
            {
                Others = [new Label(middle.Area!.Value.Place, $"has {middle.Area}")],
                Help = "Write the area in the unit that is meant.",
            };
        }
    }
}
