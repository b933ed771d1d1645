using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Next;

/// <summary>A pump, master or injector that is on.</summary>
/// <param name="Device">The device.</param>
/// <param name="From">Since when, in Unix seconds.</param>
/// <param name="Until">Until when.</param>
internal sealed record DeviceOnNow(Device Device, long From, long Until)
{
    /// <summary>Those that are on at an instant, in the order in which they went on.</summary>
    internal static IEnumerable<DeviceOnNow> At(Timetable timetable, long now) => timetable.Site.Devices.IsEmpty
        ? []
        : timetable.Openings()
            .TakeWhile(opening => opening.From <= now)
            .Where(opening => opening.Device >= 0 && opening.To > now)
            .Select(opening => new DeviceOnNow(timetable.Site.Devices[opening.Device], opening.From, opening.To));
}
