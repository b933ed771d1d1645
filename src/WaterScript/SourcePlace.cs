using System.Globalization;
using WaterScript.Text;

namespace WaterScript;

/// <summary>A stretch of one of the files of a site.</summary>
public sealed class SourcePlace
{
    internal SourcePlace(Location location)
    {
        Path = location.Source.Path;
        (Line, Column) = location.Start;
        (EndLine, EndColumn) = location.End;
        Offset = location.Span.Start;
        Length = location.Span.Length;
        Text = location.Text;
    }

    /// <summary>The file, by the path that it was read by.</summary>
    public string Path { get; }

    /// <summary>The line on which it begins, from 1.</summary>
    public int Line { get; }

    /// <summary>The column at which it begins: UTF-16 code units before it on its line, plus 1.</summary>
    public int Column { get; }

    /// <summary>The line on which it ends, from 1.</summary>
    public int EndLine { get; }

    /// <summary>The column just past its end, from 1; not included.</summary>
    public int EndColumn { get; }

    /// <summary>UTF-16 code units before it in the file, a byte-order mark not counted; 0 or more.</summary>
    public int Offset { get; }

    /// <summary>How many UTF-16 code units it has; 0 for a place between two characters.</summary>
    public int Length { get; }

    /// <summary>The text that stands there.</summary>
    public string Text { get; }

    /// <summary>Path, line and column: <c>garden.water:3:7</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Path}:{Line}:{Column}");
}
