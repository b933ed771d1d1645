using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>A test in real shells. Where one is missing the test is left out, with the reason; <c>WATERSCRIPT_SHELLS=required</c> fails instead.</summary>
internal sealed class ShellTheoryAttribute : TheoryAttribute
{
    public static readonly string[] Shells = ["bash", "zsh", "fish"];

    public ShellTheoryAttribute()
    {
        if (Environment.GetEnvironmentVariable("WATERSCRIPT_SHELLS") == "required") return;
        var missing = Shells.Where(shell => !IsThere(shell)).ToArray();
        if (missing.Length > 0) Skip = $"not installed: {string.Join(", ", missing)}; tests/shells/install gets them";
    }

    private static bool IsThere(string shell) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(folder => File.Exists(Path.Combine(folder, shell)));
}
