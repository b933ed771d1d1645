using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>One walk over a horizon for all checks: each date, run, opening and switching is reckoned once, whoever wants to see it.</summary>
internal sealed class Walk
{
    private readonly Survey _survey;
    private readonly ISeesDays[] _days;
    private readonly IRunWatch[][] _runsOfZone;
    private readonly ISeesOpenings[] _openings;
    private readonly ISeesSwitchings[][] _switchingsOfController;
    private readonly Demand _demand;

    public Walk(Survey survey, IReadOnlyList<ICheck> checks)
    {
        _survey = survey;
        _demand = new Demand(survey.Site, [.. checks.OfType<ISeesDemand>()]);
        _days = [.. checks.OfType<ISeesDays>()];
        _openings = [.. checks.OfType<ISeesOpenings>()];
        IRunWatch[] watches = [survey.ZoneMeetings, survey.PassMeetings, _survey.Restrictions, _survey.Water, _demand, .. checks.OfType<IRunWatch>()];
        _runsOfZone = [.. survey.Site.Zones.Select(zone => watches.Where(watch => watch.Wants(zone)).ToArray())];
        ISeesSwitchings[] switchings = [.. checks.OfType<ISeesSwitchings>()];
        _switchingsOfController = [.. survey.Site.Controllers.Select(controller => switchings.Where(check => check.Wants(controller)).ToArray())];
    }

    /// <summary>Walks.</summary>
    public void Go()
    {
        if (_survey.Manual is null) SeeDays();
        if (_switchingsOfController.Any(seeing => seeing.Length > 0)) SeeSwitchings();
        else foreach (var _ in Openings()) { }
        _demand.Finish();
    }

    private void SeeDays()
    {
        foreach (var day in _survey.Timetable.ScheduleDays())
        {
            _survey.DayNotes.Add(day);
            foreach (var check in _days) check.See(day);
        }
    }

    private void SeeSwitchings()
    {
        foreach (var switching in _survey.Timetable.SwitchingsOf(Openings()))
        {
            foreach (var check in _switchingsOfController[switching.Controller]) check.See(switching);
            _survey.Askers.Forget(switching);
        }
    }

    private IEnumerable<Opening> Openings()
    {
        foreach (var opening in _survey.Timetable.OpeningsOf(Runs()))
        {
            _survey.Askers.Add(opening);
            foreach (var check in _openings) check.See(opening);
            yield return opening;
        }
    }

    private IEnumerable<Run> Runs()
    {
        foreach (var run in _survey.Timetable.Runs(_survey.Taken))
        {
            _survey.Askers.Add(run);
            foreach (var watch in _runsOfZone[run.Zone]) watch.See(run);
            yield return run;
        }
    }
}
