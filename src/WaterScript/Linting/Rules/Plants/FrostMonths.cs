using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Plants;

/// <summary>A schedule that waters in months in which it freezes.</summary>
internal sealed class FrostMonths : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("frost-months", Severity.Advice, "watering in months of frost")
    {
        Category = RuleCategory.PlantsAndSoil,
        CanBeAccepted = true,
        Finds = """
            A schedule waters in a month of which the climate gives a mean minimum of 4 °C or less; one that has a last day, `from D to D`, in a
            month of 0 °C or less.
            """,
        Matters = "At a mean minimum of 4 °C some nights freeze, at 0 °C half of them do. Pipes and valves burst, and water on a path is ice in " +
            "the morning. Where pipes are blown out " +
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
        KnownLimits = "Months without temperatures in the climate are not looked at, nor are zones with `plants none`, which may keep off frost. What a " +
            "closed season skips is not due. A watering of one pass, " +
            "outside the calendar, is left to whoever wrote it.",
        Sources = "Common practice.",
    };

    private readonly LintContext _context;
    private readonly Quantity?[] _frost;
    private readonly Dictionary<int, (OccurrenceCounter Recurrence, int Month)> _found = [];
    private readonly bool[] _hasEnd;
    private readonly HashSet<(int Schedule, int Month)> _watered = [];

    public FrostMonths(LintContext context)
    {
        _context = context;
        _hasEnd = [.. context.Site.Schedules.Select(HasEnd)];
        _frost = [.. Enumerable.Range(0, 12)
            .Select(month => context.Site.Climate?.Months[month]?.Coldest is { InBase: <= LeastCelsius } coldest ? coldest : (Quantity?)null)];
    }

    public bool Observes(Zone zone) => !zone.WatersNoPlants && _frost.Any(coldest => coldest is not null);

    public void Visit(in Run run)
    {
        var schedule = _context.Site.Schedules[run.Schedule];
        if (schedule.IsExtra) return;
        var month = CivilDate.FromDayNumber(run.Day).Month;
        _watered.Add((run.Schedule, month));
        if (_frost[month - 1] is not { } coldest || (_hasEnd[run.Schedule] && coldest.InBase > LeastCelsiusToTheEnd)) return;
        if (!_found.TryGetValue(run.Schedule, out var found)) _found[run.Schedule] = found = (new OccurrenceCounter(), month);
        found.Recurrence.Add(run.Start, _context);
    }

    public IEnumerable<Finding> Findings() => _found.Select(entry => FindingFor(_context.Site.Schedules[entry.Key], entry.Value.Recurrence, entry.Value.Month));

    private const decimal LeastCelsius = 4;

    /// <summary>Who writes when the season ends has thought of frost; half of the nights below freezing are still beyond that.</summary>
    private const decimal LeastCelsiusToTheEnd = 0;

    private static bool HasEnd(Schedule schedule) => schedule.Season is { Span: not DateRange { Last.Year: >= 9999 } };

    private Finding FindingFor(Schedule schedule, OccurrenceCounter occurrenceCounter, int month) =>
        Finding.At(Rule, schedule.Origin, $"schedule {schedule.Name} waters in {Phrases.Month(month)}, a month of frost",
            _hasEnd[schedule.Index] ? "goes on into it" : "has no last day") with
        {
            Others = [new Label(_context.Site.Climate!.Months[month - 1]!.Origin, $"mean minimum {_frost[month - 1]}")],
            Happens = occurrenceCounter.Happens(_context),
            Help = HelpFor(schedule),
        };

    private string HelpFor(Schedule schedule)
    {
        if (_hasEnd[schedule.Index]) return "End its season before the frost and begin it after, or close the site with a `closed` line.";
        return LongestWithoutFrost() is var (first, last) && Enumerable.Range(0, 12).Any(month => IsWithin(month, first, last) && Waters(schedule, month))
            ? $"Give it a season such as `from 1 {MonthNames.All[first]} to {LastDays[last]} {MonthNames.All[last]}`, or close the site with a `closed` line."
            : "Move it to a month without frost, or delete it.";
    }

    private bool Waters(Schedule schedule, int month) => _watered.Contains((schedule.Index, month + 1));

    private static bool IsWithin(int month, int first, int last) => first <= last ? first <= month && month <= last : month >= first || month <= last;

    /// <summary>The first and last of the most months in a row of which no frost is given, from 0; null where all have it.</summary>
    private (int First, int Last)? LongestWithoutFrost()
    {
        var stretches = Enumerable.Range(0, 12)
            .Select(first => (First: first, Length: Enumerable.Range(first, 12).TakeWhile(month => _frost[month % 12] is null).Count()));
        var (start, length) = stretches.MaxBy(stretch => stretch.Length);
        return length == 0 ? null : (start, (start + length - 1) % 12);
    }

    /// <summary>The last days of the months, in every year.</summary>
    private static readonly int[] LastDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
}
