using WaterScript.Diagnostics;

namespace WaterScript.Wording;

/// <summary>How many findings there are, in words.</summary>
internal static class FindingSummary
{
    /// <summary><c>1 error, 2 pieces of advice</c>; <c>no findings</c> when there is none.</summary>
    public static string Of(IEnumerable<Finding> findings) => Of(findings.CountBy(finding => finding.Severity));

    /// <summary>The same, of findings that are counted already.</summary>
    public static string Of(IEnumerable<KeyValuePair<Severity, int>> counts)
    {
        var words = string.Join(", ", counts.OrderByDescending(count => count.Key).Select(count => count.Key == Severity.Advice
            ? Phrases.Count(count.Value, "piece of advice", "pieces of advice")
            : Phrases.Count(count.Value, WordOf(count.Key))));
        return words.Length > 0 ? words : "no findings";
    }

    /// <summary>The word for a severity, as a finding begins.</summary>
    public static string WordOf(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        _ => "advice",
    };
}
