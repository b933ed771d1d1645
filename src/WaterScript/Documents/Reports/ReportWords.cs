using WaterScript.Diagnostics;

namespace WaterScript.Documents.Reports;

/// <summary>Words of the reports for programs.</summary>
internal static class ReportWords
{
    /// <summary>What a finding about time rests on.</summary>
    public static string Of(Basis basis) => basis switch
    {
        Basis.ForEver => "for-ever",
        Basis.WholeCycle => "over-400-years",
        _ => "over-horizon",
    };
}
