using System.Globalization;
using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Editing.Outline;
using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>Colours by meaning: all of them, those of a range, or what became of those that were handed over before.</summary>
internal sealed class TokenFeatures
{
    /// <summary>A line that is longer has no colours.</summary>
    private const int LongestLine = 20_000;

    private const int NumbersOfToken = 5;

    private readonly Lock _lock = new();
    private readonly Dictionary<string, (string Id, int[] Data)> _last = new(StringComparer.Ordinal);
    private int _answers;

    /// <summary>What there is.</summary>
    public static SemanticTokensOptions Options { get; } = new(
        new TokenLegend(
            ["keyword", "property", "variable", "function", "method", "class", "struct", "enumMember", "number", "string", "comment", "parameter", "label"],
            ["declaration", "readonly", "defaultLibrary"]),
        new TokenRequests(Delta: true), Range: true);

    /// <summary>Registers the methods.</summary>
    public static void Register(Asker asker)
    {
        var self = new TokenFeatures();
        asker.OfDocument("textDocument/semanticTokens/full", Asker.Types.DocumentParams, Asker.Types.TokensAnswer, each => each.TextDocument.Uri, self.Full);
        asker.OfDocument("textDocument/semanticTokens/range", Asker.Types.RangeParams, Asker.Types.TokensAnswer, each => each.TextDocument.Uri,
            (parameters, asked) => new TokensAnswer(null, DataOf(asked, Places.SpanOf(asked.Source, parameters.Range)), null));
        asker.OfDocument("textDocument/semanticTokens/full/delta", Asker.Types.TokensDeltaParams, Asker.Types.TokensAnswer, each => each.TextDocument.Uri,
            self.Delta);
    }

    private TokensAnswer Full(DocumentParams parameters, Asked asked)
    {
        var data = DataOf(asked, new TextSpan(0, asked.Source.Text.Length));
        return new TokensAnswer(Keep(parameters.TextDocument.Uri, data), data, null);
    }

    private TokensAnswer Delta(TokensDeltaParams parameters, Asked asked)
    {
        var data = DataOf(asked, new TextSpan(0, asked.Source.Text.Length));
        int[]? old = null;
        lock (_lock)
        {
            if (_last.TryGetValue(parameters.TextDocument.Uri, out var known) && known.Id == parameters.PreviousResultId) old = known.Data;
        }

        var id = Keep(parameters.TextDocument.Uri, data);
        return old is null ? new TokensAnswer(id, data, null) : new TokensAnswer(id, null, [.. EditsOf(old, data)]);
    }

    /// <summary>One stretch of whole tokens that is not as it was.</summary>
    private static IEnumerable<TokensEdit> EditsOf(int[] old, int[] data)
    {
        var start = old.AsSpan().CommonPrefixLength(data) / NumbersOfToken * NumbersOfToken;
        var same = 0;
        while (same < old.Length - start && same < data.Length - start && old[^(same + 1)] == data[^(same + 1)]) same++;
        same = same / NumbersOfToken * NumbersOfToken;
        if (start < old.Length || start < data.Length) yield return new TokensEdit(start, old.Length - start - same, data[start..^same]);
    }

    private string Keep(string uri, int[] data)
    {
        lock (_lock)
        {
            var id = (++_answers).ToString(CultureInfo.InvariantCulture);
            _last[uri] = (id, data);
            return id;
        }
    }

    private static int[] DataOf(Asked asked, TextSpan span)
    {
        var (data, last) = (new List<int>(), new Position(0, 0));
        if (asked.Sites.FirstOrDefault() is not { } site || site.FileOf(asked.Source) is not { } file) return [];
        foreach (var colour in Colours.Of(file, asked.Workspace.Trees.LexemesOf(asked.Source), site.Names))
        {
            if (colour.Span.End <= span.Start || colour.Span.Start >= span.End) continue;
            var place = Places.Of(asked.Source, colour.Span.Start);
            if (asked.Source.LineSpan(place.Line + 1).Length > LongestLine) continue;
            data.AddRange([place.Line - last.Line, place.Line == last.Line ? place.Character - last.Character : place.Character, colour.Span.Length,
                (int)colour.Kind, (int)colour.Modifiers]);
            last = place;
        }

        return [.. data];
    }
}
