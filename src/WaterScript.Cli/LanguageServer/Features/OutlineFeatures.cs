using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Documents.Reports;
using WaterScript.Editing.Outline;
using WaterScript.Syntax;
using WaterScript.Text;
using SelectionRange = WaterScript.Cli.LanguageServer.Protocol.SelectionRange;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>The parts of a file: its symbols, folds, links, and what a growing selection takes in.</summary>
internal static class OutlineFeatures
{
    /// <summary>Registers the methods.</summary>
    public static void Register(Asker asker)
    {
        asker.OfDocument("textDocument/documentSymbol", Asker.Types.DocumentParams, Asker.Types.DocumentSymbolArray, each => each.TextDocument.Uri,
            (_, asked) => [.. OutlineItem.Of(FileOf(asked)).Select(item => Of(item, asked.Source))]);
        asker.OfDocument("textDocument/foldingRange", Asker.Types.DocumentParams, Asker.Types.FoldingRangeArray, each => each.TextDocument.Uri,
            (_, asked) => [.. Folds.Of(FileOf(asked)).Select(fold => new FoldingRange(fold.First - 1, fold.Last - 1, fold.Kind))]);
        asker.OfDocument("textDocument/documentLink", Asker.Types.DocumentParams, Asker.Types.DocumentLinkArray, each => each.TextDocument.Uri, Links);
        asker.OfDocument("textDocument/selectionRange", Asker.Types.SelectionParams, Asker.Types.SelectionRangeArray, each => each.TextDocument.Uri,
            (parameters, asked) => [.. parameters.Positions.Select(place => Around(asked, place))]);
    }

    private static FileNode FileOf(Asked asked) => asked.Workspace.Trees.Of(asked.Source).File;

    private static DocumentSymbol Of(OutlineItem item, SourceText source) => new(
        item.Name, item.Detail.Length == 0 ? null : item.Detail, SymbolKinds.Of(item.Word), Places.Of(source, item.All), Places.Of(source, item.NameSpan),
        [.. item.Children.Select(child => Of(child, source))]);

    private static DocumentLink[] Links(DocumentParams parameters, Asked asked) =>
    [
        .. FileOf(asked).Statements.OfType<IncludeNode>().Select(include => (include.Path, Target: IncludeLinks.TargetOf(include, asked)))
            .Where(link => link.Target is not null)
            .Select(link => new DocumentLink(Places.Of(asked.Source, link.Path.Span), FileUri.Of(link.Target!.Replace(Path.DirectorySeparatorChar, '/')),
                $"Open {DisplayLine.CleanLine(link.Path.Value)}")),
    ];

    private static SelectionRange Around(Asked asked, Position place)
    {
        SelectionRange? outer = null;
        foreach (var span in Selections.Around(FileOf(asked), asked.Workspace.Trees.LexemesOf(asked.Source), asked.OffsetOf(place)).Reverse())
            outer = new SelectionRange(Places.Of(asked.Source, span), outer);
        return outer ?? new SelectionRange(new(place, place), null);
    }
}
