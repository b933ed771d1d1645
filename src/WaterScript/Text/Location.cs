namespace WaterScript.Text;

/// <summary>A span in one of the files of a site: where something was said.</summary>
internal readonly record struct Location(SourceText Source, TextSpan Span)
{
    /// <summary>The first line and column.</summary>
    public LinePosition Start => Source.PositionOf(Span.Start);

    /// <summary>The line and column just past the end.</summary>
    public LinePosition End => Source.PositionOf(Span.End);

    /// <summary>The text that stands there.</summary>
    public string Text => Source.Slice(Span);
}
