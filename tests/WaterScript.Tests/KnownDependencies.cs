namespace WaterScript.Tests;

/// <summary>What still stands in the way of the order of the stages. These lists only get shorter.</summary>
internal static class KnownDependencies
{
    /// <summary>Files that see a stage after their own.</summary>
    public static readonly string[] Upward = [];

    /// <summary>More than three files that need one another.</summary>
    public static readonly string[] Circles = [];
}
