using WaterScript.Diagnostics.Reading;
using WaterScript.Quantities;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <content>What is reported of a row.</content>
internal sealed partial class RowCursor
{
    private string HowToWriteIt => form.Length == 0 ? "" : $"Write it as `{form}`.";

    /// <summary>Reports that something is not as it should be at the next token, or at the end of the row.</summary>
    public bool Fail(string heading) => Fail(heading, HowToWriteIt);

    private bool Fail(string heading, string help)
    {
        // What is no token of the language has been reported when the file was parsed.
        if (!IsAtEnd && Next.Kind is TokenKind.Glued or TokenKind.Malformed or TokenKind.Other) HasFailed = true;
        if (!HasFailed)
        {
            var span = IsAtEnd ? new TextSpan(row.Span.End, 0) : Next.Span;
            scope.Report(ReadingRules.Syntax, new Location(source, span), heading, help: help);
        }

        HasFailed = true;
        return false;
    }

    /// <summary>Reports a value that cannot be.</summary>
    public void FailRange(TextSpan span, string heading, string label = "")
    {
        if (!HasFailed)
            scope.Report(ReadingRules.OutOfRange, new Location(source, span), heading, label, HowToWriteIt);
        HasFailed = true;
    }

    private void FailUnit(string heading, TextSpan span, Dimension dimension)
    {
        var help = dimension == Dimension.Time && source.Slice(span).EndsWith(" m", StringComparison.Ordinal)
            ? $"Write {source.Slice(span)}in."
            : $"Write it in {dimension.UnitList()}.";
        if (!HasFailed) scope.Report(ReadingRules.WrongUnit, new Location(source, span), heading, $"{dimension.Article()} is needed", help);
        HasFailed = true;
    }
}
