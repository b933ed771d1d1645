using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Editing.Names;

/// <summary>
/// The line by which a schedule that is renamed keeps its events in a calendar: its first name stays, whatever it is called later, and goes when the schedule
/// is called so again.
/// </summary>
internal static class FormerName
{
    /// <summary>What changes beside the name itself; nothing where the line is there already, or nothing of the schedule goes by its name.</summary>
    /// <param name="declared">The schedule.</param>
    /// <param name="name">Its new name.</param>
    /// <param name="keeps">Whether a schedule without such a line gets one.</param>
    public static ImmutableArray<TextEdit> Edits(NameDeclaration declared, string name, bool keeps)
    {
        ArgumentNullException.ThrowIfNull(declared);
        if (declared.Node is not ScheduleNode schedule) return [];
        var source = declared.Where.Source;
        if (schedule.Body.OfType<FormerlyNode>().FirstOrDefault() is { } former)
            return former.Name.Text == name ? Fix.SafeDeletion("", new Location(source, former.Span)).Edits : [];
        if (!keeps || schedule.Body.Any(line => line is ManualNode)) return [];
        var brace = source.Text.IndexOf('{', schedule.Label?.Span.End ?? schedule.Name.Span.End);
        if (brace < 0 || brace >= schedule.Span.End) return [];
        var hasLines = source.PositionOf(schedule.Span.Start).Line != source.PositionOf(schedule.Span.End).Line;
        var lineBreak = source.Text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        var text = hasLines ? $"{lineBreak}  formerly {declared.Name}" : $" formerly {declared.Name};";
        return [new TextEdit(new Location(source, new TextSpan(brace + 1, 0)), text)];
    }
}
