using WaterScript.Cli.Files.Git;

namespace WaterScript.Cli.Commands.Comparing;

/// <summary>Two revisions of a repository: <c>REV..REV</c>, or <c>REV...REV</c> from where they went apart.</summary>
/// <param name="Old">The first.</param>
/// <param name="New">The second; null for the files as they are.</param>
internal sealed record VersionRange(string Old, string? New)
{
    private const string Two = "..";
    private const string Three = "...";

    /// <summary>Whether a text is meant as one: a path has dots between slashes only, and is there.</summary>
    public static bool IsMeant(string text, Terminal terminal) =>
        text.Contains(Two, StringComparison.Ordinal) && !text.Split('/').Contains(Two) && !text.Contains(':', StringComparison.Ordinal)
            && !Path.Exists(terminal.Surroundings.At(text));

    /// <summary>Reads one.</summary>
    /// <exception cref="CommandException">A side is empty, which hides a variable that is not set; or there is no such revision.</exception>
    public static VersionRange Read(string text, GitRepository repository)
    {
        var isFromBase = text.Contains(Three, StringComparison.Ordinal);
        var sides = text.Split(isFromBase ? Three : Two, 2);
        if (sides[0].Length == 0 || sides[1].Length == 0) throw new CommandException($"{text} has no revision on one side; write both, such as main..HEAD");
        return isFromBase ? new VersionRange(repository.MergeBase(sides[0], sides[1]), sides[1]) : new VersionRange(sides[0], sides[1]);
    }
}
