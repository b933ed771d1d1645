using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>What people see on a terminal while a site is slow to come: somebody writes standard input after more than a second.</summary>
public sealed partial class TerminalTests : Workshop
{
    private const string Check = "\"$WATERSCRIPT\" check -";

    [PseudoTerminalFact]
    public void A_slow_check_tells_on_a_terminal_what_it_does_and_leaves_a_clean_report()
    {
        var seen = OnTerminal("", Check);
        Assert.Matches(@"^(\rChecking, [1-9][0-9]* s)+\r +\rGarden: no findings", seen);
        Assert.DoesNotContain("Checking", Screen(seen), StringComparison.Ordinal);
    }

    [PseudoTerminalFact]
    public void Without_colour_it_is_reported_all_the_same_and_no_code_is_sent()
    {
        var seen = OnTerminal("NO_COLOR=1", Check);
        Assert.Contains("\rChecking, ", seen, StringComparison.Ordinal);
        Assert.DoesNotContain('\e', seen);
    }

    [PseudoTerminalFact]
    public void Of_several_files_it_is_reported_how_many_are_done()
    {
        Write("other.water", Good);
        Assert.Matches(@"^(\rChecking, [01] of 2 files, [1-9][0-9]* s)+\r +\r", OnTerminal("", "\"$WATERSCRIPT\" check - other.water"));
    }

    [PseudoTerminalFact]
    public void A_dumb_terminal_and_a_file_see_the_report_alone()
    {
        Assert.StartsWith("Garden: no findings", OnTerminal("TERM=dumb", Check), StringComparison.Ordinal);
        Assert.StartsWith("Garden: no findings", OnTerminal("", $"sh -c '{Check} 2> error'"), StringComparison.Ordinal);
        Assert.Equal("", Read("error"));
    }

    [PseudoTerminalFact]
    public void On_a_narrow_terminal_the_verdict_is_wrapped_at_words()
    {
        var seen = Screen(OnTerminal("", "sh -c 'stty cols 40 < /dev/tty; \"$WATERSCRIPT\" check -'"));
        Assert.StartsWith("Garden: no findings, but only days and\n  times were checked, 1 Mar 2026 to\n  29 Feb 2028.\nNot checked: flow", seen,
            StringComparison.Ordinal);
        Assert.All(seen.Split('\n'), line => Assert.InRange(line.Length, 0, 40));
    }

    /// <summary>
    /// All that a command sends to its terminal, with line ends as the program writes them, without how .NET opens a terminal of this kind (keys for
    /// applications, ECMA-48 private modes).
    /// </summary>
    private string OnTerminal(string environment, string command)
    {
        Write("site.water", Good);
        var quoted = command.Replace("\"", "\\\"", StringComparison.Ordinal).Replace("$", "\\$", StringComparison.Ordinal);
        var result = WaterscriptProcess.Shell(
            Folder,
            $"TERM=xterm {environment} script -qec \"(sleep 2.5; cat site.water) | {quoted}\" /dev/null < /dev/null");
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        return result.Output.Replace("\e[?1h\e=", "", StringComparison.Ordinal).Replace("\r\n", "\n", StringComparison.Ordinal);
    }

    /// <summary>The last state of each line.</summary>
    private static string Screen(string seen) => Overwritten().Replace(seen, "");

    [GeneratedRegex("[^\n]*\r")]
    private static partial Regex Overwritten();
}
