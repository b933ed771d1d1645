using System.Globalization;

namespace WaterScript.Cli.Files;

/// <summary>Paths that stand for something this process has open already, such as <c>/dev/stdout</c>.</summary>
internal static class StandardDescriptor
{
    private const int MostLinks = 40;

    /// <summary>The number of the descriptor that an absolute path stands for, or null.</summary>
    public static int? Of(string path)
    {
        if (OperatingSystem.IsWindows()) return null;
        var next = path;
        for (var links = 0; links < MostLinks; links++)
        {
            if (NumberOf(next) is { } number) return number;
            if (new FileInfo(next).LinkTarget is not { } target) return null;
            next = Path.GetFullPath(target, Path.GetDirectoryName(next)!);
        }

        return null;
    }

    private static int? NumberOf(string path)
    {
        string[] folders = ["/dev/fd/", "/proc/self/fd/", string.Create(CultureInfo.InvariantCulture, $"/proc/{Environment.ProcessId}/fd/")];
        return folders.FirstOrDefault(folder => path.StartsWith(folder, StringComparison.Ordinal)) is { } found
            && int.TryParse(path.AsSpan(found.Length), NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
    }
}
