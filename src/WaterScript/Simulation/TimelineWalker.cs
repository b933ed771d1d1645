using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Simulation;

/// <summary>One walk over a horizon for all who observe it: each date, run, opening and switching is calculated once, whoever observes it.</summary>
internal sealed class TimelineWalker
{
    private const int WorkOfVisit = 3, WorkOfRunForOutputs = 1, WorkOfOpening = 10, WorkOfSwitching = 10;

    private readonly SimulationContext _context;
    private readonly SimulationContext _outputs;
    private readonly IDayObserver[] _days;
    private readonly IRunObserver[][] _runsOfZone;
    private readonly IOpeningObserver[] _openings;
    private readonly ISwitchingObserver[][] _switchingsOfController;
    private readonly Demand _demand;
    private long _runs;

    /// <summary>All on one thread.</summary>
    /// <param name="context">The site and its dates.</param>
    /// <param name="observers">Who sees them, in this order.</param>
    public TimelineWalker(SimulationContext context, IReadOnlyList<ITimelineObserver> observers) : this(context, context, observers) { }

    /// <summary>Runs on one thread, and what outputs do because of them on another: neither may touch what the other one has.</summary>
    /// <param name="context">The site and its dates, for the observers that see dates, runs and what supplies are asked for.</param>
    /// <param name="outputs">The same, for those that see openings and switchings.</param>
    /// <param name="observers">The observers of both, in the order in which each thing is shown to them.</param>
    public TimelineWalker(SimulationContext context, SimulationContext outputs, IReadOnlyList<ITimelineObserver> observers)
    {
        (_context, _outputs) = (context, outputs);
        _demand = new Demand(context.Site, [.. observers.OfType<IDemandObserver>()], context.Spend);
        _days = [.. observers.OfType<IDayObserver>()];
        _openings = [.. observers.OfType<IOpeningObserver>().Where(observer => observer.ObservesAny)];
        IRunObserver[] interested = [_demand, .. observers.OfType<IRunObserver>()];
        _runsOfZone = SeeingZones(context.Site, interested);
        ISwitchingObserver[] switchings = [.. observers.OfType<ISwitchingObserver>()];
        _switchingsOfController = [.. context.Site.Controllers.Select(controller => switchings.Where(observer => observer.Observes(controller)).ToArray())];
    }

    /// <summary>Walks.</summary>
    public void Go()
    {
        if (_switchingsOfController.Any(seeing => seeing.Length > 0)) VisitSwitchings();
        else if (_openings.Length > 0) foreach (var _ in Openings()) { }
        else foreach (var _ in Runs()) { }
        _demand.Finish();
        _context.Skipped.End(_context.WallClock.StartOfDay(CivilDate.DayNumberOf(_context.Horizon.Until)));
        _context.Runs = _outputs.Runs = _runs;
    }

    /// <summary>Who sees the runs of each zone; zones in a row that the same see share one list.</summary>
    private static IRunObserver[][] SeeingZones(Site site, IRunObserver[] observers)
    {
        var seeing = new IRunObserver[site.Zones.Length][];
        for (var i = 0; i < seeing.Length; i++)
        {
            IRunObserver[] own = [.. observers.Where(observer => observer.Observes(site.Zones[i]))];
            seeing[i] = i > 0 && Enumerable.SequenceEqual(own, seeing[i - 1]) ? seeing[i - 1] : own;
        }

        return seeing;
    }

    private void VisitSwitchings()
    {
        foreach (var switching in _outputs.Timetable.SwitchingsOf(Openings()))
        {
            _outputs.Spend(WorkOfSwitching);
            foreach (var check in _switchingsOfController[switching.Controller]) check.Visit(switching);
            _outputs.Origins.Forget(switching);
        }
    }

    private IEnumerable<Opening> Openings()
    {
        foreach (var opening in _outputs.Timetable.OpeningsOf(RunsForOutputs()))
        {
            _outputs.Spend(WorkOfOpening);
            _outputs.Origins.Add(opening);
            foreach (var check in _openings) check.Visit(opening);
            yield return opening;
        }
    }

    private IEnumerable<Run> RunsForOutputs()
    {
        foreach (var run in _context == _outputs || _outputs.HasNoThread ? Runs() : ReadAhead<Run>.Of(Runs()))
        {
            _outputs.LastRun = run.Start;
            if (_context != _outputs) _outputs.Reach(run);
            _outputs.Spend(WorkOfRunForOutputs, run.Schedule);
            _outputs.Origins.Add(run);
            yield return run;
        }
    }

    private IEnumerable<Run> Runs()
    {
        foreach (var run in _context.Timetable.Runs(_context.Skipped, Visit))
        {
            _runs = run.Number;
            _context.Reach(run);
            var interested = _runsOfZone[run.Zone];
            _context.Spend(interested.Length * WorkOfVisit);
            foreach (var observer in interested) observer.Visit(run);
            yield return run;
        }
    }

    private void Visit(ScheduleDay day)
    {
        foreach (var check in _days) check.Visit(day);
    }
}
