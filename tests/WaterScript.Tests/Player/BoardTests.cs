using System.Globalization;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>The player in C on an emulated 8-bit board, an ATmega328P with 2048 bytes of memory: its pins do what the list says.</summary>
public sealed class BoardTests : PlayerWorkshop
{
    private const long Noon = 1_767_614_400;

    /// <summary>A line of the log takes 20 ms to send, and a row that comes at the same moment waits for it.</summary>
    private const long MostLate = 120;

    /// <summary>A latching valve and one that is held open, for half a minute each.</summary>
    private static string TwoOpenings =>
        SwitchingList.Of(
            Noon - 60,
            Noon + 3600,
            new SwitchingRow(Noon * 1000, 1, "open", "positive", "40", 60, "1"),
            SwitchingRow.Of(Noon, 2, "open", mostOn: 90),
            new SwitchingRow((Noon + 30) * 1000, 1, "close", "negative", "40", 60, "1"),
            SwitchingRow.Of(Noon + 30, 2, "close", mostOn: 90));

    private static long First => BenchRig.Switchings().First().Second;

    [BoardFact]
    public void Its_pins_do_what_the_list_says()
    {
        var list = SwitchingList.Of(BenchRig);
        var rows = SwitchingList.Rows(list);
        var run = Play("latching", list, First - 10, (rows[^1].At / 1000) - First + 15);

        Follows(rows, run.Pulses().Where(pulse => pulse.At >= First * 1000).Select(pulse => (pulse.At, pulse.Output, pulse.IsOpen)));
        Assert.All(run.Pulses().Where(pulse => pulse.At >= First * 1000), pulse => Assert.InRange(pulse.PulseMs, 40, 41));
        Assert.InRange(run.Bytes, 1, 1400);
    }

    [BoardFact]
    public void It_logs_what_the_shell_player_prints()
    {
        var list = SwitchingList.Of(BenchRig);
        var run = Play("latching", list, First - 10, 60);
        Write("list.csv", list);
        var shell = LogLine.Read(Call(string.Create(CultureInfo.InvariantCulture, $"--from {First - 10} --cut {First + 49} list.csv")).Output);
        var meant = shell.Where(line => line.Why == "list").ToList();
        var logged = run.Log.Where(line => line.Why == "list").Take(meant.Count).ToList();
        Assert.Equal(meant, logged.Zip(meant, (line, shown) => line with { At = shown.At }));
        Assert.All(meant.Zip(logged), pair => Assert.InRange(pair.Second.At - pair.First.At, 0, MostLate));
        Assert.InRange(meant.Count, 10, 20);
    }

    [BoardFact]
    public void It_closes_everything_first_pulse_by_pulse()
    {
        var run = Play("latching", SwitchingList.Of(BenchRig), First - 10, 5);
        var closings = run.Pulses().ToList();
        Assert.Equal([1, 2, 3, 4, 5, 6], closings.Select(pulse => pulse.Output));
        Assert.All(closings, pulse => Assert.False(pulse.IsOpen));
        Assert.All(closings.Zip(closings.Skip(1)), pair => Assert.InRange(pair.Second.At - pair.First.At, 499, 550));
    }

    [BoardFact]
    public void Valves_that_are_held_open_follow_the_list_and_its_guard()
    {
        SwitchingRow[] rows =
        [
            SwitchingRow.Of(Noon, 1, "open", mostOn: 60),
            SwitchingRow.Of(Noon, 2, "open", mostOn: 120) with { At = (Noon * 1000) + 500 },
            SwitchingRow.Of(Noon + 5, 3, "open", mostOn: 120),
            SwitchingRow.Of(Noon + 20, 3, "close", mostOn: 120),
            SwitchingRow.Of(Noon + 30, 2, "close", mostOn: 120),
        ];
        var run = Play("held", SwitchingList.Of(Noon - 60, Noon + 3600, rows), Noon - 5, 80);
        var levels = run.Levels().ToList();
        Follows(rows, levels.Take(rows.Length));
        var guarded = Assert.Single(levels.Skip(rows.Length));
        Assert.Equal((1, false), (guarded.Output, guarded.IsOpen));
        Assert.InRange(guarded.At - (Noon * 1000), 58_900, 60_050);
        Assert.Contains(run.Log, line => line is { Why: "guard", Output: 1 });
    }

