using System.Globalization;
using WaterScript.Cli;
using WaterScript.Cli.Files;
using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>A file on which the program itself fails is named, and the others are gone on with. What fails here is standard input.</summary>
public sealed class InternalErrorTests : Workshop
{
    private const string Message = "waterscript: internal error in -; please report it with that file: ArgumentOutOfRangeException\n";

    [Fact]
    public void Check_goes_on_with_the_other_files()
    {
        var (output, error, status) = Run("check", PathOf("one.water"), "-", PathOf("two.water"));
        Assert.Contains("2 sites: no findings. ", output, StringComparison.Ordinal);
        Assert.Equal((Message, ExitCode.CannotRun), (error, status));
        Assert.Equal(("", Message, ExitCode.CannotRun), Run("check", "-"));
    }

    [Fact]
    public void Check_diff_goes_on_with_the_other_files()
    {
        Write(
            "one.water",
            "site one \"One\" { timezone Europe/Lisbon; effective 2026-03-01 }\nzone a { output 1 }\n"
                + "schedule s { every day; start at 6:00; steps { water a for 5 min } }\n");
        var (output, error, status) = Run("check", "--diff", "-", PathOf("one.water"));
        Assert.Contains("+schedule s { every day; start at 06:00; steps { water a for 5 min } }\n", output, StringComparison.Ordinal);
        Assert.Equal((Message, ExitCode.CannotRun), (error, status));
    }

    [Fact]
    public void Format_goes_on_with_the_other_files()
    {
        var (output, error, status) = Run("format", "--check", "-", PathOf("one.water"), PathOf("two.water"));
        Assert.Contains("one.water\n", output, StringComparison.Ordinal);
        Assert.Contains("two.water\n", output, StringComparison.Ordinal);
        Assert.StartsWith($"{Message}2 files would change. 1 was not read because of errors: \"-\".\nTo lay them out: ", error, StringComparison.Ordinal);
        Assert.Equal(ExitCode.CannotRun, status);
    }

    private new (string Output, string Error, int Status) Run(params string[] arguments)
    {
        foreach (var name in (string[])["One", "Two"])
        {
            if (!File.Exists(PathOf($"{name.ToLowerInvariant()}.water"))) Write($"{name.ToLowerInvariant()}.water",
                Good.Replace("site garden \"Garden\" {", $"site   garden \"{name}\" {{", StringComparison.Ordinal));
        }

        using var output = new StringWriter(CultureInfo.InvariantCulture);
        using var error = new StringWriter(CultureInfo.InvariantCulture);
        using var stream = new MemoryStream();
        var status = CommandLine.Run(arguments,
            new Terminal(Surroundings.OfProcess(), () =>
            throw new ArgumentOutOfRangeException(nameof(arguments)), stream, output, error, textHasColour: false, errorHasColour: false));
        return (output.ToString(), error.ToString(), status);
    }
}
