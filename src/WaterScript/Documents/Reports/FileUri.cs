namespace WaterScript.Documents.Reports;

/// <summary>Paths as URI references (RFC 3986).</summary>
internal static class FileUri
{
    /// <summary>A relative reference for a relative path, a <c>file</c> URI for an absolute one.</summary>
    /// <param name="path">With <c>/</c> between folders.</param>
    public static string Of(string path)
    {
        var encoded = string.Join('/', path.Split('/').Select((part, index) => index == 0 && IsDrive(part) ? part : Uri.EscapeDataString(part)));
        if (path.StartsWith('/')) return "file://" + encoded;
        return IsAbsolute(path) ? "file:///" + encoded : encoded;
    }

    /// <summary>Whether a path begins at the root of a disk.</summary>
    public static bool IsAbsolute(string path) => path.StartsWith('/') || IsDrive(path.Split('/')[0]);

    private static bool IsDrive(string part) => part is [>= 'A' and <= 'Z' or >= 'a' and <= 'z', ':'];
}
