using System.Collections.Immutable;
using WaterScript.Text;

namespace WaterScript.Answers.Usage;

/// <summary>Rows of words under heads: text to the left, numbers to the right, two blanks between them.</summary>
/// <param name="Rows">The heads, then the rows; all of one length.</param>
internal sealed record UsageGrid(ImmutableArray<ImmutableArray<string>> Rows)
{
    private const int Gap = 2;

    /// <summary>Columns of a terminal that it takes.</summary>
    public int Width => Widths().Sum() + (Gap * (Rows[0].Length - 1));

    /// <summary>The lines.</summary>
    public IEnumerable<string> Lines()
    {
        var widths = Widths();
        return Rows.Select(row => string.Join("  ", row.Select((cell, column) =>
        {
            var blanks = new string(' ', widths[column] - DisplayWidth.Of(cell));
            return column == 0 ? cell + blanks : blanks + cell;
        })).TrimEnd());
    }

    /// <summary>The same without a column that has this head, where there is one.</summary>
    public UsageGrid Without(string head)
    {
        var index = Rows[0].IndexOf(head);
        return index < 0 ? this : new UsageGrid([.. Rows.Select(row => row.RemoveAt(index))]);
    }

    /// <summary>The same with rows for columns.</summary>
    public UsageGrid Turned() =>
        new([.. Enumerable.Range(0, Rows[0].Length).Select(column => Rows.Select(row => row[column]).ToImmutableArray())]);

    /// <summary>The first column with so many of the others each time.</summary>
    public IEnumerable<UsageGrid> Blocks(int columns) => Enumerable.Range(1, Rows[0].Length - 1).Chunk(columns)
        .Select(block => new UsageGrid([.. Rows.Select(row => (ImmutableArray<string>)[row[0], .. block.Select(column => row[column])])]));

    private int[] Widths() => [.. Enumerable.Range(0, Rows[0].Length).Select(column => Rows.Max(row => DisplayWidth.Of(row[column])))];
}
