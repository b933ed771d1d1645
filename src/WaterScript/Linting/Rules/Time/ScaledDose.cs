using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A dose, or the flushing of pipes, that a scale for the water of plants halves or doubles.</summary>
internal sealed class ScaledDose : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("scaled-dose", Severity.Warning, "a dose or a flush that scale halves or doubles")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = "A scale leaves half or less, or makes twice as much or more, of the time for which an injector doses, or of the run of a zone with " +
            "`plants none`. All pieces of a `cycle` in a pass count together: an injector doses into each of them, with water before and after.",
        Matters = "How much water plants need goes with the weather; how long it takes to flush a filter does not. Since the water before and after a dose " +
            "stays the same, a scale of 80 % may halve the dose, and one of 120 % double it.",
        Fires = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01; scale year }
            scale year { apr 20 % }
            zone filter "Filter flush" { output 1; plants none }
            schedule flush { on mon; start at 06:00; steps { water filter for 20 s } }
            """,
        Fixed = """
            site plot { timezone Europe/Lisbon; effective 2026-03-01; scale year }
            scale year { apr 20 % }
            zone filter "Filter flush" { output 1; plants none }
            schedule flush { on mon; scale 100 %; start at 06:00; steps { water filter for 20 s } }
            """,
        KnownLimits = "A zone that flushes is known by `plants none`. A trim counts as meant. Manual schedules are not looked at.",
        Sources = "The bounds are common practice.",
    };

    private readonly LintContext _context;
    private readonly bool _hasInjectors;
    private readonly Dictionary<(StepPlace Place, int Zone, bool IsMore), Found> _found = [];
    private readonly Dictionary<(StepPlace Place, int Zone, decimal Scale), (Dose Was, Dose Now)> _inCycles = [];
    private readonly Dictionary<(StepPlace Place, int Zone), Run> _lastPieces = [];

    public ScaledDose(LintContext context)
    {
        _context = context;
        _hasInjectors = context.Site.Devices.Any(device => device.Kind == DeviceKind.Injector);
    }

    public bool Observes(Zone zone) => _hasInjectors || zone.WatersNoPlants;

    public void Visit(in Run run)
    {
        var zone = _context.Site.Zones[run.Zone];
        if (run.Dose != 0 || (run.Injector < 0 && !zone.WatersNoPlants)) return;
        var scale = _context.Timetable.PercentOn(run.Schedule, run.Day);
        if (scale == ScaleTable.AsWritten || _context.Steps.Of(run) is not { Step: WaterStep { IsExact: false } step } place) return;
        var besides = run.Injector < 0 ? 0 : BesidesDose(_context.Site.Devices[run.Injector]);
        if (_context.Timetable.IsPiece(run)) VisitPiece(run, place, step, scale, besides);
        else if (PassPlanner.WrittenSeconds(step, zone) is { } written)
            Compare(run, place, scale, Dose.Of([ScaledTime.Of(written, ScaleTable.AsWritten, zone)], besides), Dose.Of([run.Seconds], besides));
    }

    /// <summary>The first piece of a step in a pass stands for all of them.</summary>
    private void VisitPiece(in Run run, StepPlace place, WaterStep step, decimal scale, long besides)
    {
        var isFirst = !_lastPieces.TryGetValue((place, run.Zone), out var last) || !run.IsInPassOf(last);
        _lastPieces[(place, run.Zone)] = run;
        if (!isFirst) return;
        var key = (place, run.Zone, scale);
        if (!_inCycles.TryGetValue(key, out var doses))
        {
            var (schedule, zone) = (run.Schedule, run.Zone);
            Dose At(decimal percent) => Dose.Of([.. _context.Timetable.PiecesOf(schedule, step, zone, percent)], besides);
            _inCycles[key] = doses = (At(ScaleTable.AsWritten), At(scale));
        }

        Compare(run, place, scale, doses.Was, doses.Now);
    }

    private void Compare(in Run run, StepPlace place, decimal scale, Dose was, Dose now)
    {
        if (was.Seconds <= 0 || (2 * now.Seconds > was.Seconds && now.Seconds < 2 * was.Seconds)) return;
        var key = (place, run.Zone, now.Seconds > was.Seconds);
        if (!_found.TryGetValue(key, out var found)) _found[key] = found = new Found(run, scale, was, now);
        found.When.Add(run.Start, _context);
    }

    public IEnumerable<Finding> Findings() => _found.Select(entry => FindingFor(entry.Key.Place, _context.Site.Zones[entry.Key.Zone], entry.Value));

    /// <summary>Seconds of a run in which nothing is dosed.</summary>
    private static long BesidesDose(Device injector) => (injector.After?.Value.WholeSeconds() ?? 0) + (injector.Rinse?.Value.WholeSeconds() ?? 0);

    private Finding FindingFor(StepPlace place, Zone zone, Found found)
    {
        var schedule = _context.Site.Schedules[found.Run.Schedule];
        var what = found.Run.Injector < 0 ? $"zone {zone.Name}, which waters no plants, runs"
            : $"injector {_context.Site.Devices[found.Run.Injector].Name} doses into zone {zone.Name} for";
        Label[] labels = [.. place.Labels($"{Phrases.Length(found.Was.Seconds)} as written{InPieces(found.Was)}")];
        return new Finding(Rule, $"{what} {Phrases.Length(found.Now.Seconds)} in place of {Phrases.Length(found.Was.Seconds)}", labels[0])
        {
            Others = [.. labels[1..], .. ScaleOf(schedule, found)],
            Details = Sum(found),
            Happens = found.When.Happens(_context),
            Help = $"Write `scale 100 %` in schedule {schedule.Name}, or give it a schedule of its own with that.",
        };
    }

    private IEnumerable<Label> ScaleOf(Schedule schedule, Found found) =>
        _context.ScaleLineOf(schedule, found.Run.Day) is { } line ? [new Label(line, $"scale of {Phrases.Percent(found.Scale)}")] : [];

    /// <summary><c>Run: 30 min × 60 % = 18 min. Dose: 18 min − 13 min before and after it = 5 min.</c></summary>
    private static string Sum(Found found)
    {
        var (was, now) = (found.Was, found.Now);
        var scaled = $"Run: {Phrases.Length(was.Run)} × {Phrases.Percent(found.Scale)} = {Phrases.Length(now.Run)}{InPieces(now)}.";
        if (now.Besides == 0) return scaled;
        return now.Pieces == 1 && was.Pieces == 1
            ? $"{scaled} Dose: {Phrases.Length(now.Run)} − {Phrases.Length(now.Besides)} before and after it = {Phrases.Length(now.Seconds)}."
            : $"{scaled} Dose: each piece, less {Phrases.Length(now.Besides)} before and after it, = {Phrases.Length(now.Seconds)} in all.";
    }

    private static string InPieces(Dose dose) => dose.Pieces == 1 ? "" : $", in {Phrases.Count(dose.Pieces, "piece")}";

    /// <summary>What is dosed or flushed for a step.</summary>
    /// <param name="Run">Seconds of watering.</param>
    /// <param name="Pieces">In how many pieces.</param>
    /// <param name="Besides">Seconds of each piece in which nothing is dosed.</param>
    /// <param name="Seconds">What is left of them.</param>
    private readonly record struct Dose(long Run, int Pieces, long Besides, long Seconds)
    {
        public static Dose Of(long[] pieces, long besides) => new(pieces.Sum(), pieces.Length, besides, pieces.Sum(piece => Math.Max(0, piece - besides)));
    }

    private sealed record Found(Run Run, decimal Scale, Dose Was, Dose Now)
    {
        public OccurrenceCounter When { get; } = new();
    }
}
