using WaterScript.Timetables.Switchings;

namespace WaterScript.Documents.Timetables;

/// <summary>The longest that an output is on.</summary>
internal sealed class LongestOn
{
    private long _openedAt;

    /// <summary>In seconds, rounded up; 0 where it is never on.</summary>
    public long Seconds { get; private set; }

    /// <summary>Adds an opening as it is meant.</summary>
    public void Add(in Opening opening) => Seconds = Math.Max(Seconds, opening.Seconds);

    /// <summary>Adds an opening or closing as it is carried out.</summary>
    public void Add(in Switching switching)
    {
        if (switching.IsOpen) _openedAt = switching.Milliseconds;
        else Seconds = Math.Max(Seconds, (switching.Milliseconds - _openedAt + Switching.MillisecondsInSecond - 1) / Switching.MillisecondsInSecond);
    }
}
