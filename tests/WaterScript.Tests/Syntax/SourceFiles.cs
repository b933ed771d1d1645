using System.Runtime.CompilerServices;

namespace WaterScript.Tests.Syntax;

/// <summary>The source files of this repository.</summary>
internal static class SourceFiles
{
    /// <summary>The folder of the repository.</summary>
    public static string Root { get; } = Path.GetFullPath(Path.Combine(ThisFolder(), "..", "..", ".."));

    /// <summary>Every example, relative to <see cref="Root"/>.</summary>
    public static IEnumerable<string> Examples => Under("examples");

    /// <summary>Every source below a folder, relative to <see cref="Root"/>.</summary>
    public static IEnumerable<string> Under(string folder) =>
        Directory.EnumerateFiles(Path.Combine(Root, folder), "*.water", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(Root, path).Replace('\\', '/'))
            .Order(StringComparer.Ordinal);

    private static string ThisFolder([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;
}