    [BoardTheory]
    [InlineData(8)]
    [InlineData(11)]
    [InlineData(40)]
    [InlineData(151)]
    public void It_joins_what_is_still_due(int after) =>
        IsAsTheListSays(Play("latching", SwitchingList.Of(BenchRig), First + after, 40), First + after + 7, First + after + 40);

    /// <summary>It compares its clock every five seconds here; then it closes six outputs, half a second apart, and reads the list again.</summary>
    [BoardTheory]
    [InlineData(20, 95)]
    [InlineData(60, 3)]
    [InlineData(21, 100_000)]
    public void It_takes_the_list_up_again_when_the_clock_is_put_right(int at, int to)
    {
        var run = Play("latching", SwitchingList.Of(BenchRig), First - 10, at + 10 + 45, "--clock", $"{First + at}", $"{First + to}");
        Assert.Contains(run.Log, line => line is { Do: "reset", Why: "clock" } && line.At >= (First + to) * 1000);
        IsAsTheListSays(run, First + to + 11, First + to + 45);
    }

    [BoardFact]
    public void It_rests_until_the_clock_is_set()
    {
        var run = Play("latching", SwitchingList.Of(BenchRig), 100, 120, "--clock", "110", $"{First - 60}");
        Assert.Contains(run.Log, line => line.Why == "the clock is not set");
        Assert.All(run.Pulses().Where(pulse => pulse.IsOpen), pulse => Assert.InRange(pulse.At, First * 1000, (First + 60) * 1000));
        IsAsTheListSays(run, First - 1, First + 45);
    }

    [BoardFact]
    public void A_noisy_line_changes_nothing()
    {
        var list = SwitchingList.Of(BenchRig);
        var rows = SwitchingList.Rows(list);
        var run = Play("latching", list, First - 30, 90, "--noise", "211");
        Assert.InRange(run.AskedAgain, 5, int.MaxValue);
        Follows(rows.Where(row => row.At < (First + 59) * 1000),
            run.Pulses().Where(pulse => pulse.At >= First * 1000 && pulse.At < ((First + 59) * 1000) + MostLate)
                .Select(pulse => (pulse.At, pulse.Output, pulse.IsOpen)), 500);
    }

    [BoardFact]
    public void It_carries_nothing_out_of_a_list_that_is_not_whole()
    {
        var list = SwitchingList.Of(BenchRig);
        string[] broken =
        [
            "", list[..40], list[..(list.Length / 2)], list[..^1], list[..^2], list.Replace(",close,", ",cl0se,", StringComparison.Ordinal),
            list.Replace("rig", "rag", StringComparison.Ordinal), list.ReplaceLineEndings("\n"),
        ];
        foreach (var text in broken)
        {
            var run = Play("latching", text, First - 6, 30);
            Assert.Single(run.Refusals);
            Assert.DoesNotContain(run.Pulses(), pulse => pulse.IsOpen);
        }

        Assert.Single(Play("held", list, First - 6, 10).Refusals);
    }

    /// <summary>The main loop stops in second 5 with two outputs open, a latching one and one that is held open.</summary>
    [BoardFact]
    public void With_its_main_loop_stopped_it_closes_within_max_on_s()
    {
        var run = Play("hanging", TwoOpenings, Noon - 6, 120);
        Assert.DoesNotContain(run.Log, line => line.At > (Noon + 10) * 1000);
        var closing = Assert.Single(run.Pulses(), pulse => pulse is { Output: 1, IsOpen: false } && pulse.At > Noon * 1000);
        Assert.InRange(closing.At - (Noon * 1000), 58_900, 60_100);
        Assert.InRange(closing.PulseMs, 49, 51);
        var drop = Assert.Single(run.Levels(), level => level is { Output: 2, IsOpen: false });
        Assert.InRange(drop.At - (Noon * 1000), 88_900, 90_100);
    }

    /// <summary>Its main loop stops in second 5 and does not feed the watchdog either, which has two seconds of patience.</summary>
    [BoardFact]
    public void A_main_loop_that_hangs_is_restarted_with_everything_closed()
    {
        var run = Play("dead", TwoOpenings, Noon - 6, 60);
        Assert.InRange(run.Log.Count(line => line.Do == "boot"), 2, int.MaxValue);
        var closing = run.Pulses().First(pulse => pulse.At > Noon * 1000 && pulse is { Output: 1, IsOpen: false });
        Assert.InRange(closing.At, (Noon + 5) * 1000, (Noon + 15) * 1000);
        var drop = Assert.Single(run.Levels(), level => level is { Output: 2, IsOpen: false });
        Assert.InRange(drop.At, (Noon + 5) * 1000, closing.At);
    }

