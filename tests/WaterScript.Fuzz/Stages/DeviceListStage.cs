using System.Globalization;
using WaterScript.Documents.Timetables;
using WaterScript.Model;

namespace WaterScript.Fuzz.Stages;

/// <summary>
/// The list of switchings of each controller keeps to the page about carrying out a timetable, judged line by line without the compiler's own words.
/// </summary>
internal sealed class DeviceListStage : IStage
{
    private const string Header = "t,after_ms,controller,output,do,polarity,pulse_ms,max_on_s,opening";

    public string Name => "device list";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (site.Sound is not { } sound) return false;
        foreach (var controller in sound.Controllers)
        {
            if (IsRefused(site, controller, isForDevice: true)) continue;
            var text = CheckStage.Written(stream =>
                TimetableOutput.Write(site.Timetable, OutputFormat.Csv,
                new OutputOptions { Only = TimetableList.Switchings, Controller = controller }, stream));
            Check(text, controller, sound);
        }

        return sound.Controllers.Length > 0;
    }

    /// <summary>Whether there is no list, and for a reason: two on one output, or dates that no device counts to.</summary>
    internal static bool IsRefused(SiteInHand site, Controller? controller, bool isForDevice)
    {
        try
        {
            TimetableOutput.VerifySwitchings(site.Timetable, controller, isForDevice);
            return false;
        }
        catch (SwitchingContractException refusal)
        {
            var outputs = WiredOutput.AllOf(site.Reading.Site!).Where(output => controller is null || output.Controller == controller);
            var isShared = outputs.GroupBy(output => (output.Controller.Index, output.Number)).Any(users => users.Skip(1).Any());
            var isFarAway = isForDevice && (site.Horizon.From.Year <= 1970 || site.Horizon.Until.Year >= 2105);
            Must.Hold(isShared || isFarAway, "a device list is refused for a reason only", refusal.Message);
            return true;
        }
    }

    private static void Check(string text, Controller controller, Site site)
    {
        Must.Hold(text.All(char.IsAscii) && !text.Contains('"', StringComparison.Ordinal), "a device list is ASCII without quotes");
        var lines = text.Split("\r\n");
        Must.Equal(Header, lines[0], "a device list begins with its header");
        Must.Equal("", lines[^1], "a device list ends in CR LF");
        Must.Hold(lines[^2].StartsWith("end,", StringComparison.Ordinal) && lines[^2].Split(',').Length == 9,
            "a device list ends with its closing row", lines[^2]);
        Must.Equal(HashOf(text), lines[^2].Split(',')[2], "a device list's hash is that of its lines");
        var wired = WiredOutput.AllOf(site).Where(output => output.Controller == controller).ToLookup(output => output.Number);
        var state = new Dictionary<long, (long Opened, string Opening)>();
        var longest = new Dictionary<long, (long Seconds, long Most)>();
        var before = long.MinValue;
        foreach (var row in lines[1..^2].Select(line => line.Split(',')))
        {
            var shown = string.Join(',', row);
            Must.Equal(9, row.Length, "a row of a device list has nine fields");
            var (second, after, output, most) = (Number(row[0]), Number(row[1]), Number(row[3]), Number(row[7]));
            var at = (second * 1_000) + after;
            Must.Hold(after is >= 0 and < 1_000, "milliseconds are those of a second", shown);
            Must.Hold(at >= before, "a device list is in order", shown);
            Must.Equal(controller.Name, row[2], "a controller's list has its rows only");
            Must.Hold(wired[(int)output].Any(), "an output of a device list is wired", shown);
            Must.Hold(most > 0, "max_on_s is above zero", shown);
            // Of two on one output, whose list `--despite-errors` may write where only one of them waters, the row says whose it is.
            var users = wired[(int)output];
            Pulse(users.FirstOrDefault(user => user.IsLatching == (row[5].Length > 0)) ?? users.First(), row, shown);
            var key = output;
            if (row[4] == "open")
            {
                Must.Hold(state.TryAdd(key, (at, row[8])), "an output that is open is not opened", shown);
            }
            else
            {
                Must.Equal("close", row[4], "a row opens or closes");
                Must.Hold(state.Remove(key, out var open), "an output that is closed is not closed", shown);
                Must.Equal(open.Opening, row[8], "a close is of the opening that it ends");
                longest[key] = (Math.Max(longest.GetValueOrDefault(key).Seconds, at - open.Opened), most);
            }

            before = at;
        }

        Must.Hold(state.Count == 0, "each open has its close", string.Join(' ', state.Keys));
        foreach (var (output, (milliseconds, most)) in longest) Must.Hold(milliseconds <= most * 1_000, "no opening is longer than max_on_s",
            $"output {output}: {milliseconds} ms, {most} s");
    }

    private static void Pulse(WiredOutput wired, string[] row, string shown)
    {
        if (!wired.IsLatching)
        {
            Must.Hold(row[5].Length == 0 && row[6].Length == 0, "a valve that is held open by power has no pulse", shown);
            return;
        }

        Must.Equal(row[4] == "open" ? "positive" : "negative", row[5], "a latching valve is opened positive and closed negative");
        Must.Hold(row[6].Length == 0 || Number(row[6]) > 0, "a pulse has a length", shown);
    }

    private static string HashOf(string text) => CompileStage.HashOf(text);

    private static long Number(string text) =>
        long.TryParse(text, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) ? number
        : throw new BrokenException("a number of a device list is one", text);
}
