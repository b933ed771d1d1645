using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Linting.Fixes;

/// <summary>A schedule that starts when another one is over, in place of its one start by the clock.</summary>
internal static class FollowingStart
{
    private const string Before = "start", At = "at";

    /// <summary>The edit; null where the schedule has other starts, or its start is not written in the usual way.</summary>
    /// <param name="schedule">The one that waits.</param>
    /// <param name="first">The one that it waits for.</param>
    public static Fix? Of(Schedule schedule, Schedule first)
    {
        ArgumentNullException.ThrowIfNull(schedule);
        ArgumentNullException.ThrowIfNull(first);
        if (schedule == first || schedule.Starts is not [StartAt { On.IsEmpty: true } start] || first.IsManual || first.IsExtra) return null;
        var (source, span) = start.Origin;
        var before = source.Text.AsSpan(0, span.Start).TrimEnd();
        if (!before.EndsWith(At, StringComparison.Ordinal) || !before[..^At.Length].TrimEnd().EndsWith(Before, StringComparison.Ordinal)) return null;
        var words = $"after {first.Name}";
        var place = new Location(source, TextSpan.FromBounds(before.Length - At.Length, span.End));
        return new Fix($"write `{Before} {words}`", IsSafe: false, [new TextEdit(place, words)]);
    }
}
