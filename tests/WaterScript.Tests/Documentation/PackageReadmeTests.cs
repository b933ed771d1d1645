using System.Text.RegularExpressions;
using WaterScript.Tests.Cli;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>The example in the README of the package is short, compiles without a warning, and does what it says.</summary>
public sealed partial class PackageReadmeTests : Workshop
{
    private static readonly string Example = Block().Match(Repository.Read("src/WaterScript/README.md")).Groups["code"].Value;

    [Fact]
    public void The_example_has_one_using_and_at_most_ten_lines()
    {
        var lines = Example.TrimEnd('\n').Split('\n');
        Assert.InRange(lines.Length, 5, 10);
        Assert.Equal(["using WaterScript;"], lines.Where(line => Using().IsMatch(line)));
    }

    [Fact]
    public void The_example_compiles_and_runs()
    {
        Write("balcony.water", Repository.Read("examples/balcony.water"));

        var run = PageProgram.Run(Example, Folder);

        Assert.Equal(("", 0), (run.Error, run.ExitCode));
        Assert.Equal("2026-04-17 07:30 herbs\n2026-04-21 07:30 herbs\n2026-04-24 07:30 herbs\n", run.Output.ReplaceLineEndings("\n"));
        Assert.Equal(Run("compile", "balcony.water", "--to", "yaml").Output, Read("balcony.yaml"));
    }

    [GeneratedRegex(@"```csharp\n(?<code>.*?)```", RegexOptions.Singleline)]
    private static partial Regex Block();

    [GeneratedRegex(@"^using [\w.]+;$")]
    private static partial Regex Using();
}
