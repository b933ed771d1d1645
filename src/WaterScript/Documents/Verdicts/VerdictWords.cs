using NodaTime;
using WaterScript.Wording;

namespace WaterScript.Documents.Verdicts;

/// <summary>What the lines of a verdict say alike.</summary>
internal static class VerdictWords
{
    /// <summary><c>1 Mar 2026</c></summary>
    public static string Date(LocalDate date) => MomentWords.PlainDate(date);

    /// <summary><c>1 file</c>, <c>3 files</c></summary>
    public static string Number(int count, string one) => Phrases.Count(count, one);
}
