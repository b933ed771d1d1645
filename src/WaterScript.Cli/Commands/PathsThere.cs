using WaterScript.Cli.Files;

namespace WaterScript.Cli.Commands;

/// <summary>Whether all files are there that a command is to change: with a slip in one of them, none is changed.</summary>
internal static class PathsThere
{
    /// <summary>Verifies it.</summary>
    /// <exception cref="CommandException">One is not there.</exception>
    public static void Verify(IEnumerable<string> paths, Surroundings surroundings)
    {
        if (paths.FirstOrDefault(path => path != SiteSource.Standard && !Path.Exists(surroundings.At(path))) is { } missing)
            throw new CommandException($"no such file: {surroundings.Shown(missing)}; nothing was changed");
    }
}
