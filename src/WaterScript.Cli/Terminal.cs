using System.Text;

namespace WaterScript.Cli;

/// <summary>Where a command reads and writes.</summary>
internal sealed class Terminal(Func<Stream> openInput, Stream output, TextWriter text, TextWriter error, bool textHasColour, bool errorHasColour)
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Standard input; opening it already changes the state of a terminal, so nobody does who does not read it.</summary>
    public Stream OpenInput() => openInput();

    /// <summary>Standard output, for documents.</summary>
    public Stream Output => output;

    /// <summary>Standard output, for text.</summary>
    public TextWriter Text => text;

    /// <summary>Standard error.</summary>
    public TextWriter Error => error;

    /// <summary>Whether text on standard output may have colours.</summary>
    public bool TextHasColour => textHasColour;

    /// <summary>Whether text on standard error may have colours.</summary>
    public bool ErrorHasColour => errorHasColour;

    /// <summary>That of this process. UTF-8 without a byte-order mark and LF on every machine.</summary>
    public static Terminal OfProcess()
    {
        var output = Console.OpenStandardOutput();
        return new Terminal(
            Console.OpenStandardInput,
            output,
            Writer(output),
            Writer(Console.OpenStandardError(), isFlushedAtOnce: true),
            WantsColour() && !Console.IsOutputRedirected,
            WantsColour() && !Console.IsErrorRedirected);
    }

    /// <summary>Colour unless the user or the terminal says no (no-color.org).</summary>
    private static bool WantsColour() =>
        string.IsNullOrEmpty(Environment.GetEnvironmentVariable("NO_COLOR")) && Environment.GetEnvironmentVariable("TERM") != "dumb";

    private static StreamWriter Writer(Stream stream, bool isFlushedAtOnce = false) => new(stream, Utf8) { NewLine = "\n", AutoFlush = isFlushedAtOnce };
}
