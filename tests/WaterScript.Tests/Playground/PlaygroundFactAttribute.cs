using WaterScript.Tests.Documentation;
using WaterScript.Tests.Documents.Charts;
using Xunit;

namespace WaterScript.Tests.Playground;

/// <summary>A test of the page that was built; it is skipped, and says so, where the page or a browser is missing.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class PlaygroundFactAttribute : FactAttribute
{
    public PlaygroundFactAttribute() => Skip =
        IsRequired ? null
        : !File.Exists(Path.Combine(Page, "index.html")) ? "no page, src/WaterScript.Playground/build makes one"
        : Browser.Look(["--version"]).Status == 0 ? null : "no browser, tests/browser/install gets one";

    /// <summary>The folder of the page.</summary>
    public static string Page => Environment.GetEnvironmentVariable("WATERSCRIPT_PLAYGROUND") is { Length: > 0 } folder
        ? folder
        : Path.Combine(Repository.Root, "artifacts", "playground");

    private static bool IsRequired => Environment.GetEnvironmentVariable("WATERSCRIPT_PLAYGROUND") is { Length: > 0 };
}
