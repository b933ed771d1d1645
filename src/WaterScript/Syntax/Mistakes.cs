using System.Collections.Immutable;
using Antlr4.Runtime;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>Words the mistakes of a file and collects them.</summary>
internal sealed class Mistakes(SourceText source)
{
    private const string PlainDigits = "Write numbers with the digits 0 to 9 and a decimal point, such as `1.5`.";

    private readonly List<Finding> _findings = [];

    /// <summary>Words of statements at the top of the file that could not be read, which may be names.</summary>
    public List<string> UnreadNames { get; } = [];

    /// <summary>Lines in a row that are no statements: how many, the last, and which finding tells of them.</summary>
    private (int Lines, int Last, int Index) _unread;

    /// <summary>Adds a finding.</summary>
    public void Add(Finding finding) => _findings.Add(finding);

    /// <summary>A statement that begins with no word known at its place.</summary>
    public void UnknownStatement(Token first, Place place)
    {
        if (IsReported(first.Kind)) return;
        var words = Words.At(place);
        var home = Words.HomeOf(first.Text);
        var nearest = home is null ? Meant(first.Text, words, place) : null;
        if (place == Place.File && home is null && nearest is null && KnownTypos.Saying(first.Text) is null && IsNextOfMany(first.Span)) return;
        Add(Finding.At(ReadingRules.Syntax, At(first.Span), $"\"{first.Text}\" is not a statement here",
            nearest is null ? "" : $"did you mean `{nearest}`?") with
        {
            Help = nearest is not null ? $"Write `{nearest}`."
                : home ?? (KnownTypos.Saying(first.Text) is { } form ? $"Write `{form}`."
                : place == Place.Steps ? $"To water {first.Text}, write `water {first.Text}`. Here a statement begins with {string.Join(", ", words)}."
                : words.IsEmpty ? "" : $"Here a statement begins with {string.Join(", ", words)}."),
            Fix = nearest is null ? null : Fix.Spelt(At(first.Span), nearest, words),
        });
    }

    /// <summary>A day without its <c>on</c>, two words without the blank between them, or a word near to what was written.</summary>
    private static string? Meant(string written, ImmutableArray<string> words, Place place)
    {
        if (place == Place.Schedule && KnownTypos.Weekday(written) is { } day) return $"on {day}";
        return Spelling.Apart(written, words, IsOfLanguage) ?? Spelling.Nearest(written, words);
    }

    private static bool IsOfLanguage(string word) =>
        Words.Find(word) is not null || KnownTypos.Weekday(word) is not null || KnownTypos.Month(word) is not null;

    /// <summary>
    /// Whether the line before was no statement either, as where rows of a spreadsheet were pasted: all of them are one finding, which says how many.
    /// </summary>
    private bool IsNextOfMany(TextSpan first)
    {
        var line = source.PositionOf(first.Start).Line;
        var isNext = _unread.Lines > 0 && line == _unread.Last + 1;
        _unread = isNext ? (_unread.Lines + 1, line, _unread.Index) : (1, line, _findings.Count);
        if (!isNext) return false;
        var begin = _findings[_unread.Index].Primary.Location.Span.Start;
        _findings[_unread.Index] = Finding.At(ReadingRules.Syntax, At(TextSpan.FromBounds(begin, source.LineSpan(line).End)),
            $"{_unread.Lines} lines in a row are no statements") with
        {
            Help = "Describe each zone, such as `zone lawn \"Front lawn\" { output 1; flow 12 L/min }`, or begin the lines with # to keep them as comments.",
        };
        return true;
    }

    /// <summary>Something after the end of a statement.</summary>
    public void Leftover(IToken token)
    {
        if (!IsReported(Kinds.Of(token.Type)))
            Add(Finding.At(ReadingRules.Syntax, At(token.Span()), $"{InQuotes(token)} does not belong here")
                with
            { Help = Suggestion.ForLeftover(token).Text });
    }

