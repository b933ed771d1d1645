using WaterScript.Language;

namespace WaterScript.Tests.Documentation;

/// <summary>The Markdown table of a kind of block, as the reference shows it.</summary>
internal static class SchemaTable
{
    private static readonly string[] MonthsAfterTheFirst = ["feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

    /// <summary>The table, each line ended with a line feed. Of twelve months it shows the first.</summary>
    public static string Of(BlockSchema block) =>
        string.Concat(Rows(block).Select(row => row + "\n"));

    /// <summary>The comment above the table of a kind of block.</summary>
    public static string MarkerOf(BlockSchema block) => $"<!-- properties of {block.Kind} -->\n\n";

    private static IEnumerable<string> Rows(BlockSchema block) =>
    [
        "| written | default | says |",
        "| --- | --- | --- |",
        .. block.Properties.Where(property => !MonthsAfterTheFirst.Contains(property.Name)).Select(Row),
        .. block.Inner.Select(inner => $"| `{inner} {{ … }}` | | See below. |"),
    ];

    private static string Row(Property property) =>
        $"| `{property.Form}`{(property.Name == "jan" ? ", and so on to `dec`" : "")} | {DefaultOf(property)} | "
            + $"{property.Help}{(property.MayRepeat ? " May repeat." : "")} |";

    private static string DefaultOf(Property property) => property switch
    {
        { IsRequired: true } => "**required**",
        { Default: "" } => "–",
        _ => property.Default,
    };
}
