using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>One walk over a horizon for all checks: each date, run, opening and switching is reckoned once, whoever wants to see it.</summary>
internal sealed class Walk(Survey survey, IReadOnlyList<ICheck> checks)
{
    private readonly ISeesDays[] _days = [.. checks.OfType<ISeesDays>()];
    private readonly ISeesRuns[][] _runsOfZone = [.. survey.Site.Zones.Select(zone => checks.OfType<ISeesRuns>().Where(check => check.Wants(zone)).ToArray())];
    private readonly ISeesOpenings[] _openings = [.. checks.OfType<ISeesOpenings>()];
    private readonly ISeesSwitchings[][] _switchingsOfController =
        [.. survey.Site.Controllers.Select(controller => checks.OfType<ISeesSwitchings>().Where(check => check.Wants(controller)).ToArray())];

    private readonly Demand _demand = new(survey.Site, [.. checks.OfType<ISeesDemand>()]);

    /// <summary>Walks.</summary>
    public void Go()
    {
        if (survey.Manual is null) SeeDays();
        if (_switchingsOfController.Any(seeing => seeing.Length > 0)) SeeSwitchings();
        else foreach (var _ in Openings()) { }
        _demand.Finish();
    }

    private void SeeDays()
    {
        foreach (var day in survey.Timetable.ScheduleDays())
        {
            survey.DayNotes.Add(day);
            foreach (var check in _days) check.See(day);
        }
    }

    private void SeeSwitchings()
    {
        foreach (var switching in survey.Timetable.SwitchingsOf(Openings()))
        {
            foreach (var check in _switchingsOfController[switching.Controller]) check.See(switching);
            survey.Askers.Forget(switching);
        }
    }

    private IEnumerable<Opening> Openings()
    {
        foreach (var opening in survey.Timetable.OpeningsOf(Runs()))
        {
            survey.Askers.Add(opening);
            foreach (var check in _openings) check.See(opening);
            yield return opening;
        }
    }

    private IEnumerable<Run> Runs()
    {
        foreach (var run in survey.Timetable.Runs(survey.Taken))
        {
            survey.ZoneMeetings.See(run);
            survey.Askers.Add(run);
            _demand.Add(run);
            survey.Restrictions.See(run);
            survey.Water.Add(run);
            foreach (var check in _runsOfZone[run.Zone]) check.See(run);
            yield return run;
        }
    }
}
