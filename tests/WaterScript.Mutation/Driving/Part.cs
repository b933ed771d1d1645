namespace WaterScript.Mutation.Driving;

/// <summary>A part of the library, and the tests that know it: a line of <c>tests/mutation/parts.txt</c>.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Sources">How the paths of its files begin, from <c>src/WaterScript/</c>.</param>
/// <param name="Tests">How the names of its classes of tests begin, after the namespace of all.</param>
internal sealed record Part(string Name, IReadOnlyList<string> Sources, IReadOnlyList<string> Tests)
{
    /// <summary>All of them.</summary>
    /// <param name="root">The root of the repository.</param>
    public static IReadOnlyList<Part> Read(string root) =>
    [
        .. File.ReadLines(Path.Combine(root, "tests/mutation/parts.txt"))
            .Select(line => line.Split(' '))
            .Select(words => new Part(words[0], words[1].Split(','), words[2].Split(','))),
    ];

    /// <summary>Whether a file is one of its own.</summary>
    /// <param name="path">From the root of the repository.</param>
    public bool HasSource(string path) => Sources.Any(source => path.StartsWith("src/WaterScript/" + source, StringComparison.Ordinal));

    /// <summary>Whether a class of tests knows it.</summary>
    public bool HasTests(string name) => Tests.Any(test => name.StartsWith("WaterScript.Tests." + test, StringComparison.Ordinal));
}
