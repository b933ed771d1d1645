using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Documents.Timetables;

/// <summary>What one controller carries out. Numbers stay those of the whole timetable.</summary>
internal static class ControllerLists
{
    /// <summary>The runs of a timetable whose zones are on a controller; all when it is null.</summary>
    public static IEnumerable<Run> RunsFor(this Timetable timetable, Controller? controller, SkippedWater? skipped = null) => controller is null
        ? timetable.Runs(skipped)
        : timetable.Runs(skipped).Where(run => timetable.Site.Zones[run.Zone].Controller?.Index == controller.Index);

    /// <summary>The openings of a controller's outputs; all when it is null.</summary>
    public static IEnumerable<Opening> OpeningsFor(this Timetable timetable, Controller? controller) =>
        controller is null ? timetable.Openings() : timetable.Openings().Where(opening => opening.Controller == controller.Index);

    /// <summary>What a controller switches; all when it is null.</summary>
    public static IEnumerable<Switching> SwitchingsFor(this Timetable timetable, Controller? controller) =>
        controller is null ? timetable.Switchings() : timetable.Switchings().Where(switching => switching.Controller == controller.Index);
}
