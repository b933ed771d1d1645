using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Diagnostics;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>Changes as a client makes them: each for the version that it was made for, so that it is refused where somebody typed meanwhile.</summary>
internal static class WorkspaceEdits
{
    private const string Former = "formerly";

    /// <summary>Changes of several files.</summary>
    /// <param name="edits">The changes.</param>
    /// <param name="workspace">Where the files are.</param>
    /// <param name="state">What the client can do.</param>
    /// <param name="asked">Those of them that somebody is asked about first, where the client can do that.</param>
    public static WorkspaceEdit Of(IEnumerable<TextEdit> edits, Snapshot workspace, ServerState state, params IReadOnlyCollection<TextEdit> asked)
    {
        if (!state.ConfirmsEdits) asked = [];
        var files = edits.GroupBy(edit => edit.Location.Source)
            .Select(file => (Uri: workspace.UriOf(file.Key), Version: workspace.VersionOf(file.Key), Changes: Of(file, asked)))
            .OrderBy(file => file.Uri, StringComparer.Ordinal).ToList();
        return state.KnowsVersions
            ? new WorkspaceEdit([.. files.Select(file => new DocumentEdit(new VersionedDocumentId(file.Uri, file.Version), file.Changes))], null)
            {
                ChangeAnnotations = asked.Count == 0 ? null : new Dictionary<string, ChangeAnnotation>
                {
                    [Former] = new("Keep the former name, so that calendars know the schedule", NeedsConfirmation: true),
                },
            }
            : new WorkspaceEdit(null, files.ToDictionary(file => file.Uri, file => (IReadOnlyList<TextChange>)file.Changes));
    }

    /// <summary>Changes of one file.</summary>
    public static TextChange[] Of(IEnumerable<TextEdit> edits) => Of(edits, []);

    private static TextChange[] Of(IEnumerable<TextEdit> edits, IReadOnlyCollection<TextEdit> asked) =>
    [
        .. edits.Distinct().OrderBy(edit => edit.Location.Span.Start)
            .Select(edit => new TextChange(Places.Of(edit.Location), edit.Replacement) { AnnotationId = asked.Contains(edit) ? Former : null }),
    ];
}
