using System.Text;

namespace WaterScript.Text.Lines;

/// <summary>
/// The one writer of text for people: terminals, logs, and files that are read as text. Whatever it is given, a call gives one line
/// in which every character can be seen; colours are its own.
/// </summary>
/// <param name="output">Where to; lines end with LF.</param>
/// <param name="hasColour">Whether the output shows colours.</param>
/// <param name="columns">Asks a terminal for its width; null where the output is none, and lines may be of any length.</param>
internal sealed class PlainLines(TextWriter output, bool hasColour = false, Func<int?>? columns = null) : IReportLines
{
    /// <summary>The columns of the terminal; null where the output is none.</summary>
    public int? Columns => columns?.Invoke();

    /// <summary>Whether lines have colours.</summary>
    public bool HasColour { get; set; } = hasColour;

    /// <summary>Columns of a sentence.</summary>
    private const int SentenceWidth = 100;

    private const string Indent = "  ";
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes text to a stream, which stays open.</summary>
    public static void WriteTo(Stream stream, Action<PlainLines> write)
    {
        ArgumentNullException.ThrowIfNull(write);
        using var text = new StreamWriter(stream, Utf8, leaveOpen: true);
        write(new PlainLines(text));
    }

    /// <summary>A text as it is shown, on one line.</summary>
    public static string Shown(string words) => LogCommands.TakenOut(DisplayLine.CleanLine(words));

    /// <summary>Writes a line.</summary>
    public void Line(string words) => output.Write(Shown(words) + "\n");

    /// <summary>Writes an empty line.</summary>
    public void Line() => output.Write('\n');

    /// <summary>Writes a page of this program's own, such as its help: its line ends stay.</summary>
    public void Page(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (text.Length == 0) return;
        foreach (var line in (text.EndsWith('\n') ? text[..^1] : text).Split('\n')) Line(line.TrimEnd('\r'));
    }

    /// <inheritdoc/>
    public void Heading(string words) => Line(words);

    /// <summary>A line that stands alone, broken between words where it is long.</summary>
    public void Sentence(string words)
    {
        foreach (var line in WordWrap.Of(words, SentenceWidth)) Line(line);
    }

    /// <inheritdoc/>
    public void Part(string title, IEnumerable<string> items)
    {
        ArgumentNullException.ThrowIfNull(items);
        foreach (var (index, item) in items.Index())
        {
            if (index == 0) Line(title + ":");
            Line(Indent + item);
        }
    }

    /// <summary>Hands on what is written so far.</summary>
    public void Flush() => output.Flush();

    /// <summary>Writes a line in colours, where there are any.</summary>
    internal void Line(params ReadOnlySpan<(string Words, TextStyle Ink)> pieces)
    {
        var (plain, inked) = (new StringBuilder(), new StringBuilder());
        foreach (var (words, textStyle) in pieces)
        {
            var shown = DisplayLine.CleanLine(words);
            plain.Append(shown);
            inked.Append(textStyle == TextStyle.Plain ? shown : $"\e[{CodeOf(textStyle)}m{shown}\e[0m");
        }

        // Where a command of a log is taken out, the line does without colours: one might begin in one piece and end in the next.
        var line = plain.ToString();
        var safe = LogCommands.TakenOut(line);
        output.Write($"{(HasColour && safe == line ? inked : safe)}\n");
    }

    /// <summary>
    /// Writes a line of a file behind the mark that a diff gives it. Its tabs and its CR LF stay, so that <c>patch</c> finds it; a line in which
    /// anything else is hidden is shown, and is no longer found.
    /// </summary>
    internal void Marked(char mark, string line)
    {
        var text = line.EndsWith('\n') ? line[..^1] : line;
        var end = text.EndsWith('\r') ? "\r" : "";
        var shown = string.Join('\t', text[..^end.Length].Split('\t').Select(DisplayLine.CleanLine));
        output.Write(LogCommands.TakenOut(mark + shown) + end + "\n");
    }

    private static string CodeOf(TextStyle textStyle) => textStyle switch
    {
        TextStyle.Strong => "1",
        TextStyle.Blue => "34",
        TextStyle.Red => "1;31",
        TextStyle.Yellow => "1;33",
        TextStyle.Cyan => "1;36",
        TextStyle.Green => "32",
        TextStyle.Gone => "31",
        TextStyle.Accepted => "90",
        _ => "0",
    };
}
