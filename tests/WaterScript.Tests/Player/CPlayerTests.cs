using System.Globalization;
using System.Text;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>
/// The player in C does what the shell player does. Every case of this folder is played by both; these are cases that would take a shell too long, or that
/// it does not have: random lists, every second and byte, a clock that is put right.
/// </summary>
public sealed class CPlayerTests : PlayerWorkshop
{
    private const long Noon = 1_767_614_400;

    private static readonly string Whole = SwitchingList.Of(
        Noon, Noon + 3600, SwitchingRow.Of(Noon + 60, 1, "open"), SwitchingRow.Of(Noon + 120, 1, "close"));

    [CPlayerFact]
    public void It_answers_random_lists_as_the_shell_player_does()
    {
        var played = 0;
        foreach (var seed in Enumerable.Range(0, Samples.Of(200)))
        {
            var (list, words) = RandomList.Of(new Random(seed));
            Write("list.csv", list);
            played += Call($"{words} list.csv").ExitCode == 0 ? 1 : 0;
        }

        Assert.InRange(played, 1, int.MaxValue);
    }

    [CPlayerFact]
    public void It_takes_the_list_up_at_every_second()
    {
        List<Switching> meant = [.. BenchRig.Switchings()];
        Write("list.csv", SwitchingList.Of(BenchRig));
        for (var second = meant[0].Second - 2; second <= meant[^1].Second + 2; second++)
        {
            var log = LogLine.Read(Heard($"--from {second} list.csv"));
            var before = meant.TakeWhile(one => one.Milliseconds <= second * 1000);
            SortedSet<int> open = [.. before.GroupBy(one => one.Output).Where(of => of.Last().IsOpen).Select(of => of.Key)];
            Assert.Equal(open, LogLine.OpenAfter(log.TakeWhile(line => line.At == second * 1000 && line.Why != "list")));
            Assert.Equal(
                meant.Where(one => one.Milliseconds > second * 1000).Select(one => (one.Milliseconds, one.Output, one.IsOpen)),
                log.Where(line => line.Why == "list").Select(line => (line.At, line.Output, line.Do == "open")));
        }
    }

    [CPlayerFact]
    public void It_refuses_a_list_that_is_cut_off_at_any_byte() =>
        Assert.All(Samples.Some([.. Enumerable.Range(0, Whole.Length)], 5), length => Refuses(Encoding.UTF8.GetBytes(Whole[..length])));

    [CPlayerFact]
    public void It_refuses_a_list_with_any_other_byte()
    {
        foreach (var at in Samples.Some([.. Enumerable.Range(0, Whole.Length)], 6))
        {
            foreach (var bit in new[] { 0, 5, 7 })
            {
                var bytes = Encoding.UTF8.GetBytes(Whole);
                bytes[at] ^= (byte)(1 << bit);
                Refuses(bytes);
            }
        }
    }

    /// <summary>Between two settings of the clock it switches what the shell player switches between two cuts.</summary>
    [CPlayerFact]
    public void A_clock_that_is_put_right_is_a_restart()
    {
        foreach (var seed in Enumerable.Range(0, Samples.Of(40)))
        {
            var random = new Random(seed);
            var timetable = seed % 2 == 0 ? BenchRig : Nursery;
            var list = SwitchingList.Of(timetable);
            var rows = SwitchingList.Rows(list);
            var spans = Spans(random, rows).ToList();
            Write("list.csv", list);
            Write("clock.txt", string.Concat(spans.Zip(spans.Skip(1), (one, next) => Invariant($"{one.Cut} {next.From}\n"))));

            var parts = Parts(LogLine.Read(Heard(Invariant($"--from {spans[0].From} --clock clock.txt --cut {spans[^1].Cut} list.csv"))));

            Assert.Equal(spans.Count, parts.Count);
            foreach (var (span, part) in spans.Zip(parts))
            {
                var alone = LogLine.Read(Call(Invariant($"--from {span.From} --cut {span.Cut} list.csv")).Output);
                Assert.Equal(Switched(alone), Switched(part));
            }
        }
    }

