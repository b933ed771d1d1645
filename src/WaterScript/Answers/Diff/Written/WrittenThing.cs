using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Answers.Diff.Written;

/// <summary>Something that a file describes: a zone, a pump, a let; or all holds of a site together, which have no names.</summary>
/// <param name="Kind">What it is, in the word of the language.</param>
/// <param name="Name">Its name; empty for what has none.</param>
/// <param name="Place">Where it begins.</param>
/// <param name="Lines">What is written of it.</param>
internal sealed record WrittenThing(string Kind, string Name, Location Place, ImmutableArray<WrittenLine> Lines)
{
    /// <summary>Whether its lines do something one after the other.</summary>
    public bool IsOrdered => Kind is WrittenSite.Sequence or WrittenSite.Schedule;
}

/// <summary>A line of it.</summary>
/// <param name="What">What it says something of: a property, a kind of statement.</param>
/// <param name="Text">As written, on one line.</param>
/// <param name="Place">Where it stands.</param>
/// <param name="Depth">Blocks of steps around it.</param>
internal sealed record WrittenLine(string What, string Text, Location Place, int Depth = 0)
{
    /// <summary>How often the blocks around a step do it; 1 for what stands in none.</summary>
    public long Times { get; init; } = 1;
}