    /// <summary>A description whose first line is not followed by a block.</summary>
    /// <param name="end">Where that line ends.</param>
    public void NoBlock(TextSpan end) =>
        Add(Finding.At(ReadingRules.Syntax, At(end), "the line ends too early", "{ is expected") with { Help = Suggestion.NoBlock });

    /// <summary>Reports braces before which there is no statement that has a block.</summary>
    public void BareBraces(TextSpan brace, Place place) => Add(Bare(At(brace), place));

    /// <summary>Braces before which there is no statement that has a block.</summary>
    public static Finding Bare(Location brace, Place place) =>
        Finding.At(ReadingRules.Syntax, brace, "braces without a statement before them", "begin here") with { Help = BareHelp(place) };

    private static string BareHelp(Place place) => place switch
    {
        Place.File => "Write before the { what stands in the braces, such as `zone lawn { … }`, or delete the { and its }.",
        Place.Schedule => "Write steps before the { if steps stand in the braces. Or delete the { and its }.",
        Place.Steps => "Write before the { what happens to the steps in the braces, such as `repeat 3 times { … }`, or delete the { and its }.",
        _ => "Delete the { and its }.",
    };

    /// <summary>Reports a label after the one label that a block has.</summary>
    public void SecondLabel(TextSpan second, TextSpan first) =>
        Add(Finding.At(ReadingRules.StatedTwice, At(second), "the label is stated twice", "the second time") with
        {
            Others = [new Label(At(first), "the first time")],
            Help = "Delete one of the two.",
        });

    /// <summary>A label that stands before the name it belongs to.</summary>
    public void LabelBeforeName(TextSpan label, TextSpan name)
    {
        var form = $"{source.Slice(name)} {source.Slice(label)}";
        Add(Finding.At(ReadingRules.Syntax, At(label), "the name comes before the label") with
        {
            Help = $"Write `{form}`.",
            Fix = new Fix($"write `{form}`", IsSafe: true, [new TextEdit(At(TextSpan.FromBounds(label.Start, name.End)), form)]),
        });
    }

    private static bool IsReported(TokenKind kind) => kind is TokenKind.Glued or TokenKind.Malformed or TokenKind.Other;

    private static string InQuotes(IToken token) => token.Type == WaterScriptLexer.STRING ? token.Text : $"\"{token.Text}\"";

    /// <summary>Two waterings in one statement: a comma would be read as the next zone of the first.</summary>
    /// <param name="first">The first watering.</param>
    /// <param name="comma">The comma after it.</param>
    /// <param name="rest">The second, without its <c>water</c>.</param>
    public void SecondWatering(TextSpan first, TextSpan comma, TextSpan rest)
    {
        if (source.Slice(comma) == "and") WateringsJoined(comma, rest);
        else Add(Finding.At(ReadingRules.Syntax, At(comma), "a second watering needs a line of its own", "the first ends here") with
        {
            Help = $"Write two lines: `{source.Slice(first)}` and `water {source.Slice(rest)}`.",
            Fix = new Fix("begin a second watering", IsSafe: true, [new TextEdit(At(comma), ";"), new TextEdit(At(new TextSpan(rest.Start, 0)), "water ")]),
        });
    }

    private void WateringsJoined(TextSpan and, TextSpan rest) => Add(Finding.At(ReadingRules.Syntax, At(and), "\"and\" does not join two waterings") with
    {
        Help = $"Put a plus in its place for together, or write `water {source.Slice(rest)}` on a line of its own for later.",
    });

