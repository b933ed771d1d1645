namespace WaterScript.Tests.Documentation;

/// <summary>Files of the repository that the tests were built from.</summary>
internal static class Repository
{
    /// <summary>The folder with the solution.</summary>
    public static string Root { get; } = FindRoot(new DirectoryInfo(AppContext.BaseDirectory));

    /// <summary>
    /// Pages with code that a reader may copy: the README, the contributors' guide, what is in <c>docs/</c> and what lies beside the examples, as paths from
    /// the root.
    /// </summary>
    public static IEnumerable<string> Pages =>
        new[] { "docs", "examples" }
            .SelectMany(folder => Directory.EnumerateFiles(Path.Combine(Root, folder), "*.md", SearchOption.AllDirectories))
            .Concat(Directory.EnumerateFiles(Root, "*.md"))
            .Select(Relative)
            .Order(StringComparer.Ordinal);

    /// <summary>Every file under <c>examples/</c>, as paths from the root.</summary>
    public static IEnumerable<string> ExampleFiles =>
        Directory.EnumerateFiles(Path.Combine(Root, "examples"), "*.water", SearchOption.AllDirectories)
            .Select(Relative)
            .Order(StringComparer.Ordinal);

    /// <summary>Every file under a folder, as paths from the root, but for what building leaves there.</summary>
    public static IEnumerable<string> FilesUnder(string folder) =>
        Directory.EnumerateFiles(Path.Combine(Root, folder), "*", SearchOption.AllDirectories)
            .Select(Relative)
            .Where(path => !path.Split('/').Any(part => part is "bin" or "obj" or "node_modules"));

    /// <summary>The text of a file, given by its path from the root.</summary>
    public static string Read(string path) => File.ReadAllText(Path.Combine(Root, path));

    private static string Relative(string path) => Path.GetRelativePath(Root, path).Replace('\\', '/');

    private static string FindRoot(DirectoryInfo folder) =>
        File.Exists(Path.Combine(folder.FullName, "WaterScript.sln"))
            ? folder.FullName
            : FindRoot(folder.Parent ?? throw new DirectoryNotFoundException("no folder above the tests holds WaterScript.sln"));
}
