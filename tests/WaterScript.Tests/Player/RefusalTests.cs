using System.Text;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>Nothing of a list is carried out that is not whole, or not understood.</summary>
public sealed class RefusalTests : PlayerWorkshop
{
    private const long Noon = 1_767_614_400;

    private static readonly SwitchingRow Open = SwitchingRow.Of(Noon + 60, 1, "open");
    private static readonly SwitchingRow Close = SwitchingRow.Of(Noon + 120, 1, "close");
    private static readonly string Whole = SwitchingList.Of(Noon, Noon + 3600, Open, Close);

    [ShellFact]
    public void A_list_cut_off_at_any_byte_is_refused() =>
        Assert.All(Samples.Some([.. Enumerable.Range(0, Whole.Length)], 3), length => Refuses(Whole[..length]));

    [ShellFact]
    public void A_list_cut_off_after_or_within_any_line_is_refused()
    {
        var list = SwitchingList.Of(BenchRig);
        var lineStarts = Enumerable.Range(0, list.Length).Where(at => at == 0 || list[at - 1] == '\n');
        Assert.All(lineStarts.SelectMany(start => new[] { start, start + 9 }), length => Refuses(list[..length]));
    }

    [ShellFact]
    public void A_list_with_any_other_byte_is_refused()
    {
        foreach (var at in Samples.Some([.. Enumerable.Range(0, Whole.Length)], 7))
        {
            var bytes = Encoding.UTF8.GetBytes(Whole);
            bytes[at] ^= 1;
            Write("list.csv", bytes);
            RefusesWhatLies();
        }
    }

    [ShellFact]
    public void A_list_with_a_line_more_or_less_is_refused()
    {
        var lines = Whole.Split("\r\n");
        for (var at = 0; at < lines.Length - 1; at++)
        {
            Refuses(string.Join("\r\n", [.. lines[..at], .. lines[(at + 1)..]]));
            Refuses(string.Join("\r\n", [.. lines[..at], lines[at], .. lines[at..]]));
        }
    }

    [ShellFact]
    public void A_list_with_other_line_ends_is_refused() => Refuses(Whole.ReplaceLineEndings("\n"));

    [ShellFact]
    public void The_reason_is_said()
    {
        Assert.Contains("its first line is not that of a list of switchings", Refuses("from,to,zone\r\n"), StringComparison.Ordinal);
        Assert.Contains("it is cut off: the last line with its count and hash is missing", Refuses(Whole[..(Whole.LastIndexOf('\n', Whole.Length - 2) + 1)]),
            StringComparison.Ordinal);
        Assert.Contains("it is cut off in the middle of a line", Refuses(Whole[..^1]), StringComparison.Ordinal);
        Assert.Contains("it is altered: its hash is ", Refuses(Whole.Replace(",close,", ",cl0se,", StringComparison.Ordinal)), StringComparison.Ordinal);
        Assert.Contains("it has 2 rows, and was written with another number", Refuses(Whole.Replace("end,2,", "end,3,", StringComparison.Ordinal)),
            StringComparison.Ordinal);
    }

    [ShellTheory]
    [InlineData("1767614460,0,bench,1,open,,,600", "line 2: 8 fields, and there should be 9")]
    [InlineData("1767614460,0,bench,1,toggle,,,600,1", "line 2: \"toggle\" is neither open nor close")]
    [InlineData("1767614460,0,bench,0,open,,,600,1", "line 2: there is no output 0")]
    [InlineData("1767614460,0,bench,9,open,,,600,1", "line 2: there is no output 9")]
    [InlineData("1767614460,0,bench,1,open,,,,1", "line 2: not a row with a time and a max_on_s")]
    [InlineData("1767614460,0,bench,1,open,,,0,1", "line 2: not a row with a time and a max_on_s")]
    [InlineData("soon,0,bench,1,open,,,600,1", "line 2: not a row with a time and a max_on_s")]
    [InlineData("1767614460,0,shed,1,open,,,600,1", "line 2: for the controller shed, not for bench")]
    public void A_row_that_is_not_understood_refuses_the_list_even_under_a_true_hash(string line, string reason)
    {
        Write("list.csv", SwitchingList.Of(Noon, Noon + 3600, line));
        Assert.Contains(reason, RefusesWhatLies("--controller bench --outputs 8"), StringComparison.Ordinal);
    }

    [ShellFact]
    public void Rows_out_of_order_are_refused() =>
        Assert.Contains("line 3: earlier than the line before it", Refuses(SwitchingList.Of(Noon, Noon + 3600, Close, Open)), StringComparison.Ordinal);

    [ShellFact]
    public void A_list_for_two_controllers_is_refused() =>
        Assert.Contains("line 3: for the controller shed, not for bench", Refuses(SwitchingList.Of(Noon, Noon + 3600, Open.Line(), Close.Line("shed"))),
            StringComparison.Ordinal);

    [ShellFact]
    public void Of_two_lists_only_the_newer_is_played()
    {
        Write("old.csv", Whole);
        Write("new.csv", SwitchingList.Of(Noon, Noon + 3600, SwitchingRow.Of(Noon + 90, 1, "open"), SwitchingRow.Of(Noon + 100, 1, "close")));
        Assert.Equal([Noon + 90, Noon + 100], Play(Noon, "new.csv old.csv").Where(line => line.Why == "list").Select(line => line.At / 1000));
    }

    [ShellFact]
    public void A_newer_list_that_is_not_whole_leaves_the_older_one_in_force()
    {
        Write("old.csv", Whole);
        Write("new.csv", Whole[..^20]);
        var result = Call($"--from {Noon} new.csv old.csv");
        Assert.Equal(0, result.ExitCode);
        Assert.Contains("new.csv is refused", result.Error, StringComparison.Ordinal);
        Assert.Equal([Noon + 60, Noon + 120], LogLine.Read(result.Output).Where(line => line.Why == "list").Select(line => line.At / 1000));
    }

    [ShellTheory]
    [InlineData("", "a list is needed")]
    [InlineData("--from noon list.csv", "--from needs a whole number")]
    [InlineData("--from 01767614400 list.csv", "--from needs a whole number of ten digits at most")]
    [InlineData("--from 99999999999 list.csv", "--from needs a whole number of ten digits at most")]
    [InlineData("--outputs 5000 list.csv", "--outputs needs 4096 at most")]
    [InlineData("--controller", "--controller needs a name")]
    [InlineData("--faster list.csv", "there is no --faster")]
    public void A_wrong_call_is_answered_and_plays_nothing(string words, string reason)
    {
        var result = Call(words);
        Assert.Equal(("", 2), (result.Output, result.ExitCode));
        Assert.Contains(reason, result.Error, StringComparison.Ordinal);
    }

    /// <summary>A list is refused in the middle of its opening; the reason.</summary>
    private string Refuses(string list)
    {
        Write("list.csv", list);
        return RefusesWhatLies();
    }

    /// <summary>The list in the folder is refused; the reason.</summary>
    private string RefusesWhatLies(string options = "--outputs 2")
    {
        var result = Call($"--from {Noon + 90} {options} list.csv");
        Assert.Equal(1, result.ExitCode);
        var log = LogLine.Read(result.Output);
        Assert.Equal("there is no list", log[^1].Why);
        Assert.All(log[1..^1], line => Assert.Equal(("close", "power-up"), (line.Do, line.Why)));
        Assert.NotEmpty(log[1..^1]);
        return result.Error;
    }
}
