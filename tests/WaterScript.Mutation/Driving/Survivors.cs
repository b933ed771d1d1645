using System.Text.RegularExpressions;

namespace WaterScript.Mutation.Driving;

/// <summary>
/// Mutants that change nothing that anybody could notice: <c>tests/mutation/survivors.md</c> has them in lists, as they are printed but for the number of the
/// line, each list under its reason.
/// </summary>
internal static partial class Survivors
{
    /// <summary>All of them.</summary>
    /// <param name="root">The root of the repository.</param>
    public static IReadOnlySet<string> Read(string root) =>
        File.ReadLines(Path.Combine(root, "tests/mutation/survivors.md")).Where(line => line.StartsWith("- ", StringComparison.Ordinal))
            .Select(line => line[2..]).ToHashSet();

    /// <summary>A mutant as the page has it.</summary>
    public static string KeyOf(Rewriting.Mutation mutation) => WithoutLine(mutation.ToString());

    /// <summary>A line that names a mutant, without the number of the line at which it is.</summary>
    public static string WithoutLine(string text) => LineNumber().Replace(text, ":", 1);

    [GeneratedRegex(@":\d+:")]
    private static partial Regex LineNumber();
}
