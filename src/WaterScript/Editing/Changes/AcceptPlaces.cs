using WaterScript.Diagnostics;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Editing.Changes;

/// <summary>Where a line that accepts a finding can stand.</summary>
/// <param name="file">The file.</param>
internal sealed class AcceptPlaces(FileNode file)
{
    /// <summary>Puts a statement into the least block around a place that takes one; at the end of the file where there is none.</summary>
    public TextEdit EditFor(Location place, string statement)
    {
        var source = file.Source;
        foreach (var around in file.Statements.Where(each => each.Span.Contains(place.Span)))
        {
            if (BraceOf(around, source) is { } brace) return Inside(brace, LineEnd(source, around), statement);
        }

        var isNewLine = source.Text.Length == 0 || source.Text[^1] == '\n';
        return new TextEdit(new Location(source, new TextSpan(source.Text.Length, 0)), $"{(isNewLine ? "" : LineBreak)}{statement}{LineBreak}");
    }

    /// <summary>How lines of the file end.</summary>
    private string LineBreak => file.Source.Text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";

    private static int? BraceOf(StatementNode statement, SourceText source) => statement switch
    {
        BlockNode block => block.Brace.End,
        ScheduleNode or SequenceNode or RestrictionNode => source.Text.IndexOf('{', statement.Span.Start, statement.Span.Length) is >= 0 and var at ? at + 1
            : null,
        _ => null,
    };

    /// <summary>Whether a block is written on one line.</summary>
    private static bool LineEnd(SourceText source, StatementNode statement) =>
        source.PositionOf(statement.Span.Start).Line != source.PositionOf(statement.Span.End).Line;

    private TextEdit Inside(int brace, bool hasLines, string statement)
    {
        var at = new Location(file.Source, new TextSpan(brace, 0));
        return new TextEdit(at, hasLines ? $"{LineBreak}  {statement}" : $" {statement};");
    }
}
