using System.Collections.Immutable;
using WaterScript.Syntax.Generated;

namespace WaterScript.Syntax.Formatting;

/// <summary>Items to lines: indents, columns, and what stands on one line. It calls itself once for each block in a block.</summary>
internal sealed class LayoutWriter(LineList lines)
{
    /// <summary>Columns of a line that is not broken; a table may come out wider.</summary>
    private const int Width = 180;

    private const int IndentWidth = 2;
    private const int PropertyGap = 2;

    /// <summary>Writes a whole file.</summary>
    public void WriteFile(ImmutableArray<Item> items)
    {
        for (var i = 0; i < items.Length;)
        {
            if (i > 0 && items[i].IsAfterBlank) lines.AddBlank();
            var end = EndOfRun(items, i);
            if (items[i] is not StatementItem first) Write(items[i], "", isDescription: false, propertyWidth: 0);
            else if (IsTableRow(first)) WriteTable(items[i..end]);
            else if (IsDefinition(first)) WriteDefinitions(items[i..end]);
            else Write(first, "", isDescription: false, propertyWidth: 0);
            i = end;
        }
    }

    /// <summary>The index after the statements that stand right under each other and have columns in common.</summary>
    private static int EndOfRun(ImmutableArray<Item> items, int start)
    {
        var end = start + 1;
        while (end < items.Length && items[start] is StatementItem first && items[end] is StatementItem next && HaveColumns(first, next)) end++;
        return end;
    }

    private static bool HaveColumns(StatementItem first, StatementItem next) =>
        !next.IsAfterBlank && next.Words[0].Text == first.Words[0].Text && ((IsTableRow(first) && IsTableRow(next)) || IsDefinition(first));

    /// <summary>Whether it is a <c>let</c> or a <c>group</c>.</summary>
    private static bool IsDefinition(StatementItem statement) => statement.Words[0].Type is WaterScriptLexer.LET or WaterScriptLexer.GROUP;

    private static bool IsTableRow(StatementItem statement) => Descriptions.IsAtTop(statement) && IsOnOneLine(statement, "");

    private static bool IsOnOneLine(StatementItem statement, string indent) =>
        statement.Body is { IsFlat: true } && indent.Length + Columns.WidthOf(FlatText.Of(statement)) <= Width;

    private void WriteTable(ImmutableArray<Item> items)
    {
        var rows = items.Cast<StatementItem>().ToList();
        foreach (var (text, row) in BlockTable.Lines(rows).Zip(rows)) lines.Add(text, row.Comment);
    }

    /// <summary>Writes <c>let</c> or <c>group</c> statements, their equals signs under each other.</summary>
    private void WriteDefinitions(ImmutableArray<Item> items)
    {
        var rows = items.Cast<StatementItem>().Select(item => (Item: item, Name: Spacing.Join(item.Words.AsSpan()[..EqualsOf(item)]))).ToList();
        var width = rows.Max(row => Columns.WidthOf(row.Name));
        foreach (var (item, name) in rows) new WordWriter(lines, item, "", Width).Write(EqualsOf(item), Columns.Pad(name, width) + " ");
    }

    private static int EqualsOf(StatementItem statement)
    {
        var index = 0;
        while (index < statement.Words.Length && statement.Words[index].Type != WaterScriptLexer.EQUALS) index++;
        return index;
    }

    private void WriteBody(ImmutableArray<Item> items, string indent, bool isDescription)
    {
        var width = isDescription ? PropertyWidthOf(items) : 0;
        for (var i = 0; i < items.Length; i++)
        {
            if (i > 0 && items[i].IsAfterBlank) lines.AddBlank();
            Write(items[i], indent, isDescription, width);
        }
    }

    private static int PropertyWidthOf(ImmutableArray<Item> items) =>
        items.OfType<StatementItem>().Where(Descriptions.IsProperty).Select(property => Columns.WidthOf(property.Words[0].Text)).DefaultIfEmpty().Max();

    private void Write(Item item, string indent, bool isDescription, int propertyWidth)
    {
        if (item is CommentItem comment) lines.Add(indent + comment.Text);
        if (item is not StatementItem statement) return;
        if (statement.Body is { } body) WriteBlock(statement, body, indent, isDescription || (indent.Length == 0 && Descriptions.IsAtTop(statement)));
        else if (isDescription && Descriptions.IsProperty(statement)) WriteProperty(statement, indent, propertyWidth);
        else new WordWriter(lines, statement, indent, Width).Write(0, indent);
    }

    private void WriteProperty(StatementItem property, string indent, int width) =>
        new WordWriter(lines, property, indent, Width).Write(1, indent + Columns.Pad(property.Words[0].Text, width + PropertyGap));

    private void WriteBlock(StatementItem statement, BlockLayout body, string indent, bool isDescription)
    {
        if (IsOnOneLine(statement, indent))
        {
            lines.Add(indent + FlatText.Of(statement), statement.Comment);
            return;
        }

        lines.Add($"{indent}{Spacing.Join(statement.Words.AsSpan())} {{", body.Comment);
        WriteBody(body.Items, indent + new string(' ', IndentWidth), isDescription);
        lines.Add(indent + "}", statement.Comment);
    }
}
