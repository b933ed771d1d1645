namespace WaterScript.Cli.Files;

/// <summary>Paths as people read them.</summary>
internal static class ShownPath
{
    /// <summary>From the current folder where the file lies in it, else whole; with <c>/</c> between folders.</summary>
    public static string Of(string file)
    {
        var whole = Path.GetFullPath(file);
        var here = Directory.GetCurrentDirectory();
        var shown = RealPath.IsInside(whole, here) ? Path.GetRelativePath(here, whole) : whole;
        return shown.Replace(Path.DirectorySeparatorChar, '/');
    }
}
