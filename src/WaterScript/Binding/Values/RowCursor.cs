using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>
/// Reads the value of a row word by word. The first thing that cannot be read is reported, and then the row says nothing
/// more: one mistake, one finding.
/// </summary>
/// <param name="scope">Where findings go.</param>
/// <param name="source">The file.</param>
/// <param name="row">The row.</param>
/// <param name="form">What should stand there, as the reference shows it: <c>60 m 1.5 mm2</c>.</param>
internal sealed partial class RowCursor(Scope scope, SourceText source, RowNode row, string form)
{
    private int _index;

    /// <summary>How many tokens have been read.</summary>
    public int Position => _index;

    /// <summary>Whether something could not be read.</summary>
    public bool HasFailed { get; private set; }

    /// <summary>Whether nothing is left.</summary>
    public bool IsAtEnd => _index >= row.Tokens.Length;

    /// <summary>The block whose property it is; null where it is none.</summary>
    public BlockSchema? Block { get; init; }

    /// <summary>Where findings go.</summary>
    public Scope Scope => scope;

    /// <summary>The whole row.</summary>
    public Location Location => new(source, row.Span);

    /// <summary>The next token, which there is.</summary>
    private Token Next => row.Tokens[_index];

    /// <summary>Whether the next token is this word.</summary>
    public bool IsAt(string word) => !IsAtEnd && Next.Text == word && Next.Kind is TokenKind.Word or TokenKind.Path;

    /// <summary>Whether the next token begins a number.</summary>
    public bool IsAtNumber => !IsAtEnd && Next.Kind is TokenKind.Number or TokenKind.Minus;

    /// <summary>Goes over a word if it comes next.</summary>
    public bool Accept(string word)
    {
        if (!IsAt(word)) return false;
        _index++;
        return true;
    }

    /// <summary>Goes over a token of a kind if it comes next.</summary>
    public bool Accept(TokenKind kind)
    {
        if (IsAtEnd || Next.Kind != kind) return false;
        _index++;
        return true;
    }

    /// <summary>Whether a list goes on; "and", as one says it, is answered with the comma that is meant.</summary>
    public bool AcceptNextOfList() => Accept(TokenKind.Comma) || (IsAt("and") && Fail("\"and\" does not belong here", "Put a comma in its place."));

    /// <summary>Goes over a word that must come next.</summary>
    public bool Expect(string word) => Accept(word) || Fail($"\"{word}\" is missing here");

    /// <summary>Goes over one of several words that must come next.</summary>
    public string? OneOf(params ReadOnlySpan<string> words)
    {
        foreach (var word in words)
        {
            if (Accept(word)) return word;
        }

        Fail($"one of {string.Join(", ", words!)} is missing here");
        return null;
    }

    /// <summary>A word out of a fixed list; a misspelt one is answered with the nearest.</summary>
    public string? Choice(string what, IReadOnlyCollection<string> words)
    {
        if (IsAtEnd || Next.Kind != TokenKind.Word)
        {
            Fail($"{what} is missing here");
            return null;
        }

        var token = Next;
        _index++;
        if (words.Contains(token.Text)) return token.Text;
        if (!HasFailed) scope.ReportUnknown(At(token), $"\"{token.Text}\" is not {what}", token.Text, words);
        HasFailed = true;
        return null;
    }

    /// <summary>The name of something.</summary>
    public NameNode? Name(string what)
    {
        if (!IsAtEnd && Next.Kind == TokenKind.Word)
        {
            var token = Next;
            _index++;
            return new NameNode(token.Span, token.Text);
        }

        Fail($"{what} is missing here");
        return null;
    }

    /// <summary>The rest of the row as one text, blanks and all; null when there is none.</summary>
    public string? Rest()
    {
        if (IsAtEnd)
        {
            Fail("a value is missing here");
            return null;
        }

        var text = source.Slice(TextSpan.FromBounds(Next.Span.Start, row.Tokens[^1].Span.End));
        _index = row.Tokens.Length;
        return text;
    }

    /// <summary>What is left over.</summary>
    public ImmutableArray<Token> Left => row.Tokens[_index..];

    /// <summary>A bare number.</summary>
    public decimal? Number(Bounds bounds, bool isWhole = false)
    {
        var start = _index;
        var isNegative = Accept(TokenKind.Minus);
        if (IsAtEnd || Next.Kind != TokenKind.Number)
        {
            Fail(isWhole ? "a whole number is missing here" : "a number is missing here");
            return null;
        }

        var token = Next;
        _index++;
        var span = TextSpan.Cover(row.Tokens[start].Span, token.Span);
        var isLarge = !decimal.TryParse(token.Text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) || value > Limits.MostNumber;
        if (isLarge || value is > 0 and < Limits.LeastNumber)
        {
            FailRange(span, $"\"{token.Text}\" is too {(isLarge ? "large" : "small")} a number");
            return null;
        }

        if (isNegative) value = -value;
        if (isWhole && value != decimal.Truncate(value)) FailRange(span, $"{source.Slice(span)} is not a whole number");
        else if (!bounds.Hold(value)) FailRange(span, $"{source.Slice(span)} is out of range", $"must be {bounds.InWords()}");
        return HasFailed ? null : value;
    }

