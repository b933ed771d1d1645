using System.Collections.Immutable;

namespace WaterScript.Language;

/// <summary>The months as the language writes them.</summary>
internal static class MonthNames
{
    /// <summary>January first.</summary>
    public static readonly ImmutableArray<string> All = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];
}
