using System.Globalization;
using NodaTime.Text;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>A folder in which the players of the examples play lists: each case is one for both.</summary>
public abstract class PlayerWorkshop : Workshop
{
    private protected static readonly string Script = Path.Combine(Repository.Root, "examples", "player", "play.sh");

    /// <summary>Two latching valves that take turns every seven seconds, on one morning.</summary>
    private protected static Timetable BenchRig => Days("bench-rig", "2026-01-05", 1);

    /// <summary>A week of a dozen zones with a pump and a master valve.</summary>
    private protected static Timetable SportsGround => Days("sports-ground", "2026-05-18", 7);

    /// <summary>Two benches under mist, a burst every eight minutes from morning to evening, for a day.</summary>
    private protected static Timetable Nursery => Days("nursery", "2026-12-01", 1);

    /// <summary>Calls the player in the folder, without waiting. Where the player in C is there, it does and answers the same.</summary>
    private protected WaterscriptProcess.Result Call(string words)
    {
        var result = WaterscriptProcess.Shell(Folder, $"sh '{Script}' --speed 0 {words}");
        if (CPlayer.Lacks is null) Assert.Equal(result with { Error = result.Error.Replace("play.sh: ", "player: ", StringComparison.Ordinal) }, CallC(words));
        return result;
    }

    /// <summary>Calls the player in C in the folder, without waiting.</summary>
    private protected WaterscriptProcess.Result CallC(string words) =>
        WaterscriptProcess.Shell(Folder, $"'{CPlayer.Program}' --speed 0 {words}");

    /// <summary>Plays a list from a second on; it is taken and played.</summary>
    private protected List<LogLine> Play(string list, long from, string options = "")
    {
        Write("list.csv", list);
        return Play(from, $"{options} list.csv");
    }

    /// <summary>Plays a list that lies in the folder.</summary>
    private protected List<LogLine> Play(long from, string words)
    {
        var result = Call(string.Create(CultureInfo.InvariantCulture, $"--from {from} {words}"));
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        return LogLine.Read(result.Output);
    }

    private static Timetable Days(string example, string from, int days) =>
        Timetable.Of(Example.Read($"examples/{example}.water").Site!, Horizon.DaysFrom(LocalDatePattern.Iso.Parse(from).Value, days));
}
