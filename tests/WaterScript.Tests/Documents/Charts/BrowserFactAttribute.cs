using System.Diagnostics;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>A test that needs a browser; see <see cref="Outside"/>.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class BrowserFactAttribute : FactAttribute
{
    public BrowserFactAttribute() => Skip = Reason;

    /// <summary>Why it is skipped, or null.</summary>
    internal static string? Reason { get; } = Outside.Lacks("WATERSCRIPT_BROWSER", "tests/browser/install");
}

/// <summary>The same with many sites.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class BrowserTheoryAttribute : TheoryAttribute
{
    public BrowserTheoryAttribute() => Skip = BrowserFactAttribute.Reason;
}

/// <summary>The browser that looks at charts.</summary>
internal static class Browser
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(10);

    /// <summary>The script that uses the playground.</summary>
    public const string Playground = "playground.mjs";

    /// <summary>What it prints about pages.</summary>
    public static (string Output, string Error, int Status) Look(IEnumerable<string> arguments) => Run("look.mjs", arguments);

    /// <summary>What a script beside it prints.</summary>
    public static (string Output, string Error, int Status) Run(string script, IEnumerable<string> arguments)
    {
        var start = new ProcessStartInfo("node", [Path.Combine(Repository.Root, "tests", "browser", script), .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        try
        {
            using var process = Process.Start(start)!;
            using var deadline = new CancellationTokenSource(Patience);
            using var stop = deadline.Token.Register(process.Kill);
            var output = process.StandardOutput.ReadToEndAsync(CancellationToken.None);
            var error = process.StandardError.ReadToEndAsync(CancellationToken.None);
            process.WaitForExit();
            return (output.GetAwaiter().GetResult(), error.GetAwaiter().GetResult(), process.ExitCode);
        }
        catch (System.ComponentModel.Win32Exception missing)
        {
            return ("", missing.Message, -1);
        }
    }
}
