using WaterScript.Diagnostics;

namespace WaterScript.Wording;

/// <summary>How many findings there are, in words.</summary>
internal static class FindingSummary
{
    /// <summary><c>1 error, 2 warnings</c>; <c>nothing found</c> when there is none.</summary>
    public static string Of(IEnumerable<Finding> findings)
    {
        var counts = findings.CountBy(finding => finding.Severity).OrderByDescending(count => count.Key);
        var words = string.Join(", ", counts.Select(
            count => Phrases.Count(count.Value, WordOf(count.Key), count.Key == Severity.Advice ? WordOf(count.Key) : null)));
        return words.Length > 0 ? words : "nothing found";
    }

    /// <summary>The word for a severity, as a finding begins.</summary>
    public static string WordOf(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        _ => "advice",
    };
}
