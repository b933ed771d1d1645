using System.Globalization;
using System.Text;
using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Player;

/// <summary>Lists under a true hash that somebody made to mislead a device, and names of files that mean something to a shell.</summary>
public sealed class HostileListTests : PlayerWorkshop
{
    private const long Noon = 1_767_614_400;
    private const string NoTime = "line 2: not a row with a time and a max_on_s";
    private const string Opens = "1767614460,0,bench,1,open,positive,40,600,1";

    private static readonly string Whole = SwitchingList.Of(Noon, Noon + 3600, Opens, "1767614520,0,bench,1,close,negative,40,600,1");

    [ShellTheory]
    [InlineData("99999999999999999999,0,bench,1,open,,,600,1", NoTime)]
    [InlineData("4294967296,0,bench,1,open,,,600,1", NoTime)]
    [InlineData("01767614460,0,bench,1,open,,,600,1", NoTime)]
    [InlineData("-5,0,bench,1,open,,,600,1", NoTime)]
    [InlineData("1e9,0,bench,1,open,,,600,1", NoTime)]
    [InlineData("0x10,0,bench,1,open,,,600,1", NoTime)]
    [InlineData("1767614460,1000,bench,1,open,,,600,1", NoTime)]
    [InlineData("1767614460,0,bench,1,open,,,99999999999,1", NoTime)]
    [InlineData("1767614460,0,bench,1,open,,,-600,1", NoTime)]
    [InlineData("1767614460,0,bench,5000,open,,,600,1", "line 2: there is no output 5000")]
    [InlineData("1767614460,0,bench,01,open,,,600,1", "line 2: there is no output 01")]
    [InlineData("1767614460,0,bench,1,open,negative,40,600,1", "line 2: a pulse that is negative does not open")]
    [InlineData("1767614460,0,bench,1,close,positive,40,600,1", "line 2: a pulse that is positive does not close")]
    [InlineData("1767614460,0,bench,1,open,positive,0,600,1", "line 2: not a pulse of up to 10000 ms")]
    [InlineData("1767614460,0,bench,1,open,positive,10001,600,1", "line 2: not a pulse of up to 10000 ms")]
    [InlineData("1767614460,0,bench,1,open,positive,10000.001,600,1", "line 2: not a pulse of up to 10000 ms")]
    [InlineData("1767614460,0,bench,1,open,positive,40.,600,1", "line 2: not a pulse of up to 10000 ms")]
    [InlineData("1767614460,0,bench,1,open,positive,0.00,600,1", "line 2: not a pulse of up to 10000 ms")]
    [InlineData("1767614460,0,bench,1,open,positive,1e3,600,1", "line 2: not a pulse of up to 10000 ms")]
    [InlineData("1767614460,0,bench,1,open,,40,600,1", "line 2: not a pulse of up to 10000 ms")]
    [InlineData("1767614460,0,bench,1,open,,,600,4294967296", "line 2: not the number of an opening")]
    [InlineData("1767614460,0,bench,1,open,,,600,first", "line 2: not the number of an opening")]
    [InlineData("1767614460,0,be\u001b[2Jnch,1,open,,,600,1", "it has bytes that are no text")]
    [InlineData("1767614460,0,be\u009b2Jnch,1,open,,,600,1", "line 2: not the name of a controller")]
    [InlineData("1767614460,0,bench,1,open,,,600,1\r", "line 2: it does not end in CR LF, or has a CR within")]
    [InlineData("end,0,x,1,2,,,,", "line 3: a line after the closing one")]
    public void A_row_that_would_mislead_a_device_refuses_the_list(string line, string reason) =>
        Assert.Contains(reason, Refused(SwitchingList.Of(Noon, Noon + 3600, line)), StringComparison.Ordinal);

