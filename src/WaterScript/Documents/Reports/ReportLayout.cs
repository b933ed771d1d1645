using WaterScript.Text.Lines;

namespace WaterScript.Documents.Reports;

/// <summary>How wide findings are printed, and what goes where there is little room.</summary>
/// <param name="Columns">Columns of a line of words.</param>
/// <param name="SourceColumns">Columns of a line of source.</param>
internal readonly record struct ReportLayout(int Columns, int SourceColumns)
{
    private const int Widest = 100;
    private const int Narrowest = 20;

    /// <summary>Where the output is no terminal no line of an ordinary file is cut; one of a megabyte is.</summary>
    private const int LongestSource = 400;

    /// <summary>That of an output.</summary>
    public static ReportLayout Of(PlainLines lines)
    {
        if (lines.Columns is not ({ } columns and > 0)) return new(Widest, LongestSource);
        var width = Math.Clamp(columns, Narrowest, Widest);
        return new(width, width);
    }

    /// <summary>Whether the lines are for a terminal, which would break those that are too long.</summary>
    public bool IsTerminal => Columns == SourceColumns;

    /// <summary>Whether a label always stands below its mark.</summary>
    public bool HasLabelsBelow => Columns < 80;

    /// <summary>Whether only the first two marks are shown, and of a change only what is written.</summary>
    public bool IsNarrow => Columns < 60;

    /// <summary>Whether no source is shown at all.</summary>
    public bool IsTiny => Columns < 40;
}
