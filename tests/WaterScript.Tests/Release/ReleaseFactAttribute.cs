using Xunit;

namespace WaterScript.Tests.Release;

/// <summary>A test of what .ci/release made, in the folder that <c>WATERSCRIPT_RELEASE</c> names; it is skipped, and says so, where none is named.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class ReleaseFactAttribute : FactAttribute
{
    public ReleaseFactAttribute() => Skip = Folder.Length > 0 ? null : "no release, .ci/release --here makes one and WATERSCRIPT_RELEASE names it";

    /// <summary>The folder of the release.</summary>
    public static string Folder { get; } = Environment.GetEnvironmentVariable("WATERSCRIPT_RELEASE") is { Length: > 0 } named ? Path.GetFullPath(named) : "";
}
