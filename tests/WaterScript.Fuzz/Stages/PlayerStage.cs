using System.Diagnostics;
using System.Globalization;
using System.Text;
using WaterScript.Documents.Timetables;
using WaterScript.Fuzz.Inputs;
using WaterScript.Tests.Documentation;

namespace WaterScript.Fuzz.Stages;

/// <summary>
/// The shell player of the examples takes the list of a controller and plays it, every row of it. Starting it takes long, so few inputs are played.
/// </summary>
internal sealed class PlayerStage : IStage
{
    private const int OneIn = 64;
    private static readonly TimeSpan MostTime = TimeSpan.FromSeconds(60);
    private static readonly string Script = Path.Combine(Repository.Root, "examples", "player", "play.sh");

    public string Name => "player";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (OperatingSystem.IsWindows() || site.Sound is not { Controllers: [var controller, ..] }) return false;
        if (new Dice((ulong)site.Files.Files[site.Files.Root].Length * FuzzInput.Salts + (ulong)site.Salt).Below(OneIn) != 0) return false;
        if (DeviceListStage.IsRefused(site, controller, isForDevice: true)) return false;
        var list = CheckStage.Written(stream =>
            TimetableOutput.Write(site.Timetable, OutputFormat.Csv,
            new OutputOptions { Only = TimetableList.Switchings, Controller = controller }, stream));
        var rows = list.Split("\r\n")[1..^2];
        if (rows.Length == 0) return false;
        var file = Path.GetTempFileName();
        try
        {
            File.WriteAllText(file, list);
            var first = long.Parse(rows[0].Split(',')[0], CultureInfo.InvariantCulture);
            if (first < PlayerClock.Unset) return false;
            Played(rows,
                Play(string.Create(CultureInfo.InvariantCulture, $"--speed 0 --from {first - 1} --controller {controller.Name}").Split(' ').Append(file)));
        }
        finally
        {
            File.Delete(file);
        }

        return true;
    }

    /// <summary>Each row of the list is a row of the log, in the same order.</summary>
    private static void Played(string[] rows, string log)
    {
        var played = log.Split('\n').Select(line => line.Split(',')).Where(line => line.Length == 9 && line[6] is "list")
            .Select(line => $"{line[0]},{line[1]},{line[2]},{line[3]}");
        var meant = rows.Select(row => row.Split(',')).Select(row => $"{row[0]}.{row[1].PadLeft(3, '0')},{row[2]},{row[3]},{row[4]}");
        Must.Equal(string.Join('\n', meant), string.Join('\n', played), "the player plays every row of a list");
    }

    private static string Play(IEnumerable<string> words)
    {
        var start = new ProcessStartInfo("sh") { RedirectStandardOutput = true, RedirectStandardError = true, StandardOutputEncoding = Encoding.UTF8 };
        foreach (var word in words.Prepend(Script)) start.ArgumentList.Add(word);
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEndAsync();
        if (!process.WaitForExit(MostTime))
        {
            process.Kill();
            throw new BrokenException("the player comes to an end", string.Join(' ', words));
        }

        Must.Hold(process.ExitCode == 0, "the player takes a list", $"{process.ExitCode}: {error.Result}");
        return output.Result;
    }

    private static class PlayerClock
    {
        /// <summary>2020: before it the player takes its clock for one that was never set.</summary>
        public const long Unset = 1_577_836_800;
    }
}
