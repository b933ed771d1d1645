namespace WaterScript.Cli.Files;

/// <summary>Paths with every link in them followed.</summary>
internal static class RealPath
{
    /// <summary>As many links one after the other as Linux follows.</summary>
    private const int MostLinks = 40;

    /// <summary>The absolute path that a path leads to; parts that do not exist stay as they are.</summary>
    /// <exception cref="CommandException">The links lead round in a circle.</exception>
    public static string Of(string path, Surroundings surroundings)
    {
        var links = 0;
        var pending = new Stack<string>(Parts(surroundings.Whole(path), out var resolved).Reverse());
        while (pending.TryPop(out var part))
        {
            var next = Path.Combine(resolved, part);
            if (new FileInfo(next).LinkTarget is not { } target)
            {
                resolved = next;
                continue;
            }

            if (++links > MostLinks) throw new CommandException($"{path} leads nowhere: its links go round in a circle");
            var parts = Parts(Path.GetFullPath(target, resolved), out resolved);
            foreach (var targetPart in parts.Reverse()) pending.Push(targetPart);
        }

        return resolved;
    }

    /// <summary>Whether a path lies in a folder or is it; both absolute and without links.</summary>
    public static bool IsInside(string path, string folder)
    {
        var relative = Path.GetRelativePath(folder, path);
        return !Path.IsPathRooted(relative) && relative != ".." && !relative.StartsWith(".." + Path.DirectorySeparatorChar, StringComparison.Ordinal);
    }

    private static string[] Parts(string absolute, out string root)
    {
        root = Path.GetPathRoot(absolute)!;
        return absolute[root.Length..].Split(Path.DirectorySeparatorChar, StringSplitOptions.RemoveEmptyEntries);
    }
}
