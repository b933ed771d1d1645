using System.Collections.Immutable;

namespace WaterScript.Diagnostics.Reading;

/// <summary>The rules about reading the file. Those about what a site does stand beside their checks.</summary>
internal static partial class ReadingRules
{
    /// <summary>All of them, in the order in which the documentation lists them.</summary>
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
    ];
}
