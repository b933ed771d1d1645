using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Next;

/// <summary>A pump, master or injector that is on.</summary>
/// <param name="Device">The device.</param>
/// <param name="From">Since when, in Unix seconds.</param>
/// <param name="Until">Until when.</param>
internal sealed record DeviceOnNow(Device Device, long From, long Until)
{
    /// <summary>Those that are on at an instant, in the order in which they went on. Several outputs that are on one after the other keep one on.</summary>
    internal static IEnumerable<DeviceOnNow> At(Timetable timetable, long now)
    {
        var devices = timetable.Site.Devices;
        if (devices.IsEmpty) return [];
        var on = new List<DeviceOnNow>();
        foreach (var opening in timetable.Openings().TakeWhile(opening => opening.From <= now || IsFollowed(opening.From)))
        {
            if (opening.Device < 0) continue;
            on.RemoveAll(device => device.Until < opening.From && device.Until <= now);
            var same = on.FindIndex(device => device.Device.Index == opening.Device && device.Until >= opening.From);
            if (same >= 0) on[same] = on[same] with { Until = Math.Max(on[same].Until, opening.To) };
            else if (opening.From <= now) on.Add(new DeviceOnNow(devices[opening.Device], opening.From, opening.To));
        }

        return on.Where(device => device.Until > now);

        bool IsFollowed(long from) => on.Exists(device => !device.Device.FurtherOutputs.IsEmpty && device.Until > now && device.Until >= from);
    }
}
