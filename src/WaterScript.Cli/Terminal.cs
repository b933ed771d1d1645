using System.Text;
using WaterScript.Text.Lines;

namespace WaterScript.Cli;

/// <summary>Where a command reads and writes.</summary>
internal sealed class Terminal(Func<Stream> openInput, Stream output, TextWriter text, TextWriter error, bool textHasColour, bool errorHasColour, Progress? progress = null)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Standard input; opening it already changes the state of a terminal, so nobody does who does not read it.</summary>
    public Stream OpenInput()
    {
        if (!Console.IsInputRedirected) progress?.Silence();
        return openInput();
    }

    /// <summary>Standard output, for documents.</summary>
    public Stream Output => output;

    /// <summary>Standard output, for text.</summary>
    public PlainLines Text { get; } = new(text, textHasColour);

    /// <summary>Standard error.</summary>
    public PlainLines Error { get; } = new(error, errorHasColour);

    /// <summary>Does something that may take long. Where that is more than a second, people who look at standard error are told what it is.</summary>
    /// <inheritdoc cref="Progress.During"/>
    public T During<T>(string stage, Func<T> work, Func<string>? reached = null)
    {
        if (progress is null) return work();
        Text.Flush();
        return progress.During(stage, work, reached);
    }

    /// <summary>That of this process. UTF-8 without a byte-order mark and LF on every machine.</summary>
    public static Terminal OfProcess()
    {
        var output = ClosedOutput.Or(StandardOutput.Open);
        var error = Writer(ClosedOutput.Or(Console.OpenStandardError), isFlushedAtOnce: true);
        return new Terminal(
            Console.OpenStandardInput,
            output,
            Writer(output),
            error,
            UsesColour() && !Console.IsOutputRedirected,
            UsesColour() && !Console.IsErrorRedirected,
            Console.IsErrorRedirected || IsDumb() ? null : new Progress(error, TimeProvider.System));
    }

    /// <summary>Colour unless the user or the terminal says no (no-color.org).</summary>
    private static bool UsesColour() =>
        string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR")) && !IsDumb();

    /// <summary>A terminal that only ever goes on, so that a line cannot be written anew.</summary>
    private static bool IsDumb() => Environment.GetEnvironmentVariable("TERM") == "dumb";

    private static StreamWriter Writer(Stream stream, bool isFlushedAtOnce = false) => new(stream, Utf8) { NewLine = "\n", AutoFlush = isFlushedAtOnce };
}
