using System.Globalization;
using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Editing.Completion;
using WaterScript.Editing.Hints;
using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>What helps to write: what may come next, and how the statement goes on.</summary>
internal static class WritingFeatures
{
    private const int Snippet = 2;
    private const int FileKind = 17;

    /// <summary>Registers the methods.</summary>
    public static void Register(Asker asker)
    {
        asker.OfDocument("textDocument/completion", Asker.Types.PlaceParams, Asker.Types.CompletionList, each => each.TextDocument.Uri, Complete);
        asker.OfDocument("completionItem/resolve", Asker.Types.CompletionItem, Asker.Types.CompletionItem,
            each => each.Data?.Uri ?? throw new RequestException(ErrorCode.InvalidParams, "this item has no data"), Explained);
        asker.OfDocument("textDocument/signatureHelp", Asker.Types.PlaceParams, Asker.Types.SignatureAnswer, each => each.TextDocument.Uri, Signature);
    }

    private static CompletionList? Complete(PlaceParams parameters, Asked asked)
    {
        var offset = asked.OffsetOf(parameters.Position);
        if (asked.Sites.FirstOrDefault() is not { } site) return null;
        if (Included(asked, offset) is { } files) return files;
        var lexemes = asked.Workspace.Trees.LexemesOf(asked.Source);
        if (OfferFinder.At(site.Edited, asked.Source, lexemes, offset, [.. FoundAround(site, asked, offset)]) is not { } offers) return null;
        var replaced = Places.Of(asked.Source, offers.Replaced);
        return new CompletionList(false, [.. offers.Items.Select((offer, index) => Item(offer, index, replaced, asked))]);
    }

    private static CompletionItem Item(Offer offer, int index, Protocol.Range replaced, Asked asked)
    {
        var isSnippet = offer.Snippet is not null && asked.State.KnowsSnippets;
        return new CompletionItem
        {
            Label = offer.Label,
            Kind = offer.Kind switch
            {
                OfferKind.Word => 14, // a keyword
                OfferKind.Property => 10,
                OfferKind.Name => 6, // a variable
                OfferKind.Unit => 11,
                OfferKind.Snippet => 15,
                OfferKind.File => FileKind,
                _ => 12, // a value
            },
            Detail = offer.Detail.Length == 0 ? null : offer.Detail,
            SortText = index.ToString("D4", CultureInfo.InvariantCulture),
            FilterText = offer.AlsoCalled.Length == 0 ? null : $"{offer.Label} {offer.AlsoCalled}",
            InsertTextFormat = isSnippet ? Snippet : null,
            Data = offer.About.Length == 0 ? null : new CompletionData(asked.Document.Uri, offer.About),
            TextEdit = new TextChange(replaced, isSnippet ? offer.Snippet! : offer.Label),
        };
    }

    /// <summary>The item that somebody looks at, with what there is to say of it.</summary>
    private static CompletionItem Explained(CompletionItem item, Asked asked) =>
        asked.Sites.FirstOrDefault() is { } site && OfferCards.Of(site.Edited, item.Data!.About) is { } card
            ? item with { Documentation = MarkupContent.Markdown(card.Markdown) }
            : item;

    /// <summary>The rules of what is found in the statement around a place, as far as it is known.</summary>
    private static IEnumerable<string> FoundAround(SiteAnalysis site, Asked asked, int offset)
    {
        var around = asked.Workspace.Trees.Of(asked.Source).File.Statements.FirstOrDefault(each => each.Span.Start <= offset && offset <= each.Span.End)?.Span
            ?? new TextSpan(0, asked.Source.Text.Length);
        return (site.CheckIfKnown?.Findings ?? []).Where(finding => finding.Rule.CanBeAccepted && ReferenceEquals(finding.Primary.Location.Source, asked.Source)
            && around.Contains(finding.Primary.Location.Span)).Select(finding => finding.Rule.Slug);
    }

    /// <summary>In the path of an include, the files that there are; null elsewhere.</summary>
    private static CompletionList? Included(Asked asked, int offset)
    {
        var line = asked.Source.LineSpan(asked.Source.PositionOf(offset).Line);
        var before = asked.Source.Text[line.Start..offset];
        if (!before.TrimStart().StartsWith("include \"", StringComparison.Ordinal) || before.Count(letter => letter == '"') != 1) return null;
        var start = line.Start + before.IndexOf('"', StringComparison.Ordinal) + 1;
        var folder = Path.GetDirectoryName(asked.Document.Path)!;
        var replaced = Places.Of(asked.Source, TextSpan.FromBounds(start, offset));
        return new CompletionList(false,
        [
            .. asked.Workspace.KnownFiles.Union(asked.Workspace.Documents.Keys).Where(path => path != asked.Document.Path)
                .Select(path => Path.GetRelativePath(folder, path).Replace(Path.DirectorySeparatorChar, '/')).Where(path => !Path.IsPathRooted(path))
                .Order(StringComparer.Ordinal).Select((path, index) => Item(new Offer(path, "", OfferKind.File), index, replaced, asked)),
        ]);
    }

    private static SignatureAnswer? Signature(PlaceParams parameters, Asked asked)
    {
        var lexemes = asked.Workspace.Trees.LexemesOf(asked.Source);
        if (CursorPlace.At(asked.Source, lexemes, asked.OffsetOf(parameters.Position)) is not { } place || Form.At(place) is not { } form) return null;
        var (parts, start) = (new List<SignaturePart>(), 0);
        foreach (var part in form.Parts)
        {
            parts.Add(new SignaturePart([start, start + part.Length]));
            start += part.Length + 1;
        }

        return new SignatureAnswer([new SignatureLine(form.Text, parts)], 0, form.Current);
    }
}