    /// <summary>A bare whole number with one of two words after it, if both come next: <c>3 days</c>.</summary>
    public int? AcceptCount(string several, string one)
    {
        if (IsAtEnd || Next.Kind != TokenKind.Number || _index + 1 >= row.Tokens.Length
            || (row.Tokens[_index + 1].Text != several && row.Tokens[_index + 1].Text != one))
            return null;
        if (Whole(1, 10_000) is not { } count) return null;
        _index++;
        return count;
    }

    /// <summary>A bare whole number.</summary>
    public int? Whole(int least, int most) => (int?)Number(new Bounds(least, most), isWhole: true);

    /// <summary>A quantity, or the name of one.</summary>
    public Quantity? Quantity(Dimension dimension, Bounds bounds, bool mayBeNegative = false)
    {
        var start = _index;
        if (NamedQuantity() is { } named) return Checked(named, start, dimension, bounds);
        if (HasFailed) return null;
        if (dimension == Dimension.Time) return Duration() is { } length ? Checked(length, start, dimension, bounds) : null;
        if (Number(mayBeNegative ? Bounds.None : new Bounds(Least: 0)) is not { } value) return null;
        if (Unit(dimension) is not { } unit) return null;
        return Checked(new Quantity(value, unit), start, dimension, bounds);
    }

    /// <summary>A number with a unit of any dimension, or a duration.</summary>
    public Quantity? AnyQuantity()
    {
        var start = _index;
        if (NamedQuantity() is { } named) return named;
        if (HasFailed || Number(Bounds.NotNegative) is not { } value) return null;
        if (IsAtEnd || Units.Find(Next.Text) is not { } unit)
        {
            var location = new Location(source, IsAtEnd ? SpanFrom(start) : Next.Span);
            if (IsAtEnd)
                scope.Report(ReadingRules.WrongUnit, location, $"{row.Tokens[start].Text} has no unit", help: $"Write its unit after it, such as `{form}`.");
            else scope.ReportUncertain(location, $"no unit is called \"{Next.Text}\"", Next.Text, Units.All.Select(known => known.Symbol).Distinct());
            HasFailed = true;
            return null;
        }

        _index = unit.Dimension == Dimension.Time ? start : _index + 1;
        return unit.Dimension == Dimension.Time ? Duration() : new Quantity(value, unit);
    }

    /// <summary>
    /// A length of time in seconds: quantities from large to small, each unit once, a decimal only in the last.
    /// </summary>
    private Quantity? Duration()
    {
        var start = _index;
        decimal seconds = 0;
        Unit? last = null;
        do
        {
            var part = _index;
            if (Number(Bounds.NotNegative) is not { } value || Unit(Dimension.Time) is not { } unit) return null;
            if (last is not null && SecondsIn(unit) >= SecondsIn(last))
            {
                FailRange(SpanFrom(part), "a duration goes from large to small, each unit once", $"comes after {last.Symbol}");
                return null;
            }

            if (value != decimal.Truncate(value) && IsAtNumber)
            {
                FailRange(SpanFrom(part), "only the last part of a duration may have a decimal");
                return null;
            }

            seconds += value * SecondsIn(unit);
            last = unit;
        }
        while (IsAtNumber);
        if (seconds <= Limits.MostSeconds) return new Quantity(seconds, Units.Second);
        FailRange(SpanFrom(start), $"{source.Slice(SpanFrom(start))} is too long", "at most 100 years");
        return null;
    }

    /// <summary>A length of time in whole seconds above zero, as schedules, holds and steps take it.</summary>
    public Duration? WholeSeconds(Bounds? bounds = null)
    {
        var start = _index;
        if (Quantity(Dimension.Time, bounds ?? Bounds.Positive) is not { } length) return null;
        if (length.InBase == decimal.Truncate(length.InBase)) return NodaTime.Duration.FromSeconds((long)length.InBase);
        FailRange(SpanFrom(start), $"{source.Slice(SpanFrom(start))} is not a whole number of seconds", "schedules count in whole seconds");
        return null;
    }

    /// <summary>A row that is a length of time in whole seconds above zero and nothing else; null, and reported, when it is not.</summary>
    public static Duration? Length(Scope scope, SourceText source, RowNode row, string form)
    {
        var cursor = new RowCursor(scope, source, row, form);
        var length = cursor.WholeSeconds();
        cursor.End();
        return cursor.HasFailed ? null : length;
    }

