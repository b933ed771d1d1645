using System.Collections.Immutable;
using WaterScript.Diagnostics;

namespace WaterScript.Wording;

/// <summary>How the categories of rules are called.</summary>
internal static class RuleCategories
{
    /// <summary>All of them, in the order in which the documentation lists them.</summary>
    public static ImmutableArray<RuleCategory> All { get; } =
        [RuleCategory.Reading, RuleCategory.DaysAndTimes, RuleCategory.Restrictions, RuleCategory.Water, RuleCategory.Power, RuleCategory.PlantsAndSoil];

    /// <summary>As the verdict says it: <c>days and times</c>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It is none of them.</exception>
    public static string NameOf(RuleCategory category) => category switch
    {
        RuleCategory.Reading => "reading the file",
        RuleCategory.DaysAndTimes => "days and times",
        RuleCategory.Restrictions => "restrictions",
        RuleCategory.Water => "water",
        RuleCategory.Power => "power",
        RuleCategory.PlantsAndSoil => "plants and soil",
        _ => throw new ArgumentOutOfRangeException(nameof(category)),
    };
}
