using WaterScript.Diagnostics;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>A finding as a few lines of text, for where the source is shown beside it.</summary>
internal static class FindingText
{
    private const string PlainFix = "Fix";

    /// <summary>
    /// What a finding reports, without its place: the heading, why, when it happens, what was assumed, and a fix, one after the other, each on its line,
    /// in which every character can be seen.
    /// </summary>
    public static string Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var label = finding.Primary.Text;
        string[] parts =
        [
            DisplayLine.CleanLine(label.Length == 0 ? finding.Heading : $"{finding.Heading}: {label}"),
            .. Facts(finding),
            Help(finding) is { Length: > 0 } help ? "Fix: " + help : "",
        ];
        return DisplayLine.Clean(string.Join('\n', parts.Where(part => part.Length > 0)));
    }

    /// <summary>The arithmetic, then when it happens, then what was taken for granted, each on its line.</summary>
    public static IEnumerable<string> Facts(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        if (finding.Details.Length > 0)
        {
            foreach (var line in finding.Details.Split('\n')) yield return line.TrimEnd();
        }

        if (When(finding) is { Length: > 0 } when) yield return when;
        if (finding.Assumed.Length > 0) yield return Assumption(finding.Assumed);
    }

    /// <summary>When it happens, by the clock or in a pass that somebody starts; may be empty.</summary>
    public static string When(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return finding.Happens is { } occurrences ? MomentWords.When(occurrences) : finding.InPass;
    }

    /// <summary><c>Assumed: the tank is full at the start.</c></summary>
    public static string Assumption(string assumed)
    {
        ArgumentNullException.ThrowIfNull(assumed);
        return $"Assumed: {LowerFirst(assumed.Replace('\n', ' '))}";
    }

    /// <summary>What to do about it: its own sentence, else what its fix does; may be empty.</summary>
    public static string Help(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return finding.Help.Length > 0 ? finding.Help : finding.Fix?.Title ?? "";
    }

    /// <summary>What stands before the colon and behind it: <c>Fix (--fix)</c> and <c>write `for`</c>.</summary>
    public static (string Title, string Words) FixWords(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var words = LowerFirst(Help(finding));
        return finding.Fix is { Edits.IsEmpty: false } fix ? ($"{PlainFix} ({Kind(finding, fix)})", words.TrimEnd('.')) : (PlainFix, words);
    }

    /// <summary>Who makes the change: the program, or a person, because it changes the watering or only guesses at what was meant.</summary>
    private static string Kind(Finding finding, Fix fix) =>
        fix.IsSafe ? "--fix" : finding.Rule.Category == RuleCategory.Reading ? "if that is meant" : "changes the watering";

    private static string LowerFirst(string words) => words.Length == 0 || IsName(words) ? words : char.ToLowerInvariant(words[0]) + words[1..];

    /// <summary>Whether a text begins with capitals only, as <c>VA</c>.</summary>
    private static bool IsName(string words) => words.Length > 1 && char.IsUpper(words[1]);
}
