using System.Collections.Immutable;

namespace WaterScript.Syntax.Formatting;

/// <summary>Statements on one line.</summary>
internal static class FlatText
{
    /// <summary>A statement with its block, which is flat.</summary>
    public static string Of(StatementItem statement)
    {
        var head = Spacing.Join(statement.Words.AsSpan());
        return statement.Body is null ? head : $"{head} {Braced(string.Join("; ", Parts(statement.Body)))}";
    }

    /// <summary>The statements of a flat block, each on one line.</summary>
    public static ImmutableArray<string> Parts(BlockLayout block) => [.. block.Items.Select(item => Of((StatementItem)item))];

    /// <summary>A text in braces.</summary>
    public static string Braced(string inside) => inside.Length == 0 ? "{ }" : $"{{ {inside} }}";
}
