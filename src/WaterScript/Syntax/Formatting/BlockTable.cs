using System.Collections.Immutable;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Formatting;

/// <summary>
/// Descriptions of one kind that stand on one line each, right under each other, as a table. The head of each is in columns. In the
/// braces a property is in a column with those above and below it as long as both rows have had the same properties so far, and next.
/// </summary>
internal sealed class BlockTable
{
    private readonly ImmutableArray<Row> _rows;

    private BlockTable(ImmutableArray<Row> rows) => _rows = rows;

    /// <summary>The table's lines, of at least one description.</summary>
    public static ImmutableArray<string> Lines(IEnumerable<StatementItem> descriptions)
    {
        var table = new BlockTable([.. descriptions.Select(Row.Of)]);
        table.AlignHeads();
        var agreeing = table.LengthsOfAgreement();
        for (var column = 0; agreeing.Any(length => length > column + 1); column++) table.AlignColumn(column, agreeing);
        return [.. table._rows.Select(row => row.ToText())];
    }

    private void AlignHeads()
    {
        for (var column = 0; column < Row.HeadColumns; column++)
        {
            var width = _rows.Max(row => Columns.WidthOf(row.Head[column]));
            foreach (var row in _rows) row.Head[column] = Columns.Pad(row.Head[column], width);
        }
    }

    /// <summary>Of each row, how many properties from the first on it has in common with the row above it.</summary>
    private ImmutableArray<int> LengthsOfAgreement() =>
        [0, .. Enumerable.Range(1, _rows.Length - 1)
            .Select(i => _rows[i].Properties.Zip(_rows[i - 1].Properties).TakeWhile(pair => pair.First == pair.Second).Count())];

    private void AlignColumn(int column, ImmutableArray<int> agreeing)
    {
        for (var start = 0; start < _rows.Length;)
        {
            var end = start + 1;
            while (end < _rows.Length && agreeing[end] > column + 1) end++;
            if (end > start + 1) AlignCells(_rows[start..end], column);
            start = end;
        }
    }

    private static void AlignCells(ImmutableArray<Row> rows, int column)
    {
        var width = rows.Max(row => Columns.WidthOf(row.Cells[column]));
        foreach (var row in rows) row.Cells[column] = Columns.Pad(row.Cells[column], width);
    }

    /// <summary>A description.</summary>
    /// <param name="Head">Kind and name, further words, label; each may be empty.</param>
    /// <param name="Properties">The first word of each statement.</param>
    /// <param name="Cells">Each statement, with its <c>;</c>.</param>
    private sealed record Row(string[] Head, ImmutableArray<string> Properties, string[] Cells)
    {
        public const int HeadColumns = 3;
        private const int WordsOfName = 2;

        public static Row Of(StatementItem description)
        {
            var words = description.Words.AsSpan();
            var label = 0;
            while (label < words.Length && words[label].Type != WaterScriptLexer.STRING) label++;
            var name = Math.Min(WordsOfName, label);
            var parts = FlatText.Parts(description.Body!);
            return new Row(
                [Spacing.Join(words[..name]), Spacing.Join(words[name..label]), Spacing.Join(words[label..])],
                [.. description.Body!.Items.Select(item => ((StatementItem)item).Words[0].Text)],
                [.. parts.Select((part, index) => index == parts.Length - 1 ? part : part + ";")]);
        }

        public string ToText() => string.Join(' ', Head.Where(part => part.Length > 0).Append(FlatText.Braced(string.Join(' ', Cells))));
    }
}
