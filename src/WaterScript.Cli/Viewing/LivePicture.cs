using System.Globalization;
using System.Text;
using System.Text.Json;
using WaterScript.Cli.Files;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.Viewing;

/// <summary>What is shown at some moment.</summary>
/// <param name="Number">Counts the changes.</param>
/// <param name="Page">The last picture that could be drawn; empty before the first.</param>
/// <param name="PageNumber">Counts the pictures.</param>
/// <param name="Findings">What is found in the file now, as text.</param>
internal sealed record LiveState(int Number, byte[] Page, int PageNumber, string Findings)
{
    /// <summary>It as a line of JSON, without the picture.</summary>
    public string Line
    {
        get
        {
            using var stream = new MemoryStream();
            using (var json = new Utf8JsonWriter(stream))
            {
                json.WriteStartObject();
                json.WriteString("picture", PageNumber.ToString(CultureInfo.InvariantCulture));
                json.WriteString("findings", Findings);
                json.WriteEndObject();
            }

            return Encoding.UTF8.GetString(stream.ToArray());
        }
    }
}

/// <summary>Draws a site anew whenever one of its files is another, and keeps the last picture while they have errors.</summary>
/// <param name="open">Opens the site as its files are now.</param>
/// <param name="draw">Draws a site that was checked; null where it has errors.</param>
/// <param name="surroundings">Where its paths start from.</param>
internal sealed class LivePicture(Func<SiteSource> open, Func<CheckedSite, byte[]?> draw, Surroundings surroundings)
{
    private readonly Lock _lock = new();
    private Dictionary<string, string> _stamps = new(StringComparer.Ordinal);
    private LiveState _state = new(0, [], 0, "");
    private TaskCompletionSource _next = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>What is shown now, and what is done when that changes.</summary>
    public (LiveState State, Task Next) Now
    {
        get
        {
            lock (_lock) return (_state, _next.Task);
        }
    }

    /// <summary>Draws it, and again whenever a file changes, until it is stopped.</summary>
    /// <param name="pause">How long it rests between looks at the files.</param>
    /// <param name="stop">Ends it.</param>
    public async Task FollowAsync(TimeSpan pause, CancellationToken stop)
    {
        while (!stop.IsCancellationRequested)
        {
            if (_stamps.Count == 0 || _stamps.Any(stamp => StampOf(stamp.Key) != stamp.Value)) Draw();
            try
            {
                await Task.Delay(pause, stop).ConfigureAwait(false);
            }
            catch (OperationCanceledException)
            {
                return;
            }
        }
    }

    /// <summary>Draws it as its files are now.</summary>
    public void Draw()
    {
        // The stamps of before: what is saved while it is read is seen at the next look.
        var before = _stamps.Keys.ToDictionary(path => path, StampOf, StringComparer.Ordinal);
        try
        {
            var source = open();
            var check = Compilation.OfReading(source.Root.Path, source.Read()).Check;
            var files = check.Reading.Files.Select(file => file.Source.Path).Append(source.Root.Path).Distinct(StringComparer.Ordinal);
            _stamps = files.ToDictionary(path => path, path => before.GetValueOrDefault(path) ?? StampOf(path), StringComparer.Ordinal);
            Show(draw(check), FindingsOf(check));
        }
        catch (Exception problem) when (problem is CommandException or IOException or UnauthorizedAccessException)
        {
            // A file that is being replaced may be missing for a moment.
            _stamps = before;
            Show(null, problem.Message);
        }
    }

    private void Show(byte[]? page, string findings)
    {
        lock (_lock)
        {
            var isNew = page is not null && !page.AsSpan().SequenceEqual(_state.Page);
            if (!isNew && findings == _state.Findings) return;
            _state = new LiveState(_state.Number + 1, isNew ? page! : _state.Page, _state.PageNumber + (isNew ? 1 : 0), findings);
            var done = _next;
            _next = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            done.SetResult();
        }
    }

    private static string FindingsOf(CheckedSite check)
    {
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        var lines = new PlainLines(text, hasColour: false);
        new FindingPrinter(lines).Print(check.Findings);
        lines.Flush();
        return text.ToString();
    }

    /// <summary>What tells one state of a file from another: when it was written, how long it is, and that it is the same file.</summary>
    private string StampOf(string path)
    {
        var file = new FileInfo(surroundings.At(path));
        return file.Exists ? string.Create(CultureInfo.InvariantCulture, $"{file.LastWriteTimeUtc.Ticks} {file.Length} {file.CreationTimeUtc.Ticks}") : "";
    }
}
