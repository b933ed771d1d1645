using NodaTime;

namespace WaterScript.Cli.Files;

/// <summary>
/// What a command finds around it: the folder that paths start from, variables, and a clock. Commands ask these and never the process, so that several can run
/// in one.
/// </summary>
/// <param name="folder">An absolute path; empty for the folder of the process, which the system itself starts from, so that paths work in one that has no name
/// any more.</param>
/// <param name="variable">The value of a variable of the environment, or null.</param>
/// <param name="clock">What time it is.</param>
internal sealed class Surroundings(string folder, Func<string, string?> variable, IClock clock)
{
    /// <summary>The folder, absolute.</summary>
    public string Here => folder.Length > 0 ? folder : Directory.GetCurrentDirectory();

    /// <summary>What time it is.</summary>
    public IClock Clock => clock;

    /// <summary>Those of this process.</summary>
    public static Surroundings OfProcess() => new("", Environment.GetEnvironmentVariable, SystemClock.Instance);

    /// <summary>The value of a variable of the environment, or null.</summary>
    public string? Variable(string name) => variable(name);

    /// <summary>A path of the command line as the system takes it.</summary>
    public string At(string path) => path.Length > 0 ? Path.Combine(folder, path) : path;

    /// <summary>A path of the command line, absolute, without dots.</summary>
    public string Whole(string path) => Path.GetFullPath(At(path));

    /// <summary>As people read it: from the folder, unless both have no folder in common but that of all; with <c>/</c> between folders.</summary>
    public string Shown(string path)
    {
        var (whole, here) = (Whole(path), Here);
        var shown = HaveFolderInCommon(whole, here) ? Path.GetRelativePath(here, whole) : whole;
        return shown.Replace(Path.DirectorySeparatorChar, '/');
    }

    private static bool HaveFolderInCommon(string path, string here)
    {
        var root = Path.GetPathRoot(here)!;
        if (Path.GetPathRoot(path) != root) return false;
        return FirstOf(path[root.Length..]) == FirstOf(here[root.Length..]) || RealPath.IsInside(path, here);
    }

    private static string FirstOf(string path) => path.Split(Path.DirectorySeparatorChar)[0];
}
