namespace WaterScript.Diagnostics;

/// <summary>What the compiler refuses to go beyond, so that every input ends soon and with words. Each is reported as <c>over-limit</c>.</summary>
public static class Limits
{
    /// <summary>Braces inside braces.</summary>
    public const int NestingDepth = 40;

    /// <summary>UTF-16 code units of one file.</summary>
    public const int FileLength = 8_000_000;

    /// <summary>Findings of reading one file; the last of them says that there are more.</summary>
    public const int FindingsPerFile = 100;
}
