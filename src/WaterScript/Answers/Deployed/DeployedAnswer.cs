using System.Collections.Immutable;
using WaterScript.Model;

namespace WaterScript.Answers.Deployed;

/// <summary>Where lists that are deployed come from, and whether a site gives the same ones.</summary>
/// <param name="Site">The site.</param>
/// <param name="File">Its file, for the report.</param>
/// <param name="OfFile">Where the file as it is stands.</param>
/// <param name="Lists">The lists: what is in the device now comes first, then the others by time.</param>
/// <param name="Cover">What time they cover together.</param>
internal sealed record DeployedAnswer(Site Site, string File, FileState OfFile, ImmutableArray<TracedList> Lists, ListCover Cover)
{
    /// <summary>Whether a device with these lists does from now on what the file says, for a day and more.</summary>
    public bool IsAsWritten => !Cover.IsOverSoon && Lists.All(list => list.Comparison.IsSameFrom(Cover.Now));
}

/// <summary>A list and where it comes from.</summary>
/// <param name="File">Its name, for the report.</param>
/// <param name="Comparison">It, and what the site gives in its place.</param>
/// <param name="Origin">Where it comes from.</param>
internal sealed record TracedList(string File, ListComparison Comparison, ListOrigin Origin);
