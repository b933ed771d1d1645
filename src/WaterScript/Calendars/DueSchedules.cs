using WaterScript.Model;

namespace WaterScript.Calendars;

/// <summary>Whether passes of the schedules of a site are due on a date, were it not for what is taken away.</summary>
internal sealed class DueSchedules(Site site)
{
    private readonly Dictionary<int, DayPattern> _patterns = [];
    private readonly Dictionary<int, DayPattern> _excepted = [];

    /// <summary>Whether a pass is due, were it not for <c>except</c> and <c>skip</c>; of a schedule that follows another, whether that one's is.</summary>
    public bool IsDue(Schedule schedule, int day)
    {
        if (!PatternOf(schedule).IsDue(day)) return false;
        if (schedule.Days.IsEmpty && !schedule.Starts.Any(start => start is not StartAfter)) return FollowsOn(schedule, day);
        return schedule.Starts.Any(start => start is StartAfter ? FollowsOn(schedule, day)
            : start.On.IsEmpty || DayPattern.Of(start.On, schedule.Season, except: [], site.Effective).IsDue(day));
    }

    /// <summary>Whether an <c>except</c> of the schedule itself takes a date away.</summary>
    public bool IsExcepted(Schedule schedule, int day)
    {
        if (!schedule.OwnExceptLines.Any()) return false;
        if (!_excepted.TryGetValue(schedule.Index, out var pattern))
            _excepted[schedule.Index] = pattern = DayPattern.Of([.. schedule.OwnExceptLines.SelectMany(line => line.Days)], schedule.Season, except: [],
                site.Effective);
        return pattern.IsDue(day);
    }

    /// <summary>Whether a schedule that it starts after is due; the binder has refused those that follow themselves.</summary>
    private bool FollowsOn(Schedule schedule, int day) => schedule.Starts.OfType<StartAfter>()
        .Any(after => site.Schedules.FirstOrDefault(other => other.Name == after.Other) is { } other && IsDue(other, day));

    private DayPattern PatternOf(Schedule schedule)
    {
        if (!_patterns.TryGetValue(schedule.Index, out var pattern))
            _patterns[schedule.Index] = pattern = DayPattern.Of(schedule.Days, schedule.Season, except: [], site.Effective);
        return pattern;
    }
}
