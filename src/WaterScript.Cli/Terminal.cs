using System.Text;
using NodaTime;
using WaterScript.Calendars.TimeZones;
using WaterScript.Cli.Files;
using WaterScript.Text.Lines;

namespace WaterScript.Cli;

/// <summary>Where a command reads and writes.</summary>
/// <param name="surroundings">The folder, variables and clock.</param>
/// <param name="openInput">Opens standard input.</param>
/// <param name="output">Standard output, for documents.</param>
/// <param name="text">Standard output, for text.</param>
/// <param name="error">Standard error.</param>
/// <param name="textHasColour">Whether text has colours.</param>
/// <param name="errorHasColour">Whether standard error has colours.</param>
/// <param name="progress">Reports what takes long; null where nobody looks.</param>
/// <param name="columns">The width of the terminal; null where there is none.</param>
internal sealed class Terminal(
    Surroundings surroundings, Func<Stream> openInput, Stream output, TextWriter text, TextWriter error, bool textHasColour, bool errorHasColour,
    Progress? progress = null, Func<int?>? columns = null)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private Func<Stream>? _openPeeked;

    /// <summary>The folder, variables and clock that commands go by.</summary>
    public Surroundings Surroundings => surroundings;

    /// <summary>Standard input; opening it already changes the state of a terminal, so nobody does who does not read it.</summary>
    public Stream OpenInput()
    {
        if (_openPeeked is not { } openPeeked) return openInput();
        _openPeeked = null;
        return openPeeked();
    }

    /// <summary>The first bytes of standard input, which stay in it.</summary>
    /// <param name="count">How many at most; there are fewer only where there is no more.</param>
    public byte[] PeekInput(int count)
    {
        var input = OpenInput();
        var bytes = new byte[count];
        var first = bytes[..input.ReadAtLeast(bytes, count, throwOnEndOfStream: false)];
        _openPeeked = () => new PeekedStream(first, input);
        return first;
    }

    /// <summary>Standard output, for documents.</summary>
    public Stream Output => output;

    /// <summary>Standard output, for text.</summary>
    public PlainLines Text { get; } = new(text, textHasColour, columns);

    /// <summary>Standard error.</summary>
    public PlainLines Error { get; } = new(error, errorHasColour, columns);

    /// <summary>The time zones that sites are read with.</summary>
    public IDateTimeZoneProvider TimeZones { get; set; } = PackagedTimeZones.Provider;

    /// <summary>Whether a person asks for no more than what is found, or asked for.</summary>
    public bool IsQuiet { get; set; }

    /// <summary>Columns for a line of text.</summary>
    /// <param name="most">How many at most, which is how many there are where no terminal says otherwise.</param>
    public int Columns(int most) => columns?.Invoke() is > 0 and var width ? Math.Min(width, most) : most;

    /// <summary>Has text for people in colours, or not, whatever was to be seen of the terminal.</summary>
    public void UseColour(bool isWanted) => (Text.HasColour, Error.HasColour) = (isWanted, isWanted);

    /// <summary>Says on standard error what was done, unless that is not asked for.</summary>
    public void Note(string words)
    {
        if (!IsQuiet) Error.Line(words);
    }

    /// <summary>Does something that may take long. Where that is more than a second, people who look at standard error can read what it is.</summary>
    /// <inheritdoc cref="Progress.During"/>
    public T During<T>(string stage, Func<T> work, Func<string>? reached = null)
    {
        if (progress is null || IsQuiet) return work();
        Text.Flush();
        return progress.During(stage, work, reached);
    }

    /// <summary>That of this process. UTF-8 without a byte-order mark and LF on every machine.</summary>
    public static Terminal OfProcess()
    {
        var output = ClosedOutput.Or(StandardOutput.Open);
        var error = Writer(ClosedOutput.Or(Console.OpenStandardError), isFlushedAtOnce: true);
        var surroundings = Surroundings.OfProcess();
        var progress = Console.IsErrorRedirected || IsDumb(surroundings) ? null : new Progress(error, TimeProvider.System);
        Stream OpenInput()
        {
            if (!Console.IsInputRedirected) progress?.Silence();
            return Console.OpenStandardInput();
        }

        return new Terminal(
            surroundings,
            OpenInput,
            output,
            Writer(output),
            error,
            UsesColour(surroundings, Console.IsOutputRedirected),
            UsesColour(surroundings, Console.IsErrorRedirected),
            progress,
            Console.IsOutputRedirected ? null : ColumnsOfConsole);
    }

    private static int? ColumnsOfConsole()
    {
        try
        {
            return Console.WindowWidth;
        }
        catch (Exception problem) when (problem is IOException or PlatformNotSupportedException)
        {
            return null; // A terminal that does not say how wide it is.
        }
    }

    /// <summary>Colour on a terminal unless the user or the terminal says no (no-color.org), elsewhere where the user says so (force-color.org).</summary>
    internal static bool UsesColour(Surroundings surroundings, bool isRedirected)
    {
        if (!string.IsNullOrEmpty(surroundings.Variable("NO_COLOR"))) return false;
        return !string.IsNullOrEmpty(surroundings.Variable("FORCE_COLOR")) || (!isRedirected && !IsDumb(surroundings));
    }

    /// <summary>A terminal that only ever goes on, so that a line cannot be written anew.</summary>
    private static bool IsDumb(Surroundings surroundings) => surroundings.Variable("TERM") == "dumb";

    private static StreamWriter Writer(Stream stream, bool isFlushedAtOnce = false) => new(stream, Utf8) { NewLine = "\n", AutoFlush = isFlushedAtOnce };
}
