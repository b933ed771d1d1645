using System.Collections;
using System.Collections.Immutable;
using Antlr4.Runtime;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Syntax;
using WaterScript.Syntax.Generated;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Simulation;
using WaterScript.Tests.Syntax.Formatting;
using WaterScript.Text;
using Xunit;
using Parser = WaterScript.Syntax.Parser;
using Token = WaterScript.Syntax.Tokens.Token;

namespace WaterScript.Tests.Syntax;

/// <summary>
/// Nothing that a file says is read and then left out. Each token that the lexer alone sees is in a leaf of the tree, or is the word or mark of
/// a statement without a block, of the head of one with a block, or its brace; or the statement that it stands in has an error.
/// That a brace encloses a token counts for nothing.
/// </summary>
public sealed class TokensReadTests
{
    private static readonly int Mutations = Samples.Of(4_000);
    private const int Seed = 14;

    private static readonly string[] Inserted =
    [
        "{", "}", "{ }", "{ hold from 2026-07-01 for 3 days because \"x\" }", "{ water lawn for 5 min }", "\n", ";", ",", "+", "=", "-", "\"a\"", "1",
        "18min", "lawn", "steps", "zone", "water", "for", "every", "on", "mon",
        "@", "'", "²", "power { }", "repeat 3 times {", "accept unused because \"x\"",
    ];

    private static readonly string[] Texts =
    [
        .. Repository.ExampleFiles.Select(Repository.Read)
            .Concat(FencedBlock.InPages("water").GroupBy(block => block.Page).SelectMany(page => Snippet.Of([.. page])).Select(snippet => snippet.Text))
            .Concat(Enumerable.Range(0, 30).Select(number => RandomSource.Of(number).Text)),
    ];

    [Fact]
    public void Each_token_of_the_corpus_is_in_the_tree_or_at_an_error()
    {
        foreach (var text in Texts) Assert.Equal([], Unread(text));
    }

    [Fact]
    public void Each_token_of_a_mutated_text_is_in_the_tree_or_at_an_error()
    {
        var random = new Random(Seed);
        for (var number = 0; number < Mutations; number++)
        {
            var text = Mutated(Texts[random.Next(Texts.Length)], random);
            var unread = Unread(text);
            Assert.True(unread.Count == 0, $"mutation {number} of seed {Seed} has {string.Join(" and ", unread)} unread:\n{text}");
        }
    }

    private static string Mutated(string text, Random random)
    {
        var tokens = RawTokens.Of(text);
        var (one, other) = (tokens[random.Next(tokens.Count)], tokens[random.Next(tokens.Count)]);
        return random.Next(4) switch
        {
            0 => text.Remove(one.StartIndex, one.StopIndex + 1 - one.StartIndex),
            1 => Exchanged(text, one, other),
            _ => text.Insert(one.StartIndex, $" {Inserted[random.Next(Inserted.Length)]} "),
        };
    }

    private static string Exchanged(string text, IToken one, IToken other)
    {
        var (first, second) = one.StartIndex <= other.StartIndex ? (one, other) : (other, one);
        if (first == second) return text;
        return string.Concat(text.AsSpan(0, first.StartIndex), second.Text, text.AsSpan(first.StopIndex + 1, second.StartIndex - first.StopIndex - 1),
            first.Text) + text[(second.StopIndex + 1)..];
    }

    /// <summary>The tokens that nobody has read and nobody has reported.</summary>
    private static List<string> Unread(string text)
    {
        var findings = new FindingList();
        var file = Parser.Parse(SourceText.From("site.water", text), findings);
        if (findings.Any(finding => finding.Rule == ReadingRules.OverLimit)) return [];
        var read = new HashSet<int>();
        foreach (var statement in file.Statements) Take(statement, text, read);
        var statements = Statements(text);
        var errors = findings.Where(finding => finding.Severity == Severity.Error).Select(finding => finding.Primary.Location.Span).ToArray();
        var lackBlocks = findings.Where(finding => finding.Primary.Text is "{ is expected" or "`{` is expected" or "{ is missing here")
            .Select(finding => finding.Primary.Location.Span).ToArray();
        return
        [
            .. WithoutMissingBlocks(statements, file.Source, lackBlocks, errors).Where(statement => !errors.Any(error => statement.IsAt(error)))
                .SelectMany(statement => statement.Tokens)
                .Where(token => !Enumerable.Range(token.StartIndex, token.StopIndex + 1 - token.StartIndex).All(read.Contains))
                .Select(token => $"\"{token.Text}\" at {file.Source.PositionOf(token.StartIndex)}"),
        ];
    }

