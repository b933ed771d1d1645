using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Text;
using Range = WaterScript.Cli.LanguageServer.Protocol.Range;

namespace WaterScript.Cli.LanguageServer.Files;

/// <summary>
/// Places as the protocol counts them, from 0, and offsets. A text of a client that begins with a byte-order mark counts it as a character, which a
/// <see cref="SourceText"/> does not.
/// </summary>
internal static class Places
{
    /// <summary>A place of an offset.</summary>
    public static Position Of(SourceText source, int offset)
    {
        var place = source.PositionOf(Math.Clamp(offset, 0, source.Text.Length));
        return new Position(place.Line - 1, place.Column - 1 + (place.Line == 1 ? MarkOf(source) : 0));
    }

    /// <summary>A range.</summary>
    public static Range Of(SourceText source, TextSpan span) => new(Of(source, span.Start), Of(source, span.End));

    /// <summary>A range.</summary>
    public static Range Of(Location location) => Of(location.Source, location.Span);

    /// <summary>The offset of a place; what lies outside of the text is its nearest place.</summary>
    public static int OffsetOf(SourceText source, Position place)
    {
        if (place.Line < 0) return 0;
        if (place.Line >= source.LineCount) return source.Text.Length;
        var line = source.LineSpan(place.Line + 1);
        return line.Start + Math.Clamp(place.Character - (place.Line == 0 ? MarkOf(source) : 0), 0, line.Length);
    }

    /// <summary>A stretch of a text; one that ends before it begins is empty.</summary>
    public static TextSpan SpanOf(SourceText source, Range range)
    {
        var start = OffsetOf(source, range.Start);
        return TextSpan.FromBounds(start, Math.Max(start, OffsetOf(source, range.End)));
    }

    private static int MarkOf(SourceText source) => source.HasByteOrderMark ? 1 : 0;
}
