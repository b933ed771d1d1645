using WaterScript.Syntax;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>The files that includes name.</summary>
internal static class IncludeLinks
{
    /// <summary>The path of an included file, whether it is there or not; null where it is no path.</summary>
    public static string? TargetOf(IncludeNode include, Asked asked) =>
        include.Path.Value is { Length: > 0 } value && !value.Contains('\0', StringComparison.Ordinal)
            ? Path.GetFullPath(value, Path.GetDirectoryName(asked.Document.Path)!)
            : null;
}
