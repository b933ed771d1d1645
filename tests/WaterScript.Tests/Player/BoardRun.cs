using System.Globalization;
using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>What the pins of an emulated board did, what it logged and how much memory it took; <c>tests/player-c/board.c</c> prints it.</summary>
internal sealed class BoardRun
{
    private readonly List<(long At, char Port, int Bit, bool IsHigh)> _pins = [];
    private int _pinsBeforeJump;

    private BoardRun(string printed)
    {
        List<string> log = ["time,controller,output,do,polarity,pulse_ms,why,opening,list"];
        foreach (var line in printed.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            var words = line.Split(' ');
            switch (words[0])
            {
                case "pin": _pins.Add((Number(words[1]), words[2][0], words[2][1] - '0', words[3] == "1")); break;
                case "jump": _pinsBeforeJump = _pins.Count; break;
                case "log": log.Add(line[4..]); break;
                case "refused": Refusals.Add((int)Number(words[1])); break;
                case "asked": AskedAgain = Number(words[1]); break;
                case "ram": Bytes = Number(words[1]) + Number(words[2]); break;
                default: if (line[0] is not 'L') throw new FormatException(line); break;
            }
        }

        Log = LogLine.Read(string.Join('\n', log));
    }

    /// <summary>What it logged.</summary>
    public List<LogLine> Log { get; }

    /// <summary>Why it refused lists: numbers of <c>enum player_fault</c>.</summary>
    public List<int> Refusals { get; } = [];

    /// <summary>How often it asked for a block again.</summary>
    public long AskedAgain { get; }

    /// <summary>Static memory, and the stack at its deepest.</summary>
    public long Bytes { get; }

    /// <summary>Plays a list that lies in a file, from a second of the computer's clock on.</summary>
    public static BoardRun Of(string folder, string firmware, string list, long from, long seconds, params string[] options)
    {
        string[] words = [CPlayer.Firmware(firmware), list, Text(from), Text(seconds), .. options];
        var result = WaterscriptProcess.Start(CPlayer.Board, folder, [], [], words);
        Assert.True(result.ExitCode == 0, $"status {result.ExitCode}: {result.Error}");
        return new BoardRun(result.Output);
    }

    /// <summary>Pulses on the two pins of each latching valve, as openings and closings with their lengths.</summary>
    public IEnumerable<(long At, int Output, bool IsOpen, long PulseMs)> Pulses() =>
        _pins.Select((pin, index) => (pin, index)).Where(one => one.pin.IsHigh).Select(one => (
            one.pin.At,
            one.pin.Bit + 1,
            one.pin.Port == 'B',
            _pins.Skip(one.index).First(end => end.Port == one.pin.Port && end.Bit == one.pin.Bit && !end.IsHigh).At - one.pin.At));

    /// <summary>Latching valves that are open at a moment after the computer's clock was put right, if it was.</summary>
    public SortedSet<int> OpenAt(long at) =>
        [.. _pins.Where((pin, index) => pin.IsHigh && (index < _pinsBeforeJump || pin.At <= at)).GroupBy(pin => pin.Bit + 1).Where(of => of.Last().Port == 'B')
            .Select(of => of.Key)];

    /// <summary>Changes of the pin of each valve that is held open by power.</summary>
    public IEnumerable<(long At, int Output, bool IsOpen)> Levels()
    {
        var isHigh = new bool[6];
        foreach (var pin in _pins.Where(pin => pin.Port == 'B' && pin.IsHigh != isHigh[pin.Bit]))
        {
            isHigh[pin.Bit] = pin.IsHigh;
            yield return (pin.At, pin.Bit + 1, pin.IsHigh);
        }
    }

    private static long Number(string text) => long.Parse(text, CultureInfo.InvariantCulture);

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
