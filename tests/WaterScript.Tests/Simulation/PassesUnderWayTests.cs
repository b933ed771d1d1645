using WaterScript.Simulation;
using WaterScript.Timetables;
using Xunit;
using static WaterScript.Tests.Timetables.Sites;

namespace WaterScript.Tests.Simulation;

/// <summary>Passes that run at once; by hand.</summary>
public class PassesUnderWayTests
{
    /// <summary>
    /// From 06:00 to 07:10 the first is under way, also in its pause: what came and went in it shows only with its second run. One that begins as it ends,
    /// and one that ends as it begins, do not meet it.
    /// </summary>
    [Fact]
    public void What_lies_between_two_runs_of_a_pass_meets_it() => Assert.Equal(["around inside", "around later"], Met("""
        schedule before { on 2026-06-01; start at 05:50; steps { water b for 10 min } }
        schedule around { on 2026-06-01; start at 06:00; steps { water a for 10 min; pause 50 min; water a for 10 min } }
        schedule inside { on 2026-06-01; start at 06:20; steps { water b for 10 min } }
        schedule later { on 2026-06-01; start at 06:40; steps { water c for 10 min } }
        schedule after { on 2026-06-01; start at 07:10; steps { water b for 10 min } }
        """));

    /// <summary>The second pass begins 5 min before the first is over; the third 5 min after the second.</summary>
    [Fact]
    public void Two_passes_meet_once() => Assert.Equal(["s s"], Met("""
        schedule s { on 2026-06-01; start at 06:00, 06:15, 06:40; steps { water a, b for 10 min } }
        """));

    private static string[] Met(string schedules)
    {
        var timetable = Timetable.Of(Read(Garden(schedules)), Horizon.DaysFrom(new(2026, 6, 1), 1));
        List<string> met = [];
        var passes = new PassesUnderWay(timetable, (earlier, later) =>
            met.Add($"{timetable.Site.Schedules[earlier.Schedule].Name} {timetable.Site.Schedules[later.Schedule].Name}"));
        foreach (var run in timetable.Runs()) passes.Visit(run);
        return [.. met.Order(StringComparer.Ordinal)];
    }
}
