using Antlr4.Runtime;
using Antlr4.Runtime.Atn;
using Antlr4.Runtime.Dfa;
using Antlr4.Runtime.Sharpen;
using WaterScript.Syntax;
using WaterScript.Syntax.Generated;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>
/// The grammar has one reading of every example. The generated parser never predicts, so ANTLR's interpreter of the same
/// grammar does, with exact ambiguity detection.
/// </summary>
public class AmbiguityTests
{
    public static TheoryData<string> Examples()
    {
        var folder = AppContext.BaseDirectory;
        while (!Directory.Exists(Path.Combine(folder, "examples"))) folder = Path.GetDirectoryName(folder)!;
        return [.. Directory.EnumerateFiles(Path.Combine(folder, "examples"), "*.water", SearchOption.AllDirectories).Order(StringComparer.Ordinal)];
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void AnExampleHasOneReading(string path)
    {
        var source = SourceText.From(path, File.ReadAllText(path));
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
        Assert.Empty(listener.Found);
    }

    private sealed class Ambiguities : BaseErrorListener
    {
        public List<string> Found { get; } = [];

        public override void ReportAmbiguity(Antlr4.Runtime.Parser recognizer, DFA dfa, int startIndex, int stopIndex, bool exact, BitSet ambigAlts, ATNConfigSet configs) =>
            Found.Add($"decision {dfa.decision} in rule {recognizer.RuleNames[dfa.atnStartState.ruleIndex]}, tokens {startIndex} to {stopIndex}");

        public override void SyntaxError(TextWriter output, IRecognizer recognizer, IToken offendingSymbol, int line, int charPositionInLine, string msg, RecognitionException e) =>
            Found.Add(msg);
    }
}
