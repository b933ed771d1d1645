using NodaTime;

namespace WaterScript.Timetables.Switchings;

/// <summary>
/// The actions of one controller that draw power for a moment, one by one: each waits until the stagger after the one before is
/// over. The opening of an output is one; its close is one where it takes a pulse.
/// </summary>
internal sealed class StaggeredActions(Duration stagger)
{
    private readonly long _stagger = (long)Math.Ceiling(stagger.TotalMilliseconds);
    private long _earliest = long.MinValue;

    /// <summary>When the next action takes place, in Unix milliseconds.</summary>
    /// <param name="due">When it is due, in Unix seconds.</param>
    public long Next(long due)
    {
        var at = Math.Max(due * Switching.MillisecondsInSecond, _earliest);
        _earliest = at + _stagger;
        return at;
    }
}
