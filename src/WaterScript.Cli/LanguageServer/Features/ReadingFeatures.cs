using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Editing.Cards;
using WaterScript.Editing.Hints;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>What helps to read a text: what a place means, what a line comes to.</summary>
internal static class ReadingFeatures
{
    /// <summary>Registers the methods.</summary>
    public static void Register(Asker asker)
    {
        asker.OfDocument("textDocument/hover", Asker.Types.PlaceParams, Asker.Types.HoverAnswer, each => each.TextDocument.Uri, Hover);
        asker.OfDocument("textDocument/inlayHint", Asker.Types.RangeParams, Asker.Types.InlayHintArray, each => each.TextDocument.Uri, Hints);
        asker.OfDocument("textDocument/codeLens", Asker.Types.DocumentParams, Asker.Types.CodeLensArray, each => each.TextDocument.Uri, Lenses);
    }

    private static InlayHint[] Hints(RangeParams parameters, Asked asked)
    {
        if (asked.Sites.FirstOrDefault() is not { } site || site.FileOf(asked.Source) is not { } file) return [];
        return
        [
            .. HintFinder.In(site.Edited, file, Places.SpanOf(asked.Source, parameters.Range))
                .Where(hint => hint.IsEnd ? asked.State.ShowsEnds : asked.State.ShowsAmounts)
                .Select(hint => new InlayHint(Places.Of(asked.Source, hint.Offset), hint.Words, PaddingLeft: true,
                    hint.More is { } more ? MarkupContent.Markdown(more.Markdown) : null)),
        ];
    }

    private static CodeLens[] Lenses(DocumentParams parameters, Asked asked)
    {
        if (!asked.State.ShowsLenses || asked.Sites.FirstOrDefault() is not { } site || site.FileOf(asked.Source) is not { } file) return [];
        return
        [
            .. Lens.In(site.Edited, file).Select(lens => new CodeLens(Places.Of(asked.Source, lens.Span),
                new LensCommand(lens.Words, "waterscript.showWatering", [asked.Document.Uri, lens.Schedule]))),
        ];
    }

    private static HoverAnswer? Hover(PlaceParams parameters, Asked asked)
    {
        SiteAnalysis[] sites = [.. asked.Sites];
        if (sites is not [var site, ..] || site.FileOf(asked.Source) is not { } file) return null;
        var lexemes = asked.Workspace.Trees.LexemesOf(asked.Source);
        if (CardFinder.At(site.Edited, file, lexemes, asked.OffsetOf(parameters.Position)) is not { } card) return null;
        return new HoverAnswer(MarkupContent.Markdown(card.Markdown + WhichSite(sites, asked)), Places.Of(asked.Source, card.Span));
    }

    /// <summary>In a part, which site it is about.</summary>
    private static string WhichSite(SiteAnalysis[] sites, Asked asked)
    {
        var name = Text.Lines.MarkdownLines.Escaped(sites[0].Reading.Site?.Name ?? sites[0].Root.Path);
        if (sites.Length > 1) return $"  \nin {sites.Length} sites: {name} +{sites.Length - 1}";
        return sites[0].Path == asked.Document.Path ? "" : $"  \nin site {name}";
    }
}
