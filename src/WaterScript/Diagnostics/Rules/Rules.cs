using System.Collections.Immutable;

namespace WaterScript.Diagnostics;

/// <summary>The catalogue: every rule, listed by hand so that nothing has to be found at run time.</summary>
public static partial class Rules
{
    /// <summary>All rules, in the order in which the documentation lists them.</summary>
    public static ImmutableArray<Rule> All =>
    [
        Syntax,
        HiddenText,
        DecimalComma,
        UnknownName,
        DuplicateName,
        UnknownProperty,
        Missing,
        StatedTwice,
        Contradiction,
        Loop,
        OverLimit,
        UnusualForm,
        WrongUnit,
        OutOfRange,
        IncludeMissing,
        IncludeOutside,
        NotComputed,
        SkippedTime,
        DoubledTime,
        NoSunEvent,
        NeverDue,
        SameMoment,
        NoPass,
        CutShort,
        CutByHold,
        ShorterThanShortest,
    ];

    /// <summary>The rule of that slug, or null.</summary>
    public static Rule? Find(string slug) => All.FirstOrDefault(rule => rule.Slug == slug);
}
