using System.Globalization;

namespace WaterScript.Documents.Verdicts;

/// <summary>The line that says what was not checked.</summary>
internal static class GapLine
{
    /// <summary>Columns of a line of the verdict.</summary>
    public const int Columns = 90;

    private const string Begin = "Not checked: ";

    /// <summary>As much as there is room for, and how much more there is; null where nothing was left out.</summary>
    /// <param name="groups">What was not checked, the most dangerous first, each in words.</param>
    public static string? Of(IReadOnlyList<string> groups)
    {
        if (groups.Count == 0) return null;
        if (With(groups, more: 0) is { Length: <= Columns } all) return all;

        // One that is too long leaves its room to a shorter one after it.
        var shown = new List<string> { groups[0] };
        foreach (var group in groups.Skip(1))
        {
            if (With([.. shown, group], groups.Count - shown.Count - 1).Length <= Columns) shown.Add(group);
        }

        return With(shown, groups.Count - shown.Count);
    }

    private static string With(IEnumerable<string> shown, int more) => string.Create(
        CultureInfo.InvariantCulture, $"{Begin}{string.Join(", ", shown)}{(more > 0 ? $", {more} more (--missing)" : "")}.");
}