    /// <summary>A token that cannot stand where it does.</summary>
    /// <param name="token">The token.</param>
    /// <param name="expected">What could, in words; may be empty.</param>
    /// <param name="suggestion">What to do.</param>
    public void Unexpected(IToken token, string expected, Suggestion suggestion)
    {
        var endsEarly = token.Type is TokenConstants.EOF or WaterScriptLexer.NEWLINE;
        var span = new TextSpan(token.StartIndex, endsEarly ? 0 : token.Span().Length);
        var heading = token.Type switch
        {
            TokenConstants.EOF => "the file ends too early",
            WaterScriptLexer.NEWLINE => "the line ends too early",
            _ when suggestion.Missing.Length > 0 => $"{suggestion.Missing} is missing before {InQuotes(token)}",
            _ => $"{InQuotes(token)} does not belong here",
        };
        Add(Finding.At(ReadingRules.Syntax, At(span), heading, LabelOf(expected)) with
        {
            Help = suggestion.Text,
            Fix = suggestion.Replacement is { } text
                ? new Fix($"write `{text}`", !suggestion.IsGuess, [new TextEdit(At(span), text)])
                : null,
        });
    }

    private static string LabelOf(string expected) => expected switch
    {
        "" => "",
        "`for` or `with`" => "`for` a time, or `with` an amount",
        _ => $"{expected} is expected",
    };

