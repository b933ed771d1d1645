using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>One walk over a horizon for all checks: each date, run and opening is reckoned once, whoever wants to see it.</summary>
internal sealed class Walk(Survey survey, IReadOnlyList<ICheck> checks)
{
    private readonly ISeesDays[] _days = [.. checks.OfType<ISeesDays>()];
    private readonly ISeesRuns[] _runs = [.. checks.OfType<ISeesRuns>()];
    private readonly ISeesOpenings[] _openings = [.. checks.OfType<ISeesOpenings>()];

    /// <summary>Walks.</summary>
    public void Go()
    {
        foreach (var day in survey.Timetable.ScheduleDays())
        {
            survey.DayNotes.Add(day);
            foreach (var check in _days) check.See(day);
        }

        foreach (var opening in survey.Timetable.OpeningsOf(Runs()))
        {
            foreach (var check in _openings) check.See(opening);
        }
    }

    private IEnumerable<Run> Runs()
    {
        foreach (var run in survey.Timetable.Runs(survey.Taken))
        {
            survey.ZoneMeetings.See(run);
            foreach (var check in _runs) check.See(run);
            yield return run;
        }
    }
}
