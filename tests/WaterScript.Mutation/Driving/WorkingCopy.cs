namespace WaterScript.Mutation.Driving;

/// <summary>A copy of the repository, in which it is built: nothing is changed in the tree itself.</summary>
internal static class WorkingCopy
{
    private const string Tests = "tests/WaterScript.Tests";

    /// <summary>Where the copy lies.</summary>
    public static string Of(string root) => Path.Combine(root, "artifacts/mutation/tree");

    /// <summary>Makes the copy what the repository is, and builds the tests there.</summary>
    public static void Bring(string root)
    {
        var copy = Of(root);
        Directory.CreateDirectory(copy);
        var files = Commands.Ask(root, "git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"])
            .Split('\0', StringSplitOptions.RemoveEmptyEntries).Where(path => File.Exists(Path.Combine(root, path))).ToHashSet();
        foreach (var path in files) Copy(Path.Combine(root, path), Path.Combine(copy, path));
        foreach (var source in Directory.EnumerateFiles(copy, "*.cs", SearchOption.AllDirectories))
        {
            var path = Path.GetRelativePath(copy, source);
            if (!files.Contains(path) && !path.Contains("/obj/", StringComparison.Ordinal)) File.Delete(source);
        }

        Commands.Ask(copy, "dotnet", ["build", Tests, "-p:RunAnalyzers=false", "-v", "q"]);
    }

    /// <summary>Where the tests of a copy lie, once built.</summary>
    public static string TestsOf(string copy) => Path.Combine(copy, Tests, "bin/Debug/net10.0/WaterScript.Tests.dll");

    private static void Copy(string from, string to)
    {
        var source = new FileInfo(from);
        var target = new FileInfo(to);
        if (target.Exists && target.Length == source.Length && target.LastWriteTimeUtc == source.LastWriteTimeUtc) return;
        target.Directory!.Create();
        source.CopyTo(to, overwrite: true);
    }
}