    /// <summary>A length of time to the millisecond, as pulses and stagger take it.</summary>
    public Duration? Milliseconds(Bounds bounds) => Quantity(Dimension.Time, bounds) is { } length
        ? NodaTime.Duration.FromMilliseconds((long)(length.InBase * 1000))
        : null;

    /// <summary>A share in per cent.</summary>
    public decimal? Percent(Bounds bounds)
    {
        if (!IsAtEnd && Next.Kind == TokenKind.Number && (_index + 1 >= row.Tokens.Length || Units.Find(row.Tokens[_index + 1].Text) is null)
            && decimal.TryParse(Next.Text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value))
        {
            ShareSlip.Report(scope, new Location(source, Next.Span), value);
            HasFailed = true;
            return null;
        }

        return Quantity(Dimension.Share, bounds)?.InBase;
    }

    /// <summary>Reports what is left over. Call it when the value is complete.</summary>
    public void End()
    {
        if (!IsAtEnd) Fail($"\"{Next.Text}\" does not belong here");
    }

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

    private string HowToWriteIt => form.Length == 0 ? "" : $"Write it as `{form}`.";

    private Quantity? NamedQuantity()
    {
        if (IsAtEnd || Next.Kind != TokenKind.Word) return null;
        var token = Next;
        if (scope.Lets.Use(token.Text) is not { } let)
        {
            var heading = $"no quantity is called \"{token.Text}\"";
            if (!HasFailed && scope.Lets.Names.Count > 0) scope.ReportUnknown(At(token), heading, token.Text, scope.Lets.Names);
            else if (!HasFailed && !scope.IsUnread(token.Text))
                scope.Report(ReadingRules.UnknownName, At(token), heading, help: form.Length == 0 ? "" : $"Write a number and its unit, such as `{form}`.");
            HasFailed = true;
            return null;
        }

        _index++;
        if (let.Quantity is { } quantity) return quantity;
        if (let.Date is not null) FailRange(token.Span, $"\"{token.Text}\" is a date, not a quantity");
        HasFailed = true;
        return null;
    }

    private Unit? Unit(Dimension dimension)
    {
        if (IsAtEnd || Next.Kind is not (TokenKind.Word or TokenKind.Path or TokenKind.Percent))
        {
            FailUnit($"{row.Tokens[_index - 1].Text} has no unit", row.Tokens[_index - 1].Span, dimension);
            return null;
        }

        var token = Next;
        if (Units.Find(token.Text, dimension) is { } unit)
        {
            _index++;
            return unit;
        }

        if (Units.Find(token.Text) is { } other)
            FailUnit($"{row.Tokens[_index - 1].Text} {token.Text} is {other.Dimension.Article()}; {dimension.Article()} is needed",
                TextSpan.Cover(row.Tokens[_index - 1].Span, token.Span), dimension);
        else if (!HasFailed)
            scope.Report(ReadingRules.UnknownName, At(token),
                $"no unit of {dimension.Article()[(dimension.Article().IndexOf(' ', StringComparison.Ordinal) + 1)..]} is called \"{token.Text}\"",
                help: $"Write it in {dimension.UnitList()}.");
        HasFailed = true;
        return null;
    }

    private Quantity? Checked(Quantity quantity, int start, Dimension dimension, Bounds bounds)
    {
        if (Units.Find(quantity.Unit.Symbol, dimension) is { } unit) quantity = new Quantity(quantity.Value, unit);
        if (quantity.Dimension != dimension)
        {
            FailUnit($"{source.Slice(SpanFrom(start))} is not {dimension.Article()} but {quantity.Dimension.Article()}", SpanFrom(start), dimension);
            return null;
        }

        if (bounds.Hold(quantity.InBase)) return quantity;
        FailRange(SpanFrom(start), $"{source.Slice(SpanFrom(start))} is out of range", $"must be {bounds.InWords()} {Units.Of(dimension).First()}");
        return null;
    }

    private void FailUnit(string heading, TextSpan span, Dimension dimension)
    {
        var help = dimension == Dimension.Time && source.Slice(span).EndsWith(" m", StringComparison.Ordinal)
            ? $"Write {source.Slice(span)}in."
            : $"Write it in {dimension.UnitList()}.";
        if (!HasFailed) scope.Report(ReadingRules.WrongUnit, new Location(source, span), heading, $"{dimension.Article()} is needed", help);
        HasFailed = true;
    }

    private static decimal SecondsIn(Unit unit) => unit.Numerator / unit.Denominator;

    public TextSpan SpanFrom(int start) => SpanFrom(start, _index);

    public TextSpan SpanFrom(int start, int end) => TextSpan.Cover(row.Tokens[start].Span, row.Tokens[Math.Max(start, end - 1)].Span);

    private Location At(Token token) => new(source, token.Span);
}