    /// <summary>
    /// The statements without the lines that were to be the block of one at the top that has none. That is reported at its end; they go on
    /// to the next line that stands no deeper and begins with a word of the top of a file. And without the deeper lines below one inside a block
    /// that has no brace and another error besides, as for one with a brace.
    /// </summary>
    private static IEnumerable<Stretch> WithoutMissingBlocks(IEnumerable<Stretch> statements, SourceText source, TextSpan[] lacking, TextSpan[] errors)
    {
        var start = 0;
        var inner = 0;
        foreach (var statement in statements)
        {
            var first = statement.Tokens[0];
            var column = source.PositionOf(first.StartIndex).Column;
            if (inner > 0 && (column > inner || (column == inner && first.Type == WaterScriptLexer.RBRACE))) continue;
            inner = statement.Around is not null && lacking.Any(statement.HasInside) && errors.Count(statement.HasInside) > 1 ? column : 0;
            if (statement.Around is null && column <= start && Words.BeginsStatement(first.Text, Place.File)) start = 0;
            if (start == 0) yield return statement;
            if (statement.Around is null && lacking.Any(statement.IsAt)) start = column;
        }
    }

    /// <summary>Takes the places that a node has read.</summary>
    private static void Take(object? item, string text, HashSet<int> read)
    {
        switch (item)
        {
            case Token token:
                Add(token.Span);
                break;
            case Node node when BodyOf(node) is { } body:
                var brace = BraceOf(node, text);
                TakeParts(node, text, read);
                AddMarks(TextSpan.FromBounds(node.Span.Start, brace + 1));
                if (text[node.Span.End - 1] == '}') Add(new TextSpan(node.Span.End - 1, 1));
                foreach (var part in body) Take(part, text, read);
                break;
            case Node node:
                if (!TakeParts(node, text, read)) Add(node.Span);
                AddMarks(node.Span);
                break;
            case IEnumerable items and not string:
                foreach (var part in items) Take(part, text, read);
                break;
        }

        void Add(TextSpan span) => read.UnionWith(Enumerable.Range(span.Start, span.Length));

        // Words of the language and marks are part of the statement itself; names, numbers, labels, dates and times have to be in a leaf.
        void AddMarks(TextSpan span)
        {
            foreach (var token in RawTokens.Of(text.Substring(span.Start, span.Length))
                .Where(token => IsMark(token.Type))) Add(new TextSpan(span.Start + token.StartIndex, token.Text.Length));
        }
    }

    /// <summary>Takes the parts of a node but for its body; false where it has none.</summary>
    private static bool TakeParts(Node node, string text, HashSet<int> read)
    {
        var hasParts = false;
        foreach (var property in node.GetType().GetProperties()
            .Where(property => property.Name is not ("Body" or "Steps" or "Accepts") && !(node is BlockNode && property.Name == "Row")))
        {
            if (property.GetIndexParameters().Length > 0 || property.GetValue(node) is not { } value || value is not (Node or Token or IEnumerable)
                || value is string) continue;
            hasParts = true;
            Take(value, text, read);
        }

        return hasParts;
    }

    private static IEnumerable<object>? BodyOf(Node node) => node switch
    {
        BlockNode block => block.Body,
        ScheduleNode schedule => schedule.Body,
        RestrictionNode restriction => restriction.Body,
        SequenceNode sequence => [.. sequence.Steps, .. sequence.Accepts],
        ExtraNode extra => extra.Steps,
        StepsNode steps => steps.Steps,
        RepeatStepsNode repeat => repeat.Steps,
        CycleNode cycle => cycle.Steps,
        TogetherNode together => together.Waters,
        _ => null,
    };

