using WaterScript.Diagnostics;

namespace WaterScript.Linting.Fixes;

/// <summary>How much may be calculated again in search of fixes, so that a site with many findings is looked at as quickly as another.</summary>
internal sealed class TrialBudget
{
    private long _runs;

    /// <summary>Spends so many runs; false when it is used up.</summary>
    public bool Spend(long runs) => (_runs += runs) <= Limits.TrialRuns;
}
