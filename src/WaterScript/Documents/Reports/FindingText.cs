using WaterScript.Diagnostics;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>A finding as a few lines of text, for where the source is shown beside it.</summary>
internal static class FindingText
{
    /// <summary>
    /// What a finding says, without its place: the heading, when it happens, why, and a fix, one after the other, each on its line, in which every
    /// character can be seen.
    /// </summary>
    public static string Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var label = finding.Primary.Text;
        string[] parts =
        [
            DisplayLine.CleanLine(label.Length == 0 ? finding.Heading : $"{finding.Heading}: {label}"),
            finding.Happens is { } occurrences ? MomentWords.When(occurrences) : "",
            finding.Details,
            finding.Assumed,
            Help(finding) is { Length: > 0 } help ? "Fix: " + help : "",
        ];
        return DisplayLine.Clean(string.Join('\n', parts.Where(part => part.Length > 0)));
    }

    /// <summary>What to do about it: its own sentence, else what its fix does; may be empty.</summary>
    public static string Help(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return finding.Help.Length > 0 ? finding.Help : finding.Fix?.Title ?? "";
    }
}