    [BoardFact]
    public void A_list_that_is_exchanged_under_its_hands_is_dropped_and_then_checked_from_the_start()
    {
        var old = SwitchingList.Of(Noon - 60, Noon + 3600, [.. Enumerable.Range(0, 12).SelectMany(turn => new[]
        {
            SwitchingRow.Of(Noon + (turn * 10), 1, "open"), SwitchingRow.Of(Noon + (turn * 10) + 9, 1, "close"),
        })]);
        SwitchingRow[] rows = [SwitchingRow.Of(Noon + 110, 4, "open"), SwitchingRow.Of(Noon + 120, 4, "close")];
        Write("new.csv", SwitchingList.Of(Noon - 60, Noon + 3600, rows));

        var run = Play("held", old, Noon - 5, 140, "--swap", $"{Noon + 33}", "new.csv");

        var lost = Assert.Single(run.Log, line => line is { Do: "rest", Why: "the list is not what was checked" });
        Assert.InRange(lost.At, Noon * 1000, (Noon + 60) * 1000);
        Follows(rows, run.Levels().Where(level => level.At > lost.At));
    }

    [BoardFact]
    public void After_the_end_of_a_list_it_takes_up_a_new_one_once()
    {
        Write("new.csv", SwitchingList.Of(Noon, Noon + 3600, SwitchingRow.Of(Noon + 70, 2, "open"), SwitchingRow.Of(Noon + 80, 2, "close")));
        var old = SwitchingList.Of(Noon - 60, Noon + 8, SwitchingRow.Of(Noon, 1, "open"), SwitchingRow.Of(Noon + 5, 1, "close"));
        var run = Play("held", old, Noon - 70, 200, "--swap", $"{Noon + 10}", "new.csv");
        Assert.Equal([(1, true), (1, false), (2, true), (2, false)], run.Levels().Select(level => (level.Output, level.IsOpen)));
        Assert.Equal(2, run.Log.Count(line => line is { Do: "reset", Why: "new list" }));
    }

    /// <summary>Its two valves were open, and the pump is output 3 of this firmware.</summary>
    [BoardFact]
    public void It_closes_the_pump_before_the_valves()
    {
        var list = SwitchingList.Of(Noon - 60, Noon + 3600, [.. Enumerable.Range(1, 3).Select(output => SwitchingRow.Of(Noon, output, "open"))]);
        var run = Play("held", list, Noon - 5, 30, "--clock", $"{Noon + 10}", $"{Noon + 2000}");
        Assert.Equal([3, 1, 2], run.Levels().Where(level => !level.IsOpen).Select(level => level.Output));
    }

    private BoardRun Play(string firmware, string list, long from, long seconds, params string[] options)
    {
        Write("list.csv", list);
        var run = BoardRun.Of(Folder, firmware, "list.csv", from, seconds, options);
        Assert.InRange(run.Bytes, 1, 2047);
        return run;
    }

    /// <summary>Each row moves its output, in the same order, at its time or a little later.</summary>
    private static void Follows(IEnumerable<SwitchingRow> rows, IEnumerable<(long At, int Output, bool IsOpen)> moved, long mostLate = MostLate)
    {
        var (meant, done) = (rows.ToList(), moved.ToList());
        Assert.Equal(meant.Select(row => (row.Output, row.Do == "open")), done.Select(one => (one.Output, one.IsOpen)));
        Assert.All(meant.Zip(done), pair => Assert.InRange(pair.Second.At - pair.First.At, 0, mostLate));
    }

    /// <summary>Ten times a second the outputs of the bench are open as its list says, but for the moments right after a row.</summary>
    private static void IsAsTheListSays(BoardRun run, long from, long until)
    {
        var rows = SwitchingList.Rows(SwitchingList.Of(BenchRig));
        for (var at = from * 1000; at < until * 1000; at += 100)
        {
            if (rows.Any(row => row.At <= at && row.At >= at - MostLate)) continue;
            SortedSet<int> meant = [.. rows.Where(row => row.At <= at).GroupBy(row => row.Output).Where(of => of.Last().Do == "open").Select(of => of.Key)];
            Assert.Equal((at, string.Join(' ', meant)), (at, string.Join(' ', run.OpenAt(at))));
        }
    }
}
