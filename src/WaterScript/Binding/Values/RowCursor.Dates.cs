using System.Globalization;
using NodaTime;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <content>Dates with or without a year, and units that stand alone.</content>
internal sealed partial class RowCursor
{
    /// <summary>A date of the calendar with its year, as written.</summary>
    public LocalDate? Date()
    {
        if (IsAtEnd || Next.Kind != TokenKind.Date)
        {
            Fail("a date such as 2026-05-01 is missing here");
            return null;
        }

        var token = Next;
        _index++;
        var date = DateReader.Iso(token.Text, At(token), scope);
        HasFailed |= date is null;
        return date;
    }

    /// <summary>A date as it stands there, with a year, without one, or the name of one: whoever knows which is meant reads it.</summary>
    public DateNode? DateAsWritten()
    {
        var start = _index;
        if (BaseOfDate() is { } found) return new DateNode(SpanFrom(start), found, Offset: null, IsBefore: false);
        Fail("a date such as 1 may or 2026-05-01 is missing here");
        return null;
    }

    /// <summary>A unit of a dimension, without a number before it.</summary>
    public Unit? UnitOf(Dimension dimension)
    {
        if (!IsAtEnd && Next.Kind is TokenKind.Word or TokenKind.Path) return Unit(dimension);
        Fail($"a unit such as {Units.Of(dimension).First()} is missing here");
        return null;
    }

    private DateBaseNode? BaseOfDate()
    {
        if (IsAtEnd) return null;
        var token = Next;
        if (token.Kind == TokenKind.Date)
        {
            _index++;
            return new IsoDateNode(token.Span, token.Text);
        }

        Token? second = _index + 1 < row.Tokens.Length ? row.Tokens[_index + 1] : null;
        if (second is { Kind: TokenKind.Word } month && (token.Text == "last" || token.Kind == TokenKind.Number))
        {
            var isNumber = decimal.TryParse(token.Text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number);
            if (token.Kind == TokenKind.Number && !isNumber) return null;
            var day = token.Kind == TokenKind.Number ? new NumberNode(token.Span, number) : null;
            _index += 2;
            return new MonthDayNode(TextSpan.Cover(token.Span, month.Span), day, new NameNode(month.Span, month.Text));
        }

        if (token.Kind != TokenKind.Word) return null;
        _index++;
        return new LetDateNode(token.Span, token.Text);
    }
}
