namespace WaterScript.Diagnostics;

/// <summary>A finding as a few lines of text, for where the source is shown beside it.</summary>
public static class FindingText
{
    /// <summary>What a finding says, without its place: the heading, when it happens, why, and a way out, one after the other, each on its line, in which every character can be seen.</summary>
    public static string Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var label = finding.Primary.Text;
        string[] parts =
        [
            DisplayLine.CleanLine(label.Length == 0 ? finding.Heading : $"{finding.Heading}: {label}"),
            finding.Happens is { } happening ? MomentWords.When(happening) : "",
            finding.Details,
            finding.Assumed,
            WayOut(finding) is { Length: > 0 } wayOut ? "Way out: " + wayOut : "",
        ];
        return DisplayLine.Clean(string.Join('\n', parts.Where(part => part.Length > 0)));
    }

    /// <summary>What to do about it: its own sentence, else what its fix does; may be empty.</summary>
    public static string WayOut(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return finding.WayOut.Length > 0 ? finding.WayOut : finding.Fix?.Title ?? "";
    }
}