    /// <summary><c>mon-fri</c></summary>
    public void GluedWeekdays(TextSpan span, string first, string last) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), $"\"{source.Slice(span)}\" is not how days in a row are written") with
        {
            Help = $"Write `{first} to {last}`.",
            Fix = Fix.Safe($"write `{first} to {last}`", At(span), $"{first} to {last}"),
        });

    /// <summary>Something understood that is written in another way here.</summary>
    public void Unusual(TextSpan span, string form) =>
        Add(Finding.At(ReadingRules.UnusualForm, At(span), $"\"{source.Slice(span)}\" is written `{form}` here") with
        {
            Help = $"Write `{form}`.",
            Fix = Fix.Safe($"write `{form}`", At(span), form),
        });

    /// <summary>A number with a comma in place of the point.</summary>
    public void DecimalComma(TextSpan span, string whole, string part) =>
        Add(Finding.At(
            ReadingRules.DecimalComma, At(span), $"\"{source.Slice(span)}\" has a comma for its decimal point", "a comma stands between things of a list") with
        {
            Help = $"Write `{whole}.{part}`.",
            Fix = Fix.Unsafe($"write `{whole}.{part}`", At(span), $"{whole}.{part}"),
        });

    /// <summary><c>3x</c></summary>
    public void GluedTimes(TextSpan span, string count) => Wrong(span, "is not how times are counted", $"Write `{count} times`.");

    /// <summary>A number with letters after it that are no unit.</summary>
    public void Glued(TextSpan span) => Wrong(span, "is neither a number with a unit nor a name", "Write the number, a space and the unit, such as `18 min`.");

    /// <summary><c>at07:00</c></summary>
    public void NoSpace(TextSpan span, int length) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), $"a space is missing in \"{source.Slice(span)}\"") with
        {
            Help = $"Write `{source.Slice(span).Insert(length, " ")}`.",
            Fix = Fix.Safe("write a space", At(new TextSpan(span.Start + length, 0)), " "),
        });

    /// <summary><c>2nd</c></summary>
    public void Ordinal(TextSpan span, string number) =>
        Wrong(span, "is not how days are counted", $"Write the number alone, such as `every {number} days`, `days {number} of month` or `{number} may`.");

    /// <summary><c>52°30'N</c></summary>
    public void Minutes(TextSpan span) => Wrong(span, "is not how a location is written", "Write degrees with a decimal point, such as `52.5 N 13.4 E`.");

    /// <summary><c>.5</c></summary>
    public void NoWhole(TextSpan span) => Wrong(span, "is not how a number is written", $"Write `0{source.Slice(span)}`.");

    /// <summary>A slip that starts like a number.</summary>
    public void Malformed(TextSpan span, string text) => Wrong(
        span,
        text.Contains(':', StringComparison.Ordinal) ? "is not a time of day" : "is not a date",
        text.Contains(':', StringComparison.Ordinal) ? "Write each time for itself, such as `06:00`."
            : ForeignDate.Meant(text) is { } dates ? $"Write {dates}."
            : "Write year, month and day, such as `2026-05-01`.");

    /// <summary><c>from 1 may until 30 sep</c></summary>
    public void UntilForTo(TextSpan span) => Add(Finding.At(ReadingRules.Syntax, At(span), "\"until\" does not name the last day here") with
    {
        Help = "Write `to`; the last day is included.",
        Fix = Fix.Unsafe("write `to`", At(span), "to"),
    });

    /// <summary>A comment as other languages begin it.</summary>
    /// <param name="span">What begins it.</param>
    /// <param name="ends">Whether it ends at the end of its line, as the comments of this language do.</param>
    public void ForeignComment(TextSpan span, bool ends) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), $"\"{source.Slice(span)}\" does not begin a comment") with
        {
            Help = "Begin the comment with `#`; it ends with its line.",
            Fix = ends ? Fix.Safe("write `#`", At(span), "#") : null,
        });

    /// <summary>A label in quotes of another kind.</summary>
    public void SingleQuotes(TextSpan span, string text) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), $"{source.Slice(span)} has the wrong quotes") with
        {
            Help = $"Write a label in quotes, `\"{text}\"`; a name stands without quotes.",
        });

    /// <summary>A label without its second quote.</summary>
    public void OpenLabel(TextSpan span) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), "a label without its closing quote", "begins here") with
        {
            Help = "Write a `\"` at its end, on the same line.",
            Fix = Fix.Unsafe("write a `\"` at its end", At(new TextSpan(span.End, 0)), "\""),
        });

    /// <summary>A path, a reason or a note without quotes.</summary>
    /// <param name="span">It.</param>
    /// <param name="word">What stands before it.</param>
    public void NoQuotes(TextSpan span, string word)
    {
        var form = $"\"{source.Slice(span)}\"";
        var heading = word switch
        {
            "include" => "a path without quotes",
            "note" => "a note without quotes",
            _ => "a reason without quotes",
        };
        Add(Finding.At(ReadingRules.Syntax, At(span), heading) with
        {
            Help = $"Write `{word} {form}`.",
            Fix = new Fix($"write `{word} {form}`", IsSafe: true,
                [new TextEdit(At(new TextSpan(span.Start, 0)), "\""), new TextEdit(At(new TextSpan(span.End, 0)), "\"")]),
        });
    }

    /// <summary>Words in parentheses.</summary>
    /// <param name="open">The first.</param>
    /// <param name="close">The second.</param>
    /// <param name="isAside">Whether what they enclose is left out.</param>
    public void Parentheses(TextSpan open, TextSpan close, bool isAside)
    {
        var all = TextSpan.Cover(open, close);
        var blank = open.Start > 0 && source.Text[open.Start - 1] == ' ' ? 1 : 0;
        Add(Finding.At(ReadingRules.Syntax, At(all), "parentheses mean nothing here") with
        {
            Help = isAside ? $"Delete `{source.Slice(all)}`, or write it after a # at the end of the line." : "Delete the `(` and the `)`.",
            Fix = isAside
                ? Fix.Unsafe($"delete `{source.Slice(all)}`", At(TextSpan.FromBounds(open.Start - blank, close.End)), "")
                : new Fix("delete the parentheses", IsSafe: false, [new TextEdit(At(open), ""), new TextEdit(At(close), "")]),
        });
    }

    /// <summary>A label, a reason or a path of nothing but spaces.</summary>
    public void NothingInQuotes(TextSpan span) =>
        Add(Finding.At(ReadingRules.Missing, At(span), "nothing between the quotes") with { Help = "Write a few words, or leave a label out." });

    /// <summary>An escape that means nothing.</summary>
    public void BadEscape(TextSpan span) =>
        Wrong(span, "means nothing in a label",
        "Write \\\" for a quote, \\\\ for a backslash, \\n for a new line, or \\u{1F331} for a character by its number");

    /// <summary>A mark between a property and its value.</summary>
    public void NeedlessMark(TextSpan span, string property, string mark) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), $"\"{mark}\" does not stand after \"{property}\"") with
        {
            Help = $"Write {property}, a space and the value.",
            Fix = Fix.Safe($"delete {mark}", At(span), ""),
        });

    /// <summary><c>let settle: 5 min</c></summary>
    public void ColonInLet(TextSpan span, string name) => Wrong(span, "does not stand in a let", $"Write let {name} = and the value");

    /// <summary>Reports a word that begins with a digit other than 0 to 9.</summary>
    public void ForeignDigit(TextSpan span) => Wrong(span, "is neither a number nor a name", PlainDigits);

    /// <summary>A character that the language does not use.</summary>
    public void Stray(TextSpan span) => Wrong(span, "means nothing here", source.Slice(span) switch
    {
        "&" => "Write + for together, or a comma for one after the other.",
        ":" => "Delete it: a value stands after a blank, and a block between { and }.",
        var text when char.IsNumber(text[0]) => PlainDigits,
        _ => "Delete it, or put it into a label.",
    });

    /// <summary>An <c>accept</c> among steps that are no sequence's.</summary>
    public void MisplacedAccept(TextSpan span) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), "an `accept` among steps accepts nothing")
            with
        { Help = "Put it directly into the schedule, before or after its steps." });

    /// <summary>A name that is not formed as names are.</summary>
    public void BadName(TextSpan span, string name) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), $"\"{name}\" cannot be a name")
            with
        { Help = $"Use small letters a to z, digits and single hyphens, such as `{Names.Like(name) ?? "north-bed"}`; people read the label." });

    /// <summary>A block that is not closed where its lines end.</summary>
    public void MissingClose(TextSpan span) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), "a block without its closing brace", "opened here") with { Help = "Put a } after its last line." });

    /// <summary>A block without its opening brace, at the end of the line that begins it.</summary>
    public void MissingOpen(TextSpan span) => Add(Finding.At(ReadingRules.Syntax, At(span), "a block without its opening brace", "{ is missing here") with
    {
        Help = "Put a { at the end of this line.",
        Fix = Fix.Unsafe("put a { here", At(span), " {"),
    });

    /// <summary>A block without its opening brace, in the line that holds all of it.</summary>
    public void MissingOpenInLine(TextSpan span) => Add(Finding.At(ReadingRules.Syntax, At(span), "a block without its opening brace", "{ is missing here") with
    {
        Help = "Write a `{` here.",
        Fix = Fix.Unsafe("write `{`", At(span), " {"),
    });

    /// <summary>A closing brace too many.</summary>
    public void StrayClose(TextSpan span) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), "a closing brace that closes nothing")
        with
        { Help = "Delete it, or put the { of its block after the name." });

    /// <summary>Braces inside braces beyond the limit.</summary>
    public void TooDeep(TextSpan span) =>
        Add(Finding.At(ReadingRules.OverLimit, At(span), $"more than {Limits.NestingDepth} braces inside one another")
        with
        { Help = "Give the inner steps a name with `sequence`, and `run` it." });

    private void Wrong(TextSpan span, string what, string help) =>
        Add(Finding.At(ReadingRules.Syntax, At(span), $"\"{source.Slice(span)}\" {what}") with { Help = help });

    /// <summary>Hands over what was found, in order of place: of each statement the first that cannot be read.</summary>
    public void HandOver(FindingList findings)
    {
        TextSpan? last = null;
        foreach (var finding in _findings.OrderBy(finding => finding.Primary.Location.Span.Start))
        {
            var place = finding.Primary.Location.Span;
            var isSyntax = SameStatement.MakesUnread(finding);
            if (isSyntax && last is { } before && SameStatement.IsOne(source, before, place)) continue;
            if (isSyntax) last = place;
            findings.Add(finding);
        }
    }

    private Location At(TextSpan span) => new(source, span);
}
