using System.Collections.Immutable;
using WaterScript.Documents.Writers;
using WaterScript.Language;

namespace WaterScript.Documents.Descriptions;

/// <summary>A share of run times for each month of the year.</summary>
internal static class MonthShares
{
    /// <summary>Writes an entry for each month, in per cent; one without a share has all.</summary>
    public static void Write(DocumentWriter writer, ImmutableArray<decimal?> percents)
    {
        for (var month = 0; month < 12; month++) writer.Entry(MonthNames.All[month], Measure.Rounded(percents[month] ?? 100));
    }
}