    [CPlayerFact]
    public void A_clock_that_is_put_right_by_a_second_or_two_is_no_restart()
    {
        Write("list.csv", SwitchingList.Of(BenchRig));
        var first = BenchRig.Switchings().First().Second;
        Write("clock.txt", Invariant($"{first + 3} {first + 5}\n{first + 9} {first + 8}\n"));
        var log = LogLine.Read(Heard(Invariant($"--from {first - 1} --cut {first + 30} --clock clock.txt list.csv")));
        Assert.Equal(
            BenchRig.Switchings().TakeWhile(one => one.Second < first + 30).Select(one => (one.Milliseconds, one.Output, one.IsOpen)),
            log.Where(line => line.Why == "list").Select(line => (line.At, line.Output, line.Do == "open")));
        Assert.DoesNotContain(log, line => line.Do == "reset");
    }

    [CPlayerFact]
    public void A_clock_that_is_set_late_ends_the_rest()
    {
        Write("list.csv", Whole);
        Write("clock.txt", Invariant($"20 {Noon + 100}\n"));
        Assert.Equal(
            ["12.000 boot", "12.000 1 close power-up", "12.000 rest the clock is not set", $"{Noon + 100}.000 reset clock", $"{Noon + 100}.000 1 open join",
                $"{Noon + 120}.000 1 close list", $"{Noon + 3600}.000 rest the list has ended: a new one is needed"],
            LogLine.Read(Heard("--from 12 --clock clock.txt list.csv")).Select(line => line.Short()));
    }

    /// <summary>Closed by number, the first valve would close while the pump, output 2, still runs.</summary>
    [CPlayerFact]
    public void The_pump_is_closed_first()
    {
        Write("list.csv", SwitchingList.Of(Noon, Noon + 3600, SwitchingRow.Of(Noon + 60, 1, "open"), SwitchingRow.Of(Noon + 60, 2, "open")));
        Write("clock.txt", Invariant($"{Noon + 70} {Noon + 700}\n"));
        var log = LogLine.Read(Heard(Invariant($"--from {Noon} --outputs 3 --pump 2 --clock clock.txt list.csv")));
        Assert.Equal([2, 1, 3], log.Where(line => line.Why == "power-up").Select(line => line.Output));
        Assert.Equal([2, 1, 3], log.Where(line => line.Why == "clock" && line.Do == "close").Select(line => line.Output));
    }

    /// <summary>What it prints; it is content with the call.</summary>
    private string Heard(string words)
    {
        var result = CallC(words);
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        return result.Output;
    }

    private void Refuses(byte[] list)
    {
        Write("list.csv", list);
        var result = CallC(Invariant($"--from {Noon + 90} --outputs 2 list.csv"));
        Assert.Equal(1, result.ExitCode);
        Assert.StartsWith("player: list.csv is refused: ", result.Error, StringComparison.Ordinal);
        Assert.DoesNotContain(LogLine.Read(result.Output), line => line.Do == "open");
    }

    /// <summary>Spans of the device's clock, one after the other, now earlier and now later; in one of them it was never set.</summary>
    private static IEnumerable<(long From, long Cut)> Spans(Random random, List<SwitchingRow> rows)
    {
        var cut = 0L;
        for (var count = 0; count < 6; count++)
        {
            var from = count == 3 ? 12 : (rows[random.Next(rows.Count)].At / 1000) + random.Next(-3, 4);
            while (Math.Abs(from - cut) <= 2) from++;
            cut = from + random.Next(3, 2000);
            yield return (from, cut);
        }
    }

    private static List<List<LogLine>> Parts(List<LogLine> log)
    {
        List<List<LogLine>> parts = [[]];
        foreach (var line in log)
        {
            if (line is { Do: "reset", Why: "clock" }) parts.Add([]);
            parts[^1].Add(line);
        }

        return parts;
    }

    private static IEnumerable<string> Switched(IEnumerable<LogLine> log) =>
        log.Where(line => line.Why is "list" or "join" or "guard").Select(line => line.Short());

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
