using WaterScript.Model;

namespace WaterScript.Timetables.Switchings;

/// <summary>
/// When devices are on, whichever of their outputs is. Openings are taken in order of their beginning; where several outputs of a device are on at once,
/// or one goes on as another goes off, the device goes on once.
/// </summary>
internal sealed class DeviceTimes(Site site)
{
    private readonly long[] _until = [.. site.Devices.Select(_ => long.MinValue)];

    /// <summary>Takes in an opening of a device.</summary>
    /// <returns>What it adds to the time in which the device is on, which may be nothing, and whether the device goes on with it.</returns>
    public (long From, long To, bool IsStart) Add(in Opening opening)
    {
        ref var until = ref _until[opening.Device];
        var isStart = opening.From > until;
        var from = Math.Max(opening.From, until);
        until = Math.Max(until, opening.To);
        return (from, Math.Max(from, opening.To), isStart);
    }
}
