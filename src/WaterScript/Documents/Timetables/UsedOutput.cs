using WaterScript.Documents.Writers;
using WaterScript.Model;

namespace WaterScript.Documents.Timetables;

/// <summary>An output and one that is wired to it.</summary>
internal sealed class UsedOutput(WiredOutput wired, LongestOn longest)
{
    /// <summary>
    /// How much longer than the longest opening a device lets an output stay on before it closes it by itself, so that no clock a little off does so
    /// (common practice).
    /// </summary>
    private const long SpareSeconds = 60;

    private const long SecondsInMinute = 60;

    /// <summary>What is wired to it.</summary>
    public WiredOutput Wired => wired;

    /// <summary>Length of its pulses, or null.</summary>
    public decimal? PulseMilliseconds { get; } = Measure.Milliseconds(wired.Pulse);

    /// <summary>The longest that it is on.</summary>
    public LongestOn Longest => longest;

    /// <summary>The longest opening in whole minutes, rounded up, and some to spare; null where it is never open.</summary>
    public long? MaxOnSeconds => longest.Seconds == 0 ? null : ((longest.Seconds + SecondsInMinute - 1) / SecondsInMinute * SecondsInMinute) + SpareSeconds;
}
