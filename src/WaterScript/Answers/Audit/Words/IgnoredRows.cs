using System.Globalization;
using WaterScript.Wording;

namespace WaterScript.Answers.Audit.Words;

/// <summary>How a report says which rows were passed over: each reason once, with the lines that it is about.</summary>
internal static class IgnoredRows
{
    /// <summary>Lines that are listed of a reason.</summary>
    private const int MostLines = 8;

    /// <summary>Reasons that are listed.</summary>
    private const int MostReasons = 8;

    /// <summary>The sentence, without its full stop; null where no row was passed over.</summary>
    public static string? Of(AuditReport report)
    {
        ArgumentNullException.ThrowIfNull(report);
        if (report.BadCount == 0) return null;
        var reasons = report.Bad.GroupBy(bad => bad.Problem.Unwired is null ? bad.Why : "").ToList();
        var words = reasons.Take(MostReasons).Select(reason => $"{WhyOf(reason)} ({Places([.. reason.Select(bad => bad.Place)])})").ToList();
        var listed = reasons.Take(MostReasons).Sum(reason => (long)reason.Count());
        if (report.BadCount > listed) words.Add(string.Create(CultureInfo.InvariantCulture, $"and {report.BadCount - listed} more"));
        return $"{Phrases.Count(report.BadCount, "row")}{(words.Count == 1 ? ", " : ": ")}{string.Join("; ", words)}";
    }

    /// <summary>Why, for all outputs that nothing is wired to at once.</summary>
    private static string WhyOf(IGrouping<string, BadRow> reason)
    {
        if (reason.Key.Length > 0) return reason.Key;
        var outputs = reason.Select(bad => bad.Problem.Unwired!.Value).Distinct().Order()
            .Select(output => output.ToString(CultureInfo.InvariantCulture)).ToList();
        if (outputs is [var only]) return $"output {only} has no zone";
        return outputs is [var one, var other] ? $"outputs {one} and {other} have no zone" : $"outputs {Phrases.Names(outputs)} have no zone";
    }

    /// <summary><c>log.csv:8, 9, other.csv:3</c></summary>
    private static string Places(List<LogPlace> places)
    {
        var file = "";
        var words = new List<string>();
        foreach (var place in places.Take(MostLines))
        {
            var line = place.Line.ToString(CultureInfo.InvariantCulture);
            words.Add(place.File == file ? line : $"{place.File}:{line}");
            file = place.File;
        }

        if (places.Count > MostLines) words.Add(string.Create(CultureInfo.InvariantCulture, $"and {places.Count - MostLines} more"));
        return string.Join(", ", words);
    }
}
