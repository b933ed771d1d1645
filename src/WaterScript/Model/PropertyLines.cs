using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>Where the properties of a block are written, so that what is said of a value points at it.</summary>
/// <param name="lines">The word of each property, and its whole statement.</param>
public sealed class PropertyLines(ImmutableArray<(string Word, Location Origin)> lines)
{
    /// <summary>Those of what is not written.</summary>
    public static PropertyLines None { get; } = new([]);

    /// <summary>The statement of a property, or null where it is not written.</summary>
    public Location? Of(string word)
    {
        foreach (var (known, origin) in lines)
        {
            if (known == word) return origin;
        }

        return null;
    }
}