    [ShellTheory]
    [InlineData("-1", "1767618000")]
    [InlineData("1767614400", "4294967296")]
    [InlineData("1767614400", "1767614400")]
    [InlineData("1767614400", "99999999999999999999")]
    [InlineData("01767614400", "1767618000")]
    [InlineData("1.7e9", "1767618000")]
    public void Dates_that_a_device_cannot_count_refuse_the_list(string from, string until)
    {
        var text = Whole[..Whole.LastIndexOf("end,", StringComparison.Ordinal)];
        Assert.Contains("line 4: not a time to begin and one to end", Refused(SwitchingList.Sealed(text, 2, from, until)), StringComparison.Ordinal);
    }

    [ShellFact]
    public void A_closing_row_with_more_in_it_refuses_the_list()
    {
        var text = Whole[..Whole.LastIndexOf("end,", StringComparison.Ordinal)];
        Assert.Contains("it is altered: its hash is ", Refused(SwitchingList.Sealed(text, 2, "1767614400", "1767618000", "x,,,")), StringComparison.Ordinal);
        Assert.Contains("line 4: 10 fields, and there should be 9", Refused(SwitchingList.Sealed(text, 2, "1767614400", "1767618000", ",,,,")),
            StringComparison.Ordinal);
    }

    [ShellFact]
    public void An_output_that_changes_its_kind_of_valve_refuses_the_list() =>
        Assert.Contains(
            "line 3: output 1 has another pulse or max_on_s than before",
            Refused(SwitchingList.Of(Noon, Noon + 3600, Opens, "1767614520,0,bench,1,close,,,600,1")),
            StringComparison.Ordinal);

    /// <summary>To awk the operand <c>a=b</c> is an assignment, and to most programs <c>-n</c> is an option.</summary>
    [ShellTheory]
    [InlineData("a=b.csv", "a=b.csv")]
    [InlineData("outputs=9", "outputs=9")]
    [InlineData("-n", "-- -n")]
    [InlineData("two words.csv", "'two words.csv'")]
    public void A_name_is_a_file_and_nothing_else(string name, string words)
    {
        Write("list.csv", Whole);
        Write(name, Whole);
        var plain = Call($"--from {Noon} list.csv");
        var named = Call($"--from {Noon} {words}");
        Assert.Equal((plain.Output, "", 0), (named.Output, named.Error, named.ExitCode));
        Assert.Contains(",1,open,positive,40,list,1,", named.Output, StringComparison.Ordinal);
    }

    /// <summary>Whichever shells and awks the machine has: each plays and refuses the same.</summary>
    [ShellFact]
    public void Every_shell_and_awk_gives_the_same()
    {
        Write("good.csv", Whole);
        Write("old.csv", SwitchingList.Of(Noon, Noon + 3600, "01767614460,0,bench,1,open,,,600,1"));
        var words = $"--from {Noon} old.csv good.csv";
        var (output, error) = (Call(words).Output, Call(words).Error);
        foreach (var awk in new[] { "mawk", "gawk", "gawk --posix", "original-awk", "busybox awk" }.Where(Has))
        {
            Write("bin/awk", $"#!/bin/sh\nexec {awk} \"$@\"\n");
            foreach (var shell in new[] { "dash", "bash", "bash --posix", "busybox sh", "mksh", "ksh", "yash" }.Where(Has))
            {
                var result = WaterscriptProcess.Shell(Folder, $"chmod +x bin/awk && PATH=$PWD/bin:$PATH {shell} '{Script}' --speed 0 {words}");
                Assert.Equal((shell, awk, output, error, 0), (shell, awk, result.Output, result.Error, result.ExitCode));
            }
        }
    }

    private static bool Has(string command) =>
        Environment.GetEnvironmentVariable("PATH")!.Split(':').Any(folder => File.Exists(Path.Combine(folder, command.Split(' ')[0])));

    /// <summary>The list is refused and nothing is opened; the reason.</summary>
    private string Refused(string list)
    {
        Write("list.csv", Encoding.UTF8.GetBytes(list));
        var result = Call(string.Create(CultureInfo.InvariantCulture, $"--from {Noon + 90} --outputs 2 list.csv"));
        Assert.Equal(1, result.ExitCode);
        Assert.DoesNotContain(LogLine.Read(result.Output), line => line.Do == "open");
        return result.Error;
    }
}
