using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>The manual page comes from the help, and has all of it.</summary>
public sealed class ManualPageTests : Workshop
{
    private string Page => Run("manual").Output;

    [Fact]
    public void It_has_every_command_and_every_option()
    {
        var commands = Offered("").Where(word => char.IsAsciiLetter(word[0])).ToArray();
        Assert.NotEmpty(commands);
        foreach (var command in commands)
        {
            var section = Page.Split($".SS waterscript {command} ")[1].Split(".SS ")[0] + Page.Split(".SH OPTIONS OF ALL COMMANDS")[1];
            foreach (var option in Offered($"{command} --"))
                Assert.Contains(option.Replace("-", "\\-", StringComparison.Ordinal), section, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void No_line_of_text_is_taken_for_a_macro() =>
        Assert.All(Page.Split('\n').Where(line => line.StartsWith('.')), line => Assert.Matches("^\\.(TH|SH|SS|TP|B|I|RI)( |$)", line));

    private string[] Offered(string line) =>
        Run($"[suggest:{line.Length}]", line).Output.Split('\n', StringSplitOptions.RemoveEmptyEntries);
}
