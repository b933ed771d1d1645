namespace WaterScript.Tests;

/// <summary>What still stands in the way of the order of the stages. These lists only get shorter.</summary>
internal static class KnownDependencies
{
    /// <summary>Files that see a stage after their own.</summary>
    public static readonly string[] Upward = [];

    /// <summary>More than three files that need one another.</summary>
    public static readonly string[] Circles = [];

    /// <summary>Files of more than 400 lines.</summary>
    public static readonly string[] LongFiles = [
        "tests/WaterScript.Tests/Simulation/RandomSource.cs",
        "tests/WaterScript.Tests/Simulation/StrangersSitesTests.cs",
    ];
}
