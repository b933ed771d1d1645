using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>One walk over the dates of a horizon, for all rules about the calendar.</summary>
internal sealed class ScheduleSurvey
{
    private readonly Dictionary<(int Schedule, DayNoteKind Kind, Location Origin, Location? Other), DayNoteGroup> _groups = [];
    private readonly HashSet<int> _due = [];

    private ScheduleSurvey(Timetable timetable) => Timetable = timetable;

    /// <summary>What was walked over.</summary>
    public Timetable Timetable { get; }

    /// <summary>What is due and does not come.</summary>
    public Taken Taken { get; } = new();

    /// <summary>Walks.</summary>
    public static ScheduleSurvey Of(Timetable timetable)
    {
        var survey = new ScheduleSurvey(timetable);
        foreach (var day in timetable.ScheduleDays()) survey.Add(day);
        foreach (var _ in timetable.Runs(survey.Taken)) { }

        return survey;
    }

    /// <summary>The notes of a kind, one entry for each cause.</summary>
    public IEnumerable<DayNoteGroup> Notes(DayNoteKind kind) => _groups.Values.Where(group => group.Kind == kind);

    /// <summary>Whether a schedule has a pass on any of the dates.</summary>
    public bool IsEverDue(Schedule schedule) => _due.Contains(schedule.Index);

    private void Add(ScheduleDay day)
    {
        if (day.Passes.Count > 0) _due.Add(day.Schedule.Index);
        foreach (var note in day.Notes)
        {
            var key = (day.Schedule.Index, note.Kind, note.Origin, note.Other);
            _groups[key] = _groups.TryGetValue(key, out var group)
                ? group with { LastDay = note.Day, Count = group.Count + 1 }
                : new DayNoteGroup(day.Schedule, note.Kind, note.Origin, note.Other, note.Day, note.Day, Count: 1, note.Instant);
        }
    }
}
