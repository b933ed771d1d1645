using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Outputs;

/// <summary>The runs that one controller carries out.</summary>
internal static class ControllerRuns
{
    /// <summary>The runs of a timetable whose zones are on a controller; all when it is null.</summary>
    public static IEnumerable<Run> RunsFor(this Timetable timetable, Controller? controller) => controller is null
        ? timetable.Runs()
        : timetable.Runs().Where(run => timetable.Site.Zones[run.Zone].Controller.Index == controller.Index);
}
