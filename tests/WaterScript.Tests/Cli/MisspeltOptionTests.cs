using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>With a slip in an option nothing is done: each letter of each option of each command is dropped, doubled, and swapped with the next.</summary>
public sealed partial class MisspeltOptionTests : Workshop
{
    public static TheoryData<string> Commands =>
    [
        "check site.water", "check --fix site.water", "format site.water", "compile site.water --to yaml -o out.yaml", "chart site.water -o out.svg",
        "next site.water", "why site.water lawn 2026-03-11", "diff site.water site.water", "audit site.water site.water", "explain unused",
        "advise site.water", "usage site.water",
    ];

    [Theory]
    [MemberData(nameof(Commands))]
    public void A_slip_in_an_option_changes_no_byte(string command)
    {
        Write("site.water", Good.Replace("10 min", "10min", StringComparison.Ordinal));
        var before = Snapshot();
        var words = command.Split(' ');
        var options = OptionAtStart().Matches(Run(words[0], "--help").Output).Select(match => match.Value).ToHashSet();
        Assert.Contains("--quiet", options);
        string[] slips = [.. options.SelectMany(Slips).Where(slip => !options.Contains(slip)).Distinct()];
        foreach (var slip in Samples.Some(slips, words[0].Length))
        {
            foreach (var line in new[] { [.. words, slip, "2"], new[] { words[0], slip, "2" }.Concat(words[1..]).ToArray() })
            {
                var result = Run(line);
                Assert.True(result.ExitCode == 2, $"{string.Join(' ', line)} ends with {result.ExitCode}: {result.Error}");
                Assert.Equal(before, Snapshot());
            }
        }
    }

    [Theory]
    [InlineData("format site.water --chekc", "unknown option --chekc; did you mean --check?")]
    [InlineData("format site.water sight.water", "no such file: sight.water; nothing was changed")]
    [InlineData("check --fix site.water sight.water", "no such file: sight.water; nothing was changed")]
    [InlineData("check site.water -output all.txt", "unknown option -output; did you mean --output?")]
    [InlineData("check site.water \u2013fix", "unknown option \u2013fix; did you mean --fix?")]
    [InlineData("check site.water \u2014fix", "unknown option \u2014fix; did you mean --fix?")]
    public void It_is_said_what_was_meant(string line, string why)
    {
        Write("site.water", Good.Replace("10 min", "10min", StringComparison.Ordinal));
        var before = Snapshot();
        var result = RunLine(line);
        Assert.Equal(2, result.ExitCode);
        Assert.StartsWith($"waterscript: {why}\n", result.Error, StringComparison.Ordinal);
        Assert.Equal(before, Snapshot());
    }

    [Fact]
    public void An_argument_of_nothing_is_answered() =>
        Assert.StartsWith("waterscript: unknown argument \"\"\n", Run("compile", "site.water", "").Error, StringComparison.Ordinal);

    [Fact]
    public void A_file_that_is_called_like_an_option_is_named_behind_two_dashes()
    {
        Write("--site.water", Good);
        Assert.Equal(0, RunLine("check -- --site.water").ExitCode);
    }

    private static IEnumerable<string> Slips(string option)
    {
        for (var i = 0; i < option.Length; i++)
        {
            yield return option.Remove(i, 1);
            yield return option.Insert(i, option[i].ToString());
            if (i + 1 < option.Length) yield return $"{option[..i]}{option[i + 1]}{option[i]}{option[(i + 2)..]}";
        }
    }

    private string[] Snapshot() =>
        [.. Directory.GetFiles(Folder, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)
            .Select(path => $"{path} {Convert.ToHexString(File.ReadAllBytes(path))}")];

    [GeneratedRegex("(?<=\n  (?:-[a-z], )*)-(?:-[a-z-]+|[a-z])(?=[, <])", RegexOptions.CultureInvariant)]
    private static partial Regex OptionAtStart();
}
