using System.Globalization;
using System.Text;
using WaterScript.Syntax;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Simulation;
using WaterScript.Tests.Syntax.Formatting;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>The scanner against the lexer that ANTLR made of the grammar: the same tokens, one by one.</summary>
public sealed class ScannerTests
{
    private const int Seed = 29;
    private const int LongestRun = 12;
    private static readonly int Mutations = Samples.Of(20_000);
    private static readonly int RandomTexts = Samples.Of(200_000);

    /// <summary>Sites of the repository, whole ones and such as no site can be, and some at random.</summary>
    private static readonly string[] Texts =
    [
        .. Repository.FilesUnder("examples").Concat(Repository.FilesUnder("tests/Cases")).Where(path => path.EndsWith(".water", StringComparison.Ordinal))
            .Select(Repository.Read),
        .. FencedBlock.InPages("water").Select(block => block.Text),
        .. Enumerable.Range(0, 30).Select(number => RandomSource.Of(number).Text),
    ];

    /// <summary>Characters with which tokens begin, end or go on in one rule and not in another, and neighbours of the sets of the grammar.</summary>
    private static readonly string[] Pieces =
    [
        .. "aZ_0159.:/-+=,%{};#\"'\\ \t\n\r\0@^°²µ½".Select(c => c.ToString()),
        .. "\u0085\u00A0\u00AA\u00AB\u00BB\u00D7\u02FF\u0300\u036F\u0370\u0663\u1680\u1681\u1FFF".Select(c => c.ToString()),
        .. "\u2000\u200B\u200F\u2010\u2012\u2015\u2016\u2018".Select(c => c.ToString()),
        .. "\u201C\u201D\u201E\u201F\u2028\u202F\u2030\u205F\u206F\u2070\u2212\u2C00\u2DFF\u2E00\u3000\u3005\u3008\u3021\uD7FF".Select(c => c.ToString()),
        .. "\uE000\uF900\uFDFF\uFE00\uFE0F\uFE10\uFE70\uFEFE\uFEFF\uFF20\uFF21\uFF3A\uFF3B\uFF66\uFFDC\uFFDD\uFFFF".Select(c => c.ToString()),
        "\uD83C", "\uDF31", "\uD83C\uDF31", "\r\n", "2026-05-01", "06:00", "1.5", "18min", "water", "days", "day", "L/min", "Etc/GMT+3", "\\\"", "\"a\"",
    ];

    [Fact]
    public void The_repository_has_the_same_tokens()
    {
        foreach (var text in Texts) Compare(text);
    }

    [Fact]
    public void Mutated_texts_have_the_same_tokens()
    {
        var random = new Random(Seed);
        for (var number = 0; number < Mutations; number++)
        {
            var text = new StringBuilder(Part(Texts[random.Next(Texts.Length)], random));
            for (var change = random.Next(1, 5); change > 0; change--)
            {
                var at = random.Next(text.Length + 1);
                if (random.Next(3) == 0) text.Remove(at, Math.Min(random.Next(1, 4), text.Length - at));
                else text.Insert(at, Pieces[random.Next(Pieces.Length)]);
            }

            Compare(text.ToString());
        }
    }

    [Fact]
    public void Random_texts_have_the_same_tokens()
    {
        var random = new Random(Seed);
        for (var number = 0; number < RandomTexts; number++)
            Compare(string.Concat(Enumerable.Range(0, random.Next(1, LongestRun)).Select(_ => Pieces[random.Next(Pieces.Length)])));
    }

    /// <summary>Each character by itself, behind a letter, behind a digit, and before both: so each set of the grammar has the same members.</summary>
    [Fact]
    public void Each_character_is_of_the_same_sets()
    {
        var text = new StringBuilder();
        for (var c = 0; c <= char.MaxValue; c++) text.Append(CultureInfo.InvariantCulture, $"a{(char)c}b 1{(char)c}2 {(char)c}\n");
        Compare(text.ToString());
    }

    [Fact]
    public void Each_word_of_the_grammar_is_a_token_of_its_own()
    {
        foreach (var type in Enumerable.Range(WaterScriptLexer.INCLUDE, WaterScriptLexer.WORD - WaterScriptLexer.INCLUDE))
        {
            var word = WaterScriptLexer.DefaultVocabulary.GetLiteralName(type).Trim('\'');
            Assert.Equal((type, word), Words.Find(word));
            Compare($"{word} {word}s {word}/{word} {word.ToUpperInvariant()}");
        }
    }

    /// <summary>A part of a text, so that the places of mutations are not all far from one another.</summary>
    private static string Part(string text, Random random)
    {
        var start = random.Next(text.Length + 1);
        return text.Substring(start, Math.Min(random.Next(400), text.Length - start));
    }

    private static void Compare(string text)
    {
        var expected = RawTokens.Of(text).Select(token => (token.Type, token.StartIndex, token.StopIndex, token.Text)).ToList();
        var actual = new List<(int, int, int, string)>(expected.Count);
        for (var scanner = new Scanner(text); scanner.MoveNext();) actual.Add((scanner.Type, scanner.Start, scanner.Span.End - 1, scanner.Text));
        if (!expected.SequenceEqual(actual)) Assert.Fail($"not the same tokens of {Escaped(text)}:\n{Shown(expected)}\n{Shown(actual)}");
    }

    private static string Shown(IEnumerable<(int Type, int, int, string Text)> tokens) =>
        string.Join(' ', tokens.Select(token => $"{WaterScriptLexer.DefaultVocabulary.GetSymbolicName(token.Type)}({Escaped(token.Text)})"));

    private static string Escaped(string text) => string.Concat(text.Select(c => c is >= ' ' and <= '~' ? $"{c}" : $"\\u{(int)c:X4}"));
}
