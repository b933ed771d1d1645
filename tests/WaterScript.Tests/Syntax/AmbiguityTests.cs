using System.Text.RegularExpressions;
using Antlr4.Runtime;
using Antlr4.Runtime.Atn;
using Antlr4.Runtime.Dfa;
using Antlr4.Runtime.Sharpen;
using WaterScript.Syntax;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>
/// The grammar has one reading of every example. The generated parser never predicts, so ANTLR's interpreter of the same
/// grammar does, with exact ambiguity detection.
/// </summary>
public class AmbiguityTests
{
    private static string Root()
    {
        var folder = AppContext.BaseDirectory;
        while (!Directory.Exists(Path.Combine(folder, "examples"))) folder = Path.GetDirectoryName(folder)!;
        return folder;
    }

    public static TheoryData<string> Examples()
    {
        var folder = Root();
        return [.. Directory.EnumerateFiles(Path.Combine(folder, "examples"), "*.water", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void AnExampleHasOneReading(string path) => AssertOneReading(path, File.ReadAllText(path));

    /// <summary>Every construct of the language is shown in the reference, inside a schedule, its steps, or at the top of a file.</summary>
    [Theory]
    [InlineData("water", "", "")]
    [InlineData("water top", "", "")]
    [InlineData("water schedule", "schedule s {\n", "\n}\n")]
    [InlineData("water steps", "schedule s { steps {\n", "\n} }\n")]
    public void TheReferenceHasOneReading(string info, string before, string after)
    {
        var page = File.ReadAllText(Path.Combine(Root(), "docs", "language.md"));
        var blocks = Regex.Matches(page, $"^```{info}\\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline);
        Assert.NotEmpty(blocks);
        foreach (Match block in blocks) AssertOneReading($"language.md:{block.Index}", before + block.Groups[1].Value + after);
    }

    private static void AssertOneReading(string path, string text)
    {
        var source = SourceText.From(path, text);
        var tokens = TokenReader.Read(source, new Mistakes(source)).Tokens;
        Assert.NotNull(tokens);
        var generated = new WaterScriptParser(tokens, TextWriter.Null, TextWriter.Null);
        var interpreter = new ParserInterpreter("WaterScriptParser", WaterScriptParser.DefaultVocabulary, WaterScriptParser.ruleNames, generated.Atn, tokens);
        interpreter.Interpreter.PredictionMode = PredictionMode.LL_EXACT_AMBIG_DETECTION;
        var listener = new Ambiguities();
        interpreter.RemoveErrorListeners();
        interpreter.AddErrorListener(listener);
        interpreter.Parse(startRuleIndex: 0);
        Assert.Equal(TokenConstants.EOF, tokens.LA(1));
        Assert.True(listener.Found.Count == 0, $"{path}: {string.Join("; ", listener.Found)}");
    }

    private sealed class Ambiguities : BaseErrorListener
    {
        public List<string> Found { get; } = [];

        public override void ReportAmbiguity(Antlr4.Runtime.Parser recognizer, DFA dfa, int startIndex, int stopIndex, bool exact, BitSet ambigAlts,
            ATNConfigSet configs) =>
            Found.Add($"decision {dfa.decision} in rule {recognizer.RuleNames[dfa.atnStartState.ruleIndex]}, tokens {startIndex} to {stopIndex}");

        public override void SyntaxError(TextWriter output, IRecognizer recognizer, IToken offendingSymbol, int line, int charPositionInLine, string msg,
            RecognitionException e) =>
            Found.Add(msg);
    }
}
