using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Plants;

/// <summary>A schedule without an end that waters in months in which it freezes.</summary>
internal sealed class FrostMonths : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("frost-months", Severity.Advice, "watering in months of frost")
    {
        Category = RuleCategory.PlantsAndSoil,
        CanBeAccepted = true,
        Finds = """
            A schedule without a last day, `from D to D`, waters in a month of which the climate gives a mean minimum of 4 °C or less.
            """,
        Matters = "At such a mean minimum some nights freeze. Pipes and valves burst, and water on a path is ice in the morning. Where pipes are blown out " +
            "with compressed air, leave that to somebody who does it every year: it hurts people.",
        Fires = """
            site plot {
              timezone   Europe/Berlin
              effective  2026-03-01
            }
            climate { jan -2 C to 4 C, rain 45 mm; jul 14 C to 25 C, rain 60 mm }
            zone beds { output 1 }
            schedule morning {
              on mon
              start at 06:00
              steps { water beds for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Berlin
              effective  2026-03-01
            }
            climate { jan -2 C to 4 C, rain 45 mm; jul 14 C to 25 C, rain 60 mm }
            zone beds { output 1 }
            schedule morning {
              on mon
              from 15 apr to 15 oct
              start at 06:00
              steps { water beds for 10 min }
            }
            """,
        KnownLimits = "Months without temperatures in the climate are not looked at. What a closed season skips is not due. A watering of one pass, " +
            "outside the calendar, is left to whoever wrote it.",
        Sources = "Common practice.",
    };

    private readonly LintContext _context;
    private readonly Quantity?[] _frost;
    private readonly Dictionary<int, (OccurrenceCounter Recurrence, int Month)> _found = [];

    public FrostMonths(LintContext context)
    {
        _context = context;
        _frost = [.. Enumerable.Range(0, 12)
            .Select(month => context.Site.Climate?.Months[month]?.Coldest is { InBase: <= LeastCelsius } coldest ? coldest : (Quantity?)null)];
    }

    public bool Observes(Zone zone) => _frost.Any(coldest => coldest is not null);

    public void Visit(in Run run)
    {
        var schedule = _context.Site.Schedules[run.Schedule];
        if (schedule.IsExtra || HasEnd(schedule)) return;
        var month = CivilDate.FromDayNumber(run.Day).Month;
        if (_frost[month - 1] is null) return;
        if (!_found.TryGetValue(run.Schedule, out var found)) _found[run.Schedule] = found = (new OccurrenceCounter(), month);
        found.Recurrence.Add(run.Start, _context);
    }

    public IEnumerable<Finding> Findings() => _found.Select(entry => FindingFor(_context.Site.Schedules[entry.Key], entry.Value.Recurrence, entry.Value.Month));

    private const decimal LeastCelsius = 4;

    private static bool HasEnd(Schedule schedule) => schedule.Season is { Span: not DateRange { Last.Year: >= 9999 } };

    private Finding FindingFor(Schedule schedule, OccurrenceCounter occurrenceCounter, int month) =>
        Finding.At(Rule, schedule.Origin, $"schedule {schedule.Name} waters in {Phrases.Month(month)}, a month of frost", "has no last day") with
        {
            Others = [new Label(_context.Site.Climate!.Months[month - 1]!.Origin, $"mean minimum {_frost[month - 1]}")],
            Happens = occurrenceCounter.Happens(_context),
            Help = "Give it a season such as `from 15 apr to 15 oct`, or close the site with a `closed` line.",
        };
}
