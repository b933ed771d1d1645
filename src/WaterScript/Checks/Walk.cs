using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>One walk over a horizon for all checks: each date, run, opening and switching is reckoned once, whoever wants to see it.</summary>
internal sealed class Walk(Survey survey, IReadOnlyList<ICheck> checks)
{
    private readonly ISeesDays[] _days = [.. checks.OfType<ISeesDays>()];
    private readonly ISeesRuns[] _runs = [.. checks.OfType<ISeesRuns>()];
    private readonly ISeesOpenings[] _openings = [.. checks.OfType<ISeesOpenings>()];
    private readonly ISeesSwitchings[] _switchings = [.. checks.OfType<ISeesSwitchings>()];
    private readonly Demand _demand = new(survey.Site, [.. checks.OfType<ISeesDemand>()]);

    /// <summary>Walks.</summary>
    public void Go()
    {
        if (survey.Manual is null) SeeDays();
        if (_switchings.Length > 0) SeeSwitchings();
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
            foreach (var check in _switchings) check.See(switching);
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
            foreach (var check in _runs) check.See(run);
            yield return run;
        }
    }
}
