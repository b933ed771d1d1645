using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A watering that scale and trim together make more than three times as long as it is written.</summary>
internal sealed class OverScaled : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("over-scaled", Severity.Warning, "a watering more than three times as long as written")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            Scale times trim is more than 300 %.
            """,
        Matters = """
            Each share alone looks reasonable; their product does not. Twice the time for hot July and twice the time
            for a tired sprinkler are four times the water.
            """,
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01; scale year }
            scale year { jul 180 % }
            zone beds { output 1; trim 200 % }
            schedule morning { on mon; start at 06:00; steps { water beds for 10 min } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01; scale year }
            scale year { jul 150 % }
            zone beds { output 1; trim 200 % }
            schedule morning { on mon; start at 06:00; steps { water beds for 10 min } }
            """,
        KnownLimits = "Manual schedules are not looked at.",
        Sources = "The bound is common practice.",
    };

    /// <summary>300 %, as a product of two shares in per cent.</summary>
    private const decimal MostProduct = 300 * 100;

    private readonly LintContext _context;
    private readonly decimal _greatest;
    private readonly Dictionary<(StepPlace Place, int Zone), (OccurrenceCounter When, decimal Scale, Run Worst)> _found = [];

    public OverScaled(LintContext context)
    {
        _context = context;
        _greatest = context.Site.Schedules.Select(schedule => ScaleTable.For(schedule, context.Site).Greatest).DefaultIfEmpty(ScaleTable.AsWritten).Max();
    }

    public bool Observes(Zone zone) => _greatest * zone.TrimPercent > MostProduct;

    public void Visit(in Run run)
    {
        var scale = _context.Timetable.PercentOn(run.Schedule, run.Day);
        if (scale * _context.Site.Zones[run.Zone].TrimPercent <= MostProduct) return;
        var key = (_context.Steps.Of(run), run.Zone);
        if (!_found.TryGetValue(key, out var found)) _found[key] = found = (new OccurrenceCounter(), scale, run);
        found.When.Add(run.Start, _context);
        if (scale > found.Scale) _found[key] = found with { Scale = scale, Worst = run };
    }

    public IEnumerable<Finding> Findings() =>
        _found.Select(entry => FindingFor(entry.Key.Place, _context.Site.Zones[entry.Key.Zone], entry.Value.When, entry.Value.Scale, entry.Value.Worst));

    private Finding FindingFor(StepPlace place, Zone zone, OccurrenceCounter when, decimal scale, Run worst)
    {
        var product = $"{Phrases.Percent(scale)} × {Phrases.Percent(zone.TrimPercent)} = {Phrases.Percent(scale * zone.TrimPercent / 100)}";
        Label[] labels = [.. place.Labels(LengthOf(place, zone, scale))];
        return new Finding(Rule, $"zone {zone.Name} runs {Phrases.Percent(scale * zone.TrimPercent / 100)} of the time that is written", labels[0]) with
        {
            Others = [.. labels[1..], .. PlacesOf(zone, scale, worst)],
            Details = $"Scale times trim: {product}.",
            Happens = when.Happens(_context),
            Help = "Lower the scale or the trim, or write the time that is meant.",
        };
    }

    /// <summary><c>10 min become 36 min</c></summary>
    private static string LengthOf(StepPlace place, Zone zone, decimal scale) =>
        place.Step is WaterStep step && PassPlanner.WrittenSeconds(step, zone) is { } written
            ? $"{Phrases.Length(ScaledTime.Rounded(written))} become {Phrases.Length(ScaledTime.Of(written, scale, zone))}"
            : "becomes more than three times as long";

    private IEnumerable<Label> PlacesOf(Zone zone, decimal scale, Run worst)
    {
        if (scale != ScaleTable.AsWritten && _context.ScaleLineOf(_context.Site.Schedules[worst.Schedule], worst.Day) is { } line)
            yield return new Label(line, $"scale of {Phrases.Percent(scale)}");
        if (zone.WrittenTrim is { } trim) yield return new Label(trim.Place, $"trim of {Phrases.Percent(trim.Value)}");
    }
}
