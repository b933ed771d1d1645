using System.Text.Json.Serialization.Metadata;
using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer;

/// <summary>Registers what an editor may ask about documents: each request sees them as they are when its turn comes.</summary>
/// <param name="requests">The methods.</param>
/// <param name="workspace">What is open.</param>
/// <param name="state">What the client can do and the user has set.</param>
internal sealed class Asker(Requests requests, Workspace workspace, Func<ServerState> state)
{
    /// <summary>How the protocol is read and written.</summary>
    public static ProtocolContext Types => ProtocolContext.Default;

    /// <summary>A request about a document.</summary>
    /// <param name="method">Its name.</param>
    /// <param name="type">What comes with it.</param>
    /// <param name="answerType">The answer.</param>
    /// <param name="uriOf">The document.</param>
    /// <param name="answer">Works the answer out; null for none.</param>
    public void OfDocument<T, TAnswer>(
        string method, JsonTypeInfo<T> type, JsonTypeInfo<TAnswer> answerType, Func<T, string> uriOf, Func<T, Asked, TAnswer?> answer)
        where TAnswer : class => requests.Request(method, type, answerType, parameters =>
    {
        var document = workspace.Opened(uriOf(parameters));
        var (now, known) = (workspace.Now, state());
        return cancelled => document.Source.Text.Length > Snapshot.MostCharacters ? null : answer(parameters, new Asked(now, known, document, cancelled));
    });

    /// <summary>A request about all there is.</summary>
    /// <param name="method">Its name.</param>
    /// <param name="type">What comes with it.</param>
    /// <param name="answerType">The answer.</param>
    /// <param name="answer">Works the answer out.</param>
    public void OfWorkspace<T, TAnswer>(
        string method, JsonTypeInfo<T> type, JsonTypeInfo<TAnswer> answerType, Func<T, Snapshot, ServerState, CancellationToken, TAnswer?> answer)
        where TAnswer : class => requests.Request(method, type, answerType, parameters =>
    {
        var (now, known) = (workspace.Now, state());
        return cancelled => answer(parameters, now, known, cancelled);
    });
}

/// <summary>What a request about a document sees.</summary>
/// <param name="Workspace">All documents.</param>
/// <param name="State">What the client can do and the user has set.</param>
/// <param name="Document">The document.</param>
/// <param name="Cancelled">Whether nobody waits for the answer any more.</param>
internal sealed record Asked(Snapshot Workspace, ServerState State, OpenDocument Document, CancellationToken Cancelled)
{
    /// <summary>Its text.</summary>
    public SourceText Source => Document.Source;

    /// <summary>The sites that it belongs to.</summary>
    public IEnumerable<SiteAnalysis> Sites => Workspace.SitesOf(Document.Path);

    /// <summary>The offset of a place.</summary>
    public int OffsetOf(Position place) => Places.OffsetOf(Source, place);
}
