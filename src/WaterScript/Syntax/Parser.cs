using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Syntax.Generated;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>Text to tree.</summary>
internal static class Parser
{
    /// <summary>
    /// Reads a file. What cannot be read is reported and left out; the rest is in the tree.
    /// </summary>
    /// <param name="source">The file.</param>
    /// <param name="findings">Takes what was found, in order of place.</param>
    public static FileNode Parse(SourceText source, FindingList findings) => Read(source, findings).File;

    /// <summary>The same, with the tokens as the parser saw them; null where the file is too long, or its braces lie too deep.</summary>
    /// <inheritdoc cref="Parse"/>
    public static (FileNode File, TokenList? Tokens) Read(SourceText source, FindingList findings)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(findings);
        if (source.Text.Length > Limits.FileLength)
        {
            findings.Add(TooLong(source));
            return (new FileNode(source, [], []), null);
        }

        var mistakes = new Mistakes(source);
        var (tokens, comments) = TokenReader.Read(source, mistakes);
        if (tokens is null)
        {
            mistakes.HandOver(findings);
            return (new FileNode(source, [], comments), null);
        }

        HiddenText.Find(source, tokens.Labels(), mistakes);
        var parser = new WaterScriptParser(tokens, TextWriter.Null, TextWriter.Null);
        parser.Begin(source, mistakes);
        var file = new FileNode(source, [.. parser.file().nodes], comments) { UnreadNames = [.. mistakes.UnreadNames] };
        mistakes.HandOver(findings);
        return (file, tokens);
    }

    private static Finding TooLong(SourceText source)
    {
        var place = new Location(source, new TextSpan(Limits.FileLength, 0));
        return Finding.At(ReadingRules.OverLimit, place, $"more than {Limits.FileLength} characters in one file")
            with
        { Help = "Split it, and include the parts" };
    }
}
