using NodaTime;

namespace WaterScript.Answers.Deployed;

/// <summary>A revision of git.</summary>
/// <param name="Name">Its full name.</param>
/// <param name="Short">So much of it as names no other.</param>
/// <param name="Subject">The first line of what its author wrote; null where only the name is known.</param>
/// <param name="Date">When it was committed, by the site's clock; null likewise.</param>
internal sealed record Commit(string Name, string Short, string? Subject, LocalDate? Date)
{
    /// <summary>The fewest digits that a name is shown with.</summary>
    public const int FewestDigits = 7;
}

/// <summary>A file as it is.</summary>
/// <param name="Commit">The last revision that changed it or what it includes, where all of it stands in the repository; else null.</param>
/// <param name="IsInRepository">Whether it lies in a repository.</param>
internal sealed record FileState(Commit? Commit, bool IsInRepository);

/// <summary>Where a list comes from.</summary>
/// <param name="Source">How that is known.</param>
internal sealed record ListOrigin(OriginSource Source)
{
    /// <summary>Whether its sources are those of the file as it is.</summary>
    public bool IsFile { get; init; }

    /// <summary>The revision; the newest of those that give the list, and of no such revision the nearest; null where there is none.</summary>
    public Commit? Commit { get; init; }

    /// <summary>The oldest of the revisions in a row that all give the list; null where it is one.</summary>
    public Commit? First { get; init; }

    /// <summary>The revision that the list names, which the repository does not have; null where it names none, or one that is there.</summary>
    public string? Unknown { get; init; }

    /// <summary>How many rows lie between the list and that of the nearest revision.</summary>
    public int Apart { get; init; }

    /// <summary>How many revisions were looked at.</summary>
    public int Searched { get; init; }

    /// <summary>Whether the repository has not all revisions.</summary>
    public bool IsShallow { get; init; }

    /// <summary>Why none could be looked at; null where they could.</summary>
    public string? WhyNot { get; init; }
}

/// <summary>How the revision of a list is known.</summary>
internal enum OriginSource
{
    /// <summary>The list names it.</summary>
    List,

    /// <summary>The sources of the list stand in it.</summary>
    Search,

    /// <summary>It gives the list, compiled for the same dates.</summary>
    Compiled,

    /// <summary>The sources of the list are those of the file as it is.</summary>
    SameSources,

    /// <summary>It is not known.</summary>
    NotFound,
}
