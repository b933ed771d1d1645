using System.Collections.Immutable;
using WaterScript.Answers.Diff.Written;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff.Costs;

/// <summary>What is paid otherwise in two versions, and what of allowances is used otherwise.</summary>
/// <param name="Meters">Supplies whose bills are others, in order of the new files; those that are gone come last.</param>
/// <param name="Allowances">Volumes that restrictions allow, of which something else is used.</param>
internal sealed record CostChanges(ImmutableArray<MeterChange> Meters, ImmutableArray<AllowanceChange> Allowances)
{
    /// <summary>Costs are more work than the runs that they come from, and are to be compared as far as those.</summary>
    private const int Shares = 3;

    /// <summary>Nothing is compared, or nothing is another.</summary>
    public static CostChanges None { get; } = new([], []);

    /// <summary>Whether anything costs more or less than it did.</summary>
    public bool IsChanged => !Meters.IsEmpty || IsOverLimit;

    /// <summary>Whether there was too much to add up, so that nothing of it is known.</summary>
    public bool IsOverLimit { get; private init; }

    /// <summary>Compares two versions.</summary>
    /// <param name="old">The old one.</param>
    /// <param name="new">The new one.</param>
    /// <param name="horizon">The dates to compare.</param>
    /// <param name="names">What of the old one has another name in the new one.</param>
    /// <param name="written">What is written otherwise.</param>
    public static CostChanges Of(Site old, Site @new, Horizon horizon, Renames names, ImmutableArray<WrittenChange> written)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        if (!IsAsked(old) && !IsAsked(@new)) return None;
        try
        {
            var years = WholeYears.Of(old, @new, horizon);
            var (before, after) = (CostSide.Of(old, horizon, BudgetOf(old)), CostSide.Of(@new, horizon, BudgetOf(@new)));
            return new CostChanges([.. MeterChange.Between(before, after, years, names, written)], [.. AllowanceChange.Between(before, after, names)]);
        }
        catch (WorkUsedUpException)
        {
            return None with { IsOverLimit = true };
        }
    }

    private static WorkBudget BudgetOf(Site site) => new(Shares * Limits.CheckWorkOf(site.SourceLength));

    /// <summary>Whether a site has anything to do with costs or allowances.</summary>
    private static bool IsAsked(Site site) => site.Supplies.Any(supply => supply.Tariff is not null)
        || site.Restrictions.Any(restriction => restriction.AtMost.Any(line => line.Kind == LimitKind.Volume));
}
