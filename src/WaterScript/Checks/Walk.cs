using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>One walk over a horizon for all checks: each date, run, opening and switching is reckoned once, whoever wants to see it.</summary>
internal sealed class Walk
{
    private const int WorkOfWatch = 3, WorkOfOpening = 10, WorkOfSwitching = 10;

    private readonly Survey _survey;
    private readonly Survey _outputs;
    private readonly ISeesDays[] _days;
    private readonly IRunWatch[][] _runsOfZone;
    private readonly ISeesOpenings[] _openings;
    private readonly ISeesSwitchings[][] _switchingsOfController;
    private readonly Demand _demand;
    private long _runs;

    /// <summary>All on one thread.</summary>
    /// <param name="survey">The site and its dates.</param>
    /// <param name="checks">Who sees them.</param>
    public Walk(Survey survey, IReadOnlyList<ICheck> checks) : this(survey, survey, checks) { }

    /// <summary>Runs on one thread, and what outputs do because of them on another: neither may touch what the other one has.</summary>
    /// <param name="survey">The site and its dates, for the checks that see dates, runs and what supplies are asked for.</param>
    /// <param name="outputs">The same, for those that see openings and switchings.</param>
    /// <param name="checks">The checks of both.</param>
    public Walk(Survey survey, Survey outputs, IReadOnlyList<ICheck> checks)
    {
        (_survey, _outputs) = (survey, outputs);
        _demand = new Demand(survey.Site, [.. checks.OfType<ISeesDemand>()], survey.Spend);
        _days = [.. checks.OfType<ISeesDays>()];
        _openings = [.. checks.OfType<ISeesOpenings>().Where(check => check.WantsAny)];
        IRunWatch[] watches = [survey.ZoneMeetings, survey.PassMeetings, survey.Restrictions, survey.Water, _demand, .. checks.OfType<IRunWatch>()];
        _runsOfZone = [.. survey.Site.Zones.Select(zone => watches.Where(watch => watch.Wants(zone)).ToArray())];
        ISeesSwitchings[] switchings = [.. checks.OfType<ISeesSwitchings>()];
        _switchingsOfController = [.. survey.Site.Controllers.Select(controller => switchings.Where(check => check.Wants(controller)).ToArray())];
    }

    /// <summary>Walks.</summary>
    public void Go()
    {
        if (_switchingsOfController.Any(seeing => seeing.Length > 0)) SeeSwitchings();
        else if (_openings.Length > 0) foreach (var _ in Openings()) { }
        else foreach (var _ in Runs()) { }
        _demand.Finish();
        _survey.Runs = _outputs.Runs = _runs;
    }

    private void SeeSwitchings()
    {
        foreach (var switching in _outputs.Timetable.SwitchingsOf(Openings()))
        {
            _outputs.Spend(WorkOfSwitching);
            foreach (var check in _switchingsOfController[switching.Controller]) check.See(switching);
            _outputs.Askers.Forget(switching);
        }
    }

    private IEnumerable<Opening> Openings()
    {
        foreach (var opening in _outputs.Timetable.OpeningsOf(RunsForOutputs()))
        {
            _outputs.Spend(WorkOfOpening);
            _outputs.Askers.Add(opening);
            foreach (var check in _openings) check.See(opening);
            yield return opening;
        }
    }

    private IEnumerable<Run> RunsForOutputs()
    {
        foreach (var run in _survey == _outputs ? Runs() : Ahead<Run>.Of(Runs()))
        {
            _outputs.LastRun = run.Start;
            _outputs.Askers.Add(run);
            yield return run;
        }
    }

    private IEnumerable<Run> Runs()
    {
        foreach (var run in _survey.Timetable.Runs(_survey.Taken, See))
        {
            _runs = run.Number;
            var watches = _runsOfZone[run.Zone];
            _survey.Spend(watches.Length * WorkOfWatch);
            foreach (var watch in watches) watch.See(run);
            yield return run;
        }
    }

    private void See(ScheduleDay day)
    {
        _survey.DayNotes.Add(day);
        foreach (var check in _days) check.See(day);
    }
}
