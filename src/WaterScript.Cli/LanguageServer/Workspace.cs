using System.Collections.Immutable;
using NodaTime;
using WaterScript.Cli.Files;
using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer;

/// <summary>What a client has open, and where. It belongs to the thread that takes the messages; others get <see cref="Now"/>.</summary>
/// <param name="process">What the process has around it.</param>
/// <param name="timeZones">Where time zones come from.</param>
internal sealed class Workspace(Surroundings process, IDateTimeZoneProvider timeZones)
{
    /// <summary>Files of folders that are looked at for sites; with more, those that are open and what they include.</summary>
    private const int MostFiles = 5_000;

    private readonly Dictionary<string, string> _paths = new(StringComparer.Ordinal);
    private readonly List<string> _folders = [];

    /// <summary>How things are.</summary>
    public Snapshot Now { get; private set; } = Snapshot.Empty(process, timeZones);

    /// <summary>Begins in some folders.</summary>
    public void Begin(IEnumerable<string> folderUris)
    {
        _folders.AddRange(folderUris.Select(PathOf).OfType<string>());
        if (_folders is [var first, ..]) Now = Snapshot.Empty(new Surroundings(first, process.Variable, process.Clock), timeZones);
    }

    /// <summary>Works in other folders from now on.</summary>
    public void Change(IEnumerable<string> added, IEnumerable<string> removed)
    {
        foreach (var uri in removed.Select(PathOf).OfType<string>()) _folders.Remove(uri);
        _folders.AddRange(added.Select(PathOf).OfType<string>().Except(_folders));
    }

    /// <summary>Looks for files in the folders, which may take a while; any thread may do so.</summary>
    public Func<ImmutableArray<string>> Search()
    {
        ImmutableArray<string> folders = [.. _folders];
        var surroundings = Now.Surroundings;
        return () => [.. folders.Where(Directory.Exists).SelectMany(folder => FolderWalk.Of(folder, surroundings).Files).Distinct().Take(MostFiles)];
    }

    /// <summary>Takes in what was found.</summary>
    public void Know(ImmutableArray<string> files) => Now = Now.Knowing(files);

    /// <summary>Takes in a document.</summary>
    public void Open(OpenedDocument document)
    {
        var path = PathOf(document.Uri) ?? NameOf(document.Uri);
        _paths[document.Uri] = path;
        Now = Now.With(new OpenDocument(document.Uri, path, document.Version, SourceText.From(Now.Surroundings.Shown(path), document.Text), EditedAt: null));
    }

    /// <summary>Changes a document.</summary>
    /// <exception cref="RequestException">It is not open.</exception>
    public void Change(VersionedDocumentId id, IEnumerable<ContentChange> changes)
    {
        var document = Opened(id.Uri);
        var (source, place) = (document.Source, document.EditedAt);
        foreach (var change in changes) (source, place) = Changed(source, change);
        Now = Now.With(document with { Version = id.Version ?? document.Version, Source = source, EditedAt = place });
    }

    /// <summary>Closes a document; what the disk has counts again.</summary>
    public void Close(string uri)
    {
        if (_paths.Remove(uri, out var path)) Now = Now.Without(path);
    }

    /// <summary>Takes note that files have changed on the disk.</summary>
    public void Renew(IEnumerable<string> uris) => Now = Now.After(uris.Select(PathOf).OfType<string>());

    /// <summary>An open document.</summary>
    /// <exception cref="RequestException">It is not open.</exception>
    public OpenDocument Opened(string uri) => _paths.TryGetValue(uri, out var path) && Now.OpenAt(path) is { } document
        ? document
        : throw new RequestException(ErrorCode.InvalidParams, $"{uri} is not open");

    private static (SourceText, int?) Changed(SourceText source, ContentChange change)
    {
        if (change.Range is not { } range) return (SourceText.From(source.Path, change.Text), null);
        var span = Places.SpanOf(source, range);
        var mark = source.HasByteOrderMark ? SourceText.ByteOrderMark.ToString() : "";
        var text = string.Concat(mark, source.Text.AsSpan(0, span.Start), change.Text, source.Text.AsSpan(span.End));
        return (SourceText.From(source.Path, text), span.Start + change.Text.Length);
    }

    private string? PathOf(string uri)
    {
        if (!Uri.TryCreate(uri, UriKind.Absolute, out var parsed) || !parsed.IsFile || parsed.LocalPath.Contains('\0', StringComparison.Ordinal)) return null;
        try
        {
            return RealPath.Of(parsed.LocalPath, process);
        }
        catch (Exception problem) when (problem is CommandException or IOException or UnauthorizedAccessException)
        {
            return Path.GetFullPath(parsed.LocalPath);
        }
    }

    /// <summary>A place for a document that has no file: no other has one there.</summary>
    private string NameOf(string uri)
    {
        var name = string.Concat(uri.Select(letter => char.IsAsciiLetterOrDigit(letter) || letter is '.' or '-' ? letter : '-'));
        return Path.Combine(Now.Surroundings.Here, name.Length == 0 ? "-" : name);
    }
}
