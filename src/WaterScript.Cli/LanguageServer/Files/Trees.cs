using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using WaterScript.Diagnostics;
using WaterScript.Editing;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer.Files;

/// <summary>The trees of texts, each made once for as long as its text is used. Any number of threads may ask.</summary>
internal sealed class Trees
{
    private readonly ConditionalWeakTable<SourceText, Tree> _trees = [];
    private readonly ConditionalWeakTable<SourceText, Lexed> _lexemes = [];

    /// <summary>The tree of a text, and what reading it finds.</summary>
    public Tree Of(SourceText source) => _trees.GetValue(source, Parsed);

    /// <summary>The words, numbers and signs of a text.</summary>
    public ImmutableArray<Lexeme> LexemesOf(SourceText source) => _lexemes.GetValue(source, text => new Lexed(Lexemes.Of(text))).All;

    private static Tree Parsed(SourceText source)
    {
        var findings = new FindingList();
        return new Tree(Parser.Parse(source, findings), [.. findings]);
    }

    /// <summary>A tree, and what reading it finds.</summary>
    internal sealed record Tree(FileNode File, ImmutableArray<Finding> Findings);

    private sealed record Lexed(ImmutableArray<Lexeme> All);
}
