using System.Collections.Immutable;
using Antlr4.Runtime;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Syntax.Slips;

/// <summary>
/// Goes over the statements of a file before they are parsed. One that is said as people say it, and not as the language does, is reported with what to
/// write, and then read as it was meant, so that nothing else is reported because of it.
/// </summary>
internal sealed class PhraseReader(List<IToken> tokens, SourceText source, Mistakes mistakes)
{
    private static readonly ImmutableArray<Func<Phrase, Slip?>> Rules =
        [.. GeneralSlips.All, .. DaySlips.All, .. StartSlips.All, .. StepSlips.All, .. BlockSlips.All];

    /// <summary>The tokens as they were meant, as far as they were gone over; null while that is as they are written.</summary>
    private List<IToken>? _corrected;
    private readonly PlaceStack _places = new();
    private readonly ImmutableArray<IToken>.Builder _statement = ImmutableArray.CreateBuilder<IToken>();

    /// <summary>The tokens as they were meant.</summary>
    public List<IToken> Correct()
    {
        for (var i = 0; i < tokens.Count; i++)
        {
            var token = tokens[i];
            if (token.Type is not (WaterScriptLexer.NEWLINE or WaterScriptLexer.LBRACE or WaterScriptLexer.RBRACE or TokenConstants.EOF))
            {
                _statement.Add(token);
                continue;
            }

            if (_statement.Count > 0)
            {
                Add(new Phrase(source, _places.Place, _places.Kind, _statement.ToImmutable(), token.Type == WaterScriptLexer.LBRACE), i - _statement.Count);
                _statement.Clear();
            }

            _corrected?.Add(token);
            _places.Take(token);
        }

        return _corrected ?? tokens;
    }

    /// <summary>Adds a statement.</summary>
    /// <param name="phrase">The statement.</param>
    /// <param name="start">Index of its first token.</param>
    private void Add(Phrase phrase, int start)
    {
        foreach (var rule in Rules)
        {
            if (rule(phrase) is not { } slip) continue;
            _corrected ??= tokens.GetRange(0, start);
            Report(phrase, slip);
            if (slip.IsUnread) return;
            phrase = phrase with { Tokens = Corrected(phrase.Tokens, slip.Parts) };
        }

        foreach (var token in phrase.Tokens)
        {
            _corrected?.Add(token);
            _places.Take(token);
        }
    }

    private void Report(Phrase phrase, Slip slip)
    {
        var edits = slip.Parts
            .Select(part => new TextEdit(new Location(source, SpanOf(phrase.Tokens, part)), Replacement(phrase.Tokens, part))).ToImmutableArray();
        var place = MarkOf(phrase.Tokens, slip.Parts[0]);
        mistakes.Add(Finding.At(ReadingRules.Syntax, new Location(source, place), slip.Heading) with
        {
            Help = slip.Help,
            Fix = slip.IsUnread ? null : new Fix(TitleOf(slip), slip.IsSafe, edits),
        });
    }

    private static string TitleOf(Slip slip) => slip.Parts[0].Text.Length == 0
        ? char.ToLowerInvariant(slip.Help[0]) + slip.Help[1..].TrimEnd('.')
        : $"write {string.Join(" and ", slip.Parts.Select(part => $"`{part.Text}`").Distinct())}";

    private static TextSpan MarkOf(ImmutableArray<IToken> tokens, SlipPart part)
    {
        if (part.Count > 0) return tokens[part.First].SpanTo(tokens[part.First + part.Count - 1]);
        return part.First < tokens.Length ? tokens[part.First].Span() : new TextSpan(tokens[^1].StopIndex + 1, 0);
    }

    /// <summary>What is replaced: with the blank beside it where nothing comes in its place.</summary>
    private static TextSpan SpanOf(ImmutableArray<IToken> tokens, SlipPart part)
    {
        var isEnd = part.First + part.Count >= tokens.Length;
        if (part.Count == 0)
        {
            var isBehind = isEnd || part.Text[0] is ',' or ';';
            return new TextSpan(isBehind ? tokens[part.First - 1].StopIndex + 1 : tokens[part.First].StartIndex, 0);
        }

        var (first, last) = (tokens[part.First], tokens[part.First + part.Count - 1]);
        if (part.Text is "," or ";") return TextSpan.FromBounds(tokens[part.First - 1].StopIndex + 1, last.StopIndex + 1);
        if (part.Text.Length > 0) return first.SpanTo(last);
        return part.First > 0 && (isEnd || TokenSpans.Touch(tokens[part.First - 1], first))
            ? TextSpan.FromBounds(tokens[part.First - 1].StopIndex + 1, last.StopIndex + 1)
            : TextSpan.FromBounds(first.StartIndex, isEnd ? last.StopIndex + 1 : tokens[part.First + part.Count].StartIndex);
    }

    private static string Replacement(ImmutableArray<IToken> tokens, SlipPart part) => part switch
    {
        { Count: > 0 } or { Text: [',' or ';', ..] } => part.Text,
        _ => part.First < tokens.Length ? part.Text + " " : " " + part.Text,
    };

    private static ImmutableArray<IToken> Corrected(ImmutableArray<IToken> tokens, ImmutableArray<SlipPart> parts)
    {
        var corrected = ImmutableArray.CreateBuilder<IToken>();
        var next = 0;
        foreach (var part in parts)
        {
            corrected.AddRange(tokens[next..part.First]);
            var span = MarkOf(tokens, part);
            if (part.Count == 0) span = new TextSpan(span.Start, 0);
            corrected.AddRange(TokenCursor.Lexed(part.Text, 0).Select(token => (IToken)TokenSpans.Make(token.Type, span, token.Text)));
            next = part.First + part.Count;
        }

        corrected.AddRange(tokens[next..]);
        return corrected.DrainToImmutable();
    }
}
