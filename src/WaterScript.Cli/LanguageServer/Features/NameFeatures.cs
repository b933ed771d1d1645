using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Diagnostics;
using WaterScript.Editing.Names;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>What stands behind a name, and where else it stands.</summary>
internal static class NameFeatures
{
    private const int MostSymbols = 200;
    private const int Read = 2;
    private const int Write = 3;

    /// <summary>Registers the methods.</summary>
    public static void Register(Asker asker, Client client)
    {
        asker.OfDocument("textDocument/definition", Asker.Types.PlaceParams, Asker.Types.DocumentRangeArray, each => each.TextDocument.Uri,
            (parameters, asked) => Places(Uses(parameters.Position, asked).SelectMany(found => found.Names.Meant(found.Use)).Select(each => each.Where)
                .Concat(IncludedAt(asked.OffsetOf(parameters.Position), asked)), asked));
        asker.OfDocument("textDocument/references", Asker.Types.ReferenceParams, Asker.Types.DocumentRangeArray, each => each.TextDocument.Uri,
            (parameters, asked) => Places(Uses(parameters.Position, asked).SelectMany(found => found.Names.UsesOf(found.Use.Kind, found.Use.Name))
                .Where(use => parameters.Context.IncludeDeclaration || !use.IsDeclaration).Select(use => use.Where), asked));
        asker.OfDocument("textDocument/documentHighlight", Asker.Types.PlaceParams, Asker.Types.HighlightArray, each => each.TextDocument.Uri, Highlights);
        asker.OfDocument("textDocument/prepareRename", Asker.Types.PlaceParams, Asker.Types.PrepareAnswer, each => each.TextDocument.Uri,
            (parameters, asked) => asked.Sites.Select(site => Renaming.At(site.Names, asked.Source, asked.OffsetOf(parameters.Position)))
                .OfType<NameUse>().Select(use => new PrepareAnswer(Files.Places.Of(use.Where), use.Name)).FirstOrDefault());
        asker.OfDocument("textDocument/rename", Asker.Types.RenameParams, Asker.Types.WorkspaceEdit, each => each.TextDocument.Uri,
            (parameters, asked) => Rename(parameters, asked, client));
        asker.OfWorkspace("workspace/symbol", Asker.Types.QueryParams, Asker.Types.WorkspaceSymbolArray, Symbols);
    }

    private static IEnumerable<(NameIndex Names, NameUse Use)> Uses(Position place, Asked asked) => asked.Sites
        .Select(site => (site.Names, Use: site.Names.At(asked.Source, asked.OffsetOf(place))))
        .Where(found => found.Use is not null).Select(found => (found.Names, found.Use!.Value));

    private static DocumentRange[] Places(IEnumerable<Location> places, Asked asked) =>
        [.. places.Distinct().Select(place => new DocumentRange(asked.Workspace.UriOf(place.Source), Files.Places.Of(place)))];

    /// <summary>The file that an include names.</summary>
    private static IEnumerable<Location> IncludedAt(int offset, Asked asked)
    {
        var include = asked.Workspace.Trees.Of(asked.Source).File.Statements.OfType<IncludeNode>()
            .FirstOrDefault(each => each.Path.Span.Start <= offset && offset <= each.Path.Span.End);
        return include is not null && IncludeLinks.TargetOf(include, asked) is { } path && asked.Workspace.TextAt(path) is { } text
            ? [new Location(text, new TextSpan(0, 0))]
            : [];
    }

    private static Highlight[] Highlights(PlaceParams parameters, Asked asked) =>
    [
        .. Uses(parameters.Position, asked).SelectMany(found => found.Names.UsesOf(found.Use.Kind, found.Use.Name))
            .Where(use => ReferenceEquals(use.Where.Source, asked.Source)).Distinct()
            .Select(use => new Highlight(Files.Places.Of(use.Where), use.IsDeclaration ? Write : Read)),
    ];

    /// <summary>In all files of every site that has the file.</summary>
    private static WorkspaceEdit? Rename(RenameParams parameters, Asked asked, Client client)
    {
        var (edits, former, comments, old) = (new List<TextEdit>(), new List<TextEdit>(), 0, "");
        foreach (var site in asked.Sites)
        {
            asked.Cancelled.ThrowIfCancellationRequested();
            if (Renaming.At(site.Names, asked.Source, asked.OffsetOf(parameters.Position)) is not { } use) continue;
            var renaming = Renaming.Of(site.Reading, site.Names, use, parameters.NewName, asked.State.KeepsFormerName != "never");
            if (renaming.Refused is { } why) throw new RequestException(ErrorCode.RequestFailed, why);
            edits.AddRange(renaming.Edits);
            former.AddRange(renaming.OfFormerName);
            (comments, old) = (Math.Max(comments, renaming.Comments), use.Name);
        }

        if (old.Length == 0) throw new RequestException(ErrorCode.RequestFailed, "there is no name here that can be changed");
        if (comments > 0)
            client.Notify("window/showMessage", new LogMessageParams(3, $"{Phrases.Count(comments, "comment")} still {(comments == 1 ? "says" : "say")} {old}"),
                Asker.Types.LogMessageParams);
        return WorkspaceEdits.Of(edits, asked.Workspace, asked.State, asked.State.KeepsFormerName == "ask" ? former : []);
    }

    private static WorkspaceSymbol[] Symbols(QueryParams query, Snapshot workspace, ServerState state, CancellationToken cancelled)
    {
        var found = new List<WorkspaceSymbol>();
        foreach (var site in workspace.Roots.Select(workspace.SiteAt).OfType<SiteAnalysis>())
        {
            cancelled.ThrowIfCancellationRequested();
            found.AddRange(site.Names.Declarations.Where(each => IsLike(each.Name, query) || IsLike(each.Label ?? "", query)).Select(each =>
                new WorkspaceSymbol(each.Name, SymbolKinds.Of(each.Word), new DocumentRange(workspace.UriOf(each.Where.Source), Files.Places.Of(each.Where)),
                    site.Reading.Site?.DisplayName ?? site.Root.Path)));
            if (found.Count >= MostSymbols) break;
        }

        return [.. found.Distinct().Take(MostSymbols)];
    }

    private static bool IsLike(string name, QueryParams query) => name.Contains(query.Query, StringComparison.OrdinalIgnoreCase);
}
