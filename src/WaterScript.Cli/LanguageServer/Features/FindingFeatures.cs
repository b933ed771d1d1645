using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>Findings for clients that ask for them.</summary>
internal static class FindingFeatures
{
    /// <summary>Registers the methods.</summary>
    public static void Register(Asker asker)
    {
        asker.OfWorkspace("textDocument/diagnostic", Asker.Types.DocumentParams, Asker.Types.FullReport, (parameters, workspace, state, cancelled) =>
        {
            var findings = new DocumentFindings(workspace, state);
            if (workspace.Documents.Values.FirstOrDefault(open => open.Uri == parameters.TextDocument.Uri) is { } document)
                AddSitesOf(document, workspace, findings, cancelled);
            return new FullReport(findings.Of(parameters.TextDocument.Uri));
        });
        asker.OfWorkspace("workspace/diagnostic", Asker.Types.JsonElement, Asker.Types.WorkspaceReport, (_, workspace, state, cancelled) =>
        {
            var findings = OfAll(workspace, state, cancelled);
            return new WorkspaceReport([.. findings.All.Select(file => new WorkspaceDocumentReport(file.Uri, file.Version, file.Items))]);
        });
    }

    /// <summary>The findings of all sites in the folders that are worked in, and of all that is open.</summary>
    public static DocumentFindings OfAll(Snapshot workspace, ServerState state, CancellationToken cancelled)
    {
        var findings = new DocumentFindings(workspace, state);
        foreach (var root in workspace.Roots.Union(workspace.Documents.Values.SelectMany(open => workspace.SitesOf(open.Path)).Select(site => site.Path)))
        {
            cancelled.ThrowIfCancellationRequested();
            if (workspace.SiteAt(root) is { } site) findings.Add(site.Check(cancelled));
        }

        return findings;
    }

    private static void AddSitesOf(OpenDocument document, Snapshot workspace, DocumentFindings findings, CancellationToken cancelled)
    {
        if (document.Source.Text.Length > Snapshot.MostCharacters)
        {
            findings.AddTooLarge(document);
            return;
        }

        foreach (var site in workspace.SitesOf(document.Path))
        {
            cancelled.ThrowIfCancellationRequested();
            findings.Add(site.Check(cancelled));
        }
    }
}
