using WaterScript.Binding;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>A run longer than its zone is meant to have.</summary>
internal sealed class LongerThanLongest(Survey survey) : ISeesRuns
{
    public static Rule Rule { get; } = new("longer-than-longest", Severity.Warning, "a run longer than its zone is meant to have")
    {
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
        Mended = """
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

    private readonly Dictionary<(Location Step, int Zone), Found> _found = [];

    public bool Wants(Zone zone) => zone.Longest is { } longest && survey.Plans.LongestOf(zone) > longest.WholeSeconds();

    public void See(in Run run)
    {
        if (run.Seconds <= survey.Site.Zones[run.Zone].Longest!.Value.WholeSeconds()) return;
        var key = (survey.Steps.Of(run).Step.Origin, run.Zone);
        if (!_found.TryGetValue(key, out var found)) _found[key] = found = new Found();
        found.Recurrence.Add(run.Start, survey);
        found.Longest = Math.Max(found.Longest, run.Seconds);
    }

    public IEnumerable<Finding> Findings() => _found.Select(entry => FindingFor(entry.Key.Step, entry.Key.Zone, entry.Value));

    private Finding FindingFor(Location step, int index, Found found)
    {
        var zone = survey.Site.Zones[index];
        var longest = Wording.Length(zone.Longest!.Value.WholeSeconds());
        return Finding.At(Rule, step, $"{zone.Name} runs longer than its longest", $"up to {Wording.Length(found.Longest)}") with
        {
            Others = [new Label(zone.PlaceOf(Schema.Zone.Longest), $"at most {longest}")],
            Happens = found.Recurrence.Happens(survey),
            WayOut = $"Water it for {longest} at a time, or change its `longest`.",
        };
    }

    private sealed class Found
    {
        public Recurrence Recurrence { get; } = new();

        public long Longest { get; set; }
    }
}