    private static int BraceOf(Node node, string text) =>
        node.Span.Start
            + (RawTokens.Of(text.Substring(node.Span.Start, node.Span.Length)).FirstOrDefault(token => token.Type == WaterScriptLexer.LBRACE)?.StartIndex
            ?? node.Span.Length - 1);

    private static bool IsMark(int type) => type is not (WaterScriptLexer.WORD or WaterScriptLexer.PATH or WaterScriptLexer.NUMBER or WaterScriptLexer.DATE
        or WaterScriptLexer.CLOCK or WaterScriptLexer.GLUED or WaterScriptLexer.MALFORMED
        or WaterScriptLexer.STRING or WaterScriptLexer.CURLY_STRING or WaterScriptLexer.OPEN_STRING
        or WaterScriptLexer.RBRACE or WaterScriptLexer.OTHER);

    /// <summary>
    /// The statements of a text by its tokens alone: each from its first token to its end, or to its brace, whose closing one is a statement to itself.
    /// What follows a closing brace on its line goes with the head of the block, or with what stands before a brace that closes nothing.
    /// </summary>
    private static List<Stretch> Statements(string text)
    {
        var raw = RawTokens.Of(text).Where(token => token.Type != WaterScriptLexer.COMMENT).ToList();
        var statements = new List<Stretch>();
        var open = new Stack<Stretch>();
        var tokens = new List<IToken>();
        Stretch? closed = null;
        for (var i = 0; i < raw.Count; i++)
        {
            var type = raw[i].Type;
            if (type == WaterScriptLexer.NEWLINE)
            {
                if (!EndsStatement(raw, i)) continue;
                Finish(raw[i].StartIndex);
                closed = null;
                continue;
            }

            if (type == WaterScriptLexer.RBRACE)
            {
                var before = tokens.Count > 0 ? Finish(raw[i].StartIndex) : null;
                var head = open.TryPop(out var block) ? block : null;
                closed = head ?? before ?? closed;
                statements.Add(new Stretch([raw[i]], head, raw[i].StopIndex + 1, open.TryPeek(out var outside) ? outside : null));
                continue;
            }

            tokens.Add(raw[i]);
            if (type != WaterScriptLexer.LBRACE) continue;
            open.Push(Finish(raw[i].StopIndex + 1)!);
            closed = null;
        }

        Finish(text.Length);
        return statements;

        Stretch? Finish(int stop)
        {
            if (tokens.Count == 0) return null;
            statements.Add(new Stretch([.. tokens], closed, stop, open.TryPeek(out var outside) ? outside : null));
            tokens.Clear();
            return statements[^1];
        }
    }

    private static bool EndsStatement(List<IToken> tokens, int index)
    {
        if (tokens[index].Text == ";") return true;
        var before = index;
        while (before > 0 && tokens[before].Type == WaterScriptLexer.NEWLINE && tokens[before].Text != ";") before--;
        if (tokens[before].Type is WaterScriptLexer.COMMA or WaterScriptLexer.PLUS or WaterScriptLexer.EQUALS or WaterScriptLexer.LBRACE) return false;
        var after = index;
        while (after < tokens.Count && tokens[after].Type == WaterScriptLexer.NEWLINE && tokens[after].Text != ";") after++;
        return after == tokens.Count || tokens[after].Type != WaterScriptLexer.LBRACE;
    }

    /// <summary>A statement, up to its brace.</summary>
    /// <param name="Tokens">Its tokens.</param>
    /// <param name="Head">For a closing brace, and for what follows one on its line, the head of the block; else null.</param>
    /// <param name="Stop">Where the token that ends it begins: there it is said that it ends too early.</param>
    /// <param name="Around">The head of the block that it stands in, or null.</param>
    private sealed record Stretch(ImmutableArray<IToken> Tokens, Stretch? Head, int Stop, Stretch? Around)
    {
        /// <summary>
        /// Whether an error is at the statement, or at the head of a block that it stands in: with an error in its head nobody knows what a body is.
        /// </summary>
        public bool IsAt(TextSpan error) =>
            HasInside(error) || Head?.IsAt(error) == true || Around?.IsAt(error) == true;

        /// <summary>Whether an error is at its own tokens.</summary>
        public bool HasInside(TextSpan error) => error.Start <= Stop && error.End >= Tokens[0].StartIndex;
    }
}
