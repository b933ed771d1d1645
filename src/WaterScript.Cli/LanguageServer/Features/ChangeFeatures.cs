using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Editing.Changes;
using WaterScript.Linting.Engine;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>What changes a text: fixes, other ways to write the same, layout.</summary>
internal static class ChangeFeatures
{
    /// <summary>Registers the methods.</summary>
    public static void Register(Asker asker)
    {
        asker.OfDocument("textDocument/codeAction", Asker.Types.CodeActionParams, Asker.Types.CodeActionArray, each => each.TextDocument.Uri, Actions);
        asker.OfDocument("codeAction/resolve", Asker.Types.CodeAction, Asker.Types.CodeAction,
            each => each.Data?.Uri ?? throw new RequestException(ErrorCode.InvalidParams, "this action has no data"), Resolve);
        asker.OfDocument("textDocument/formatting", Asker.Types.DocumentParams, Asker.Types.TextChangeArray, each => each.TextDocument.Uri,
            (_, asked) => WorkspaceEdits.Of(Layout.Of(asked.Source)));
        asker.OfDocument("textDocument/rangeFormatting", Asker.Types.RangeParams, Asker.Types.TextChangeArray, each => each.TextDocument.Uri,
            (parameters, asked) => WorkspaceEdits.Of(Layout.Of(asked.Source, Places.SpanOf(asked.Source, parameters.Range))));
        asker.OfDocument("textDocument/onTypeFormatting", Asker.Types.PlaceParams, Asker.Types.TextChangeArray, each => each.TextDocument.Uri,
            (parameters, asked) => WorkspaceEdits.Of(Layout.OfBlock(asked.Source, asked.OffsetOf(parameters.Position))));
    }

    /// <summary>What can be done, with its edits; without them for a client that asks for those when somebody has chosen.</summary>
    private static CodeAction[] Actions(CodeActionParams parameters, Asked asked)
    {
        var found = Found(asked, parameters.Range, parameters.Context.Only);
        if (!asked.State.ResolvesActions) return [.. found.Select(action => Of(action, parameters.Range, asked) with { Edit = EditOf(action, asked) })];
        return
        [
            .. found.Select(action => Of(action, parameters.Range, asked) with
            {
                Data = new CodeActionData(asked.Document.Uri, asked.Document.Version, parameters.Range),
            }),
        ];
    }

    /// <summary>The edits of an action that somebody has chosen, made for the version that it was offered for.</summary>
    private static CodeAction Resolve(CodeAction action, Asked asked)
    {
        if (action.Data!.Version != asked.Document.Version) throw new RequestException(ErrorCode.ContentModified, "the file has changed meanwhile");
        var chosen = Found(asked, action.Data.Range, [action.Kind]).FirstOrDefault(each => each.Action.Title == action.Title);
        return chosen.Action is null
            ? throw new RequestException(ErrorCode.ContentModified, "the site has changed meanwhile")
            : action with { Edit = EditOf(chosen, asked) };
    }

    /// <summary>The actions of all sites that the file belongs to, each title once.</summary>
    private static List<(EditorAction Action, CheckedSite Site)> Found(Asked asked, Protocol.Range range, IReadOnlyList<string>? only)
    {
        var span = Places.SpanOf(asked.Source, range);
        var found = new List<(EditorAction Action, CheckedSite Site)>();
        foreach (var site in asked.Sites)
        {
            asked.Cancelled.ThrowIfCancellationRequested();
            if (site.FileOf(asked.Source) is not { } file) continue;
            var check = site.Tried(asked.Cancelled);
            IEnumerable<EditorAction> actions = Editing.Changes.Actions.At(check, site.Names, file, span);
            if (IsAsked(EditorAction.FixAll, only) && SafeFixAction.Of(check, asked.Source) is { } all) actions = actions.Append(all);
            found.AddRange(actions.Where(action => IsAsked(action.Kind, only)).Select(action => (action, check)));
        }

        return [.. found.DistinctBy(each => each.Action.Title)];
    }

    private static CodeAction Of((EditorAction Action, CheckedSite Site) found, Protocol.Range range, Asked asked)
    {
        var findings = new DocumentFindings(asked.Workspace, asked.State);
        return new CodeAction
        {
            Title = found.Action.Title,
            Kind = found.Action.Kind,
            IsPreferred = found.Action.IsPreferred ? true : null,
            Diagnostics = found.Action.Corrects.IsEmpty ? null : [.. found.Action.Corrects.Select(finding => findings.Diagnostic(finding, found.Site.Path))],
        };
    }

    private static WorkspaceEdit EditOf((EditorAction Action, CheckedSite Site) found, Asked asked) =>
        WorkspaceEdits.Of(found.Action.Edits, asked.Workspace, asked.State);

    private static bool IsAsked(string kind, IReadOnlyList<string>? only) => only is not { Count: > 0 }
        || only.Any(asked => asked == kind || kind.StartsWith(asked + ".", StringComparison.Ordinal));
}
