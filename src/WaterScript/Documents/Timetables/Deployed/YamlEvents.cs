using System.Globalization;
using System.Text;
using WaterScript.Diagnostics;
using WaterScript.Text;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>
/// The events of a YAML document, one after the other, from a file that anybody may have changed: nothing of it is held but the event at hand, and what
/// could make much of little (aliases, tags, depth) is refused.
/// </summary>
internal sealed class YamlEvents : IDisposable
{
    /// <summary>What can be done about a file that is not what was written.</summary>
    public const string CompileAnew = "compile it anew with --to yaml";

    /// <summary>Characters of one event with all that stands before it: the longest label is far shorter.</summary>
    private const int LongestEvent = 1_000_000;

    private readonly Metered _text;
    private readonly Parser _parser;
    private int _depth;

    /// <summary>Begins before the first event of the only document.</summary>
    public YamlEvents(TextReader text)
    {
        _text = new Metered(text);
        _parser = new Parser(_text);
        Expect<StreamStart>("the timetable");
        Expect<DocumentStart>("the timetable");
    }

    /// <summary>The event at hand.</summary>
    public ParsingEvent Current => _parser.Current!;

    /// <summary>Goes on to the next event.</summary>
    /// <exception cref="DeployedException">There is none, or it is none that a timetable has.</exception>
    public ParsingEvent Next()
    {
        _text.Left = LongestEvent;
        var before = _parser.Current?.End ?? Mark.Empty;
        try
        {
            if (!_parser.MoveNext()) throw At(before, "the timetable ends too early", "copy the whole file, or " + CompileAnew);
        }
        catch (YamlException problem)
        {
            throw At(problem.Start, $"not YAML: {DisplayLine.CleanLine(problem.Message).TrimEnd('.')}", CompileAnew);
        }
        catch (MeterException problem)
        {
            throw At(problem.Place ?? before, problem.Message, CompileAnew);
        }
        catch (DecoderFallbackException)
        {
            throw At(before, "a letter after this is not UTF-8", CompileAnew);
        }
        catch (Exception problem) when (problem is InvalidOperationException or ArgumentException)
        {
            // YamlDotNet throws these too where a text is not YAML: a plain value in braces that goes on at the left margin, an escape that is no
            // letter. Nothing else here does, and what it says is for its developers.
            throw At(before, "what follows this is not YAML", CompileAnew);
        }

        Admit(Current);
        return Current;
    }

    /// <summary>Up to when the next call, the text of all events together may be so long, because they are held; null where they are not.</summary>
    public void Hold(int? most) => _text.Held = most;

    /// <summary>Goes on to the next event, which has to be of a kind.</summary>
    /// <param name="what">What it is for people.</param>
    public T Expect<T>(string what)
        where T : ParsingEvent => Next() as T ?? throw Wrong(what, KindOf(typeof(T)));

    /// <summary>The key that is next in a map; null where the map ends.</summary>
    public Scalar? NextKey(string map) => Next() switch
    {
        MappingEnd => null,
        Scalar key => key,
        _ => throw Wrong($"a key of {map}", "a word"),
    };

    /// <summary>Nothing may follow the document.</summary>
    public void End()
    {
        Expect<DocumentEnd>("what follows the timetable");
        if (Next() is not StreamEnd) throw Here("a second document follows the timetable", "give one timetable");
    }

    /// <inheritdoc/>
    public void Dispose() => _text.Dispose();

    /// <summary>Something else was needed than what stands here.</summary>
    public DeployedException Wrong(string what, string needed) => Here($"{what} is not {needed}", CompileAnew);

    /// <summary>A problem with the event at hand.</summary>
    public DeployedException Here(string what, string help) => At(Current.Start, what, help);

    /// <summary>A problem at a place.</summary>
    public static DeployedException At(Mark place, string what, string help) =>
        new((int)Math.Clamp(place.Line, 1, int.MaxValue), (int)Math.Clamp(place.Column, 1, int.MaxValue), what, help);

    private void Admit(ParsingEvent item)
    {
        if (item is AnchorAlias || item is NodeEvent { Anchor.IsEmpty: false })
            throw Here("anchors and aliases are not read", "write each value where it belongs, or " + CompileAnew);
        if (item is NodeEvent { Tag.IsEmpty: false }) throw Here("tags are not read", "leave the tag out, or " + CompileAnew);
        _depth += item.NestingIncrease;
        if (_depth > Limits.NestingDepth) throw Here(string.Create(CultureInfo.InvariantCulture, $"more than {Limits.NestingDepth} levels"), CompileAnew);
    }

    private static string KindOf(Type type) =>
        type == typeof(MappingStart) ? "a map" : type == typeof(SequenceStart) ? "a list" : type == typeof(Scalar) ? "a value" : "one document";

    private sealed class MeterException(string what, Mark? place = null) : Exception(what)
    {
        public Mark? Place => place;
    }

    /// <summary>Hands out so many characters, and no more before somebody allows them; none that YAML does not have.</summary>
    private sealed class Metered(TextReader text) : TextReader
    {
        private int _line = 1;
        private int _column = 1;

        public int Left { get; set; } = LongestEvent;

        /// <summary>How many more may be handed out that are held; null where none are.</summary>
        public int? Held { get; set; }

        protected override void Dispose(bool disposing)
        {
            if (disposing) text.Dispose();
            base.Dispose(disposing);
        }

        public override int Peek() => text.Peek();

        public override int Read()
        {
            if (--Left < 0) throw new MeterException(string.Create(CultureInfo.InvariantCulture, $"more than {LongestEvent} characters without an end"));
            if (--Held < 0)
            {
                throw new MeterException(string.Create(CultureInfo.InvariantCulture, $"the description has more than {Limits.DeployedDescription} characters"));
            }

            var letter = text.Read();
            // They are not left to the parser: it takes NUL for the end of the text, and thousands of them one by one.
            if (letter is >= 0 and < ' ' and not ('\t' or '\n' or '\r'))
            {
                var what = string.Create(CultureInfo.InvariantCulture, $"a character here is one that YAML does not have (U+{letter:X4})");
                throw new MeterException(what, new Mark(0, _line, _column));
            }

            (_line, _column) = letter == '\n' ? (_line + 1, 1) : (_line, _column + 1);
            return letter;
        }
    }
}
