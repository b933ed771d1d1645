using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Simulation;

/// <summary>What there is to know about single dates, gathered by cause.</summary>
internal sealed class DayNotes : IDayObserver
{
    private readonly Dictionary<(int Schedule, DayNoteKind Kind, Location Origin, Location? Other), DayNoteGroup> _groups = [];

    /// <summary>The notes of a kind, one entry for each cause.</summary>
    public IEnumerable<DayNoteGroup> Of(DayNoteKind kind) => _groups.Values.Where(group => group.Kind == kind);

    /// <inheritdoc/>
    public void Visit(in ScheduleDay day)
    {
        foreach (var note in day.Notes)
        {
            var key = (day.Schedule.Index, note.Kind, note.Origin, note.Other);
            if (!_groups.TryGetValue(key, out var group))
            {
                _groups[key] = new DayNoteGroup(day.Schedule, note.Kind, note.Origin, note.Other, note.Day, note.Day, Count: 1, note.Instant);
                continue;
            }

            _groups[key] = group with { LastDay = note.Day, Count = group.Count + 1 };
            group.Moments.Add(note.Instant);
        }
    }
}
