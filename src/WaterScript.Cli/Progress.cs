using System.Globalization;

namespace WaterScript.Cli;

/// <summary>
/// Says on a terminal what is being done, once it has taken a second: one line without any escape codes, written anew in its place
/// and gone before anything else is written. A clock of its own writes it, so the work never waits for it.
/// </summary>
/// <param name="line">The terminal.</param>
/// <param name="time">Where the time comes from; what went before counts from here.</param>
internal sealed class Progress(TextWriter line, TimeProvider time)
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan Beat = TimeSpan.FromMilliseconds(250);

    private readonly long _begun = time.GetTimestamp();
    private readonly Lock _lock = new();
    private string _shown = "";
    private bool _isSilent;

    /// <summary>Does something that may take long.</summary>
    /// <param name="stage">What it is, in a word or two, so that a narrow terminal has room for it.</param>
    /// <param name="work">Does it.</param>
    /// <param name="reached">How far it is; may be asked on another thread. Null where nobody knows.</param>
    public T During<T>(string stage, Func<T> work, Func<string>? reached = null)
    {
        var isUnderWay = true;
        void Show()
        {
            lock (_lock)
            {
                // A timer may come a little early, and then the next beat is soon enough.
                if (isUnderWay && time.GetElapsedTime(_begun) >= Patience) Put(Words(stage, reached));
            }
        }

        var wait = Patience - time.GetElapsedTime(_begun);
        using var beat = time.CreateTimer(_ => Show(), null, wait > Beat ? wait : Beat, Beat);
        try
        {
            return work();
        }
        finally
        {
            lock (_lock)
            {
                isUnderWay = false;
                Put("");
            }
        }
    }

    /// <summary>How far it is with many files: <c>12 of 80 files</c>; nothing to say of one alone.</summary>
    public static Func<string>? OfFiles(Func<int> done, int all) =>
        all < 2 ? null : () => string.Create(CultureInfo.InvariantCulture, $"{done()} of {all} files");

    /// <summary>Says nothing any more, because somebody types on this terminal.</summary>
    public void Silence()
    {
        lock (_lock)
        {
            Put("");
            _isSilent = true;
        }
    }

    private string Words(string stage, Func<string>? reached)
    {
        var seconds = (long)time.GetElapsedTime(_begun).TotalSeconds;
        return string.Create(CultureInfo.InvariantCulture, $"{stage}{(reached is null ? "" : ", " + reached())}, {seconds} s");
    }

    private void Put(string words)
    {
        if (_isSilent || words == _shown) return;
        try
        {
            line.Write($"\r{words.PadRight(_shown.Length)}{(words.Length == 0 ? "\r" : "")}");
        }
        catch (IOException)
        {
            _isSilent = true; // The terminal is gone. That is no reason to leave the work undone.
        }

        _shown = words;
    }
}
