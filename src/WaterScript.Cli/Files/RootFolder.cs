namespace WaterScript.Cli.Files;

/// <summary>The folder that includes may not leave.</summary>
internal static class RootFolder
{
    /// <summary>The one that is asked for, else the nearest above a file that has a <c>.git</c>, else the file's own.</summary>
    /// <param name="folder">The file's folder.</param>
    /// <param name="requested">What <c>--root</c> says, or null.</param>
    /// <param name="surroundings">Where paths start from.</param>
    /// <exception cref="CommandException">The folder that is asked for does not exist.</exception>
    public static string Of(string folder, string? requested, Surroundings surroundings)
    {
        if (requested is not null)
            return Directory.Exists(surroundings.At(requested)) ? requested : throw new CommandException($"no such folder: {requested} (from --root)");
        for (var above = new DirectoryInfo(surroundings.Whole(folder)); above is not null; above = above.Parent)
        {
            if (Path.Exists(Path.Combine(above.FullName, ".git"))) return above.FullName;
        }

        return folder;
    }
}
