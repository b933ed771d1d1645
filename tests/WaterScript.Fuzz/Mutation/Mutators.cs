using WaterScript.Fuzz.Inputs;

namespace WaterScript.Fuzz.Mutation;

/// <summary>The ways to change an input.</summary>
internal static class Mutators
{
    private static readonly (string Name, Action<Draft> Mutate)[] Gentle =
    [
        ("number", Numbers.Nudge), ("number", Numbers.Nudge), ("number", Numbers.Nudge), ("unit", Numbers.OtherUnit), ("time", Numbers.OtherMoment),
            ("time", Numbers.OtherMoment),
        ("same kind of statement", Trees.ReplaceByItsLike), ("same kind of statement", Trees.ReplaceByItsLike), ("statement gone", Trees.Delete),
            ("statements swapped", Trees.Swap),
        ("label", Letters.Relabel), ("lines end otherwise", Letters.OtherLineEnds), ("comment", Letters.Comment), ("moved to an include", Includes.MoveOut),
            ("burden", Trees.Burden),
    ];

    private static readonly (string Name, Action<Draft> Mutate)[] Wild =
    [
        ("bytes", Bytes.Mutate), ("bytes", Bytes.Mutate), ("token gone", Tokens.Delete), ("token twice", Tokens.Double), ("tokens swapped", Tokens.Swap),
            ("other token", Tokens.Replace),
        ("extreme number", Numbers.Extreme), ("statement twice", Trees.Double), ("statement of another site", Trees.Insert), ("unwrapped", Trees.Unwrap),
            ("wrapped", Trees.Wrap), ("splice", Trees.Splice), ("odd letters", Letters.Insert), ("include", Includes.Odd),
    ];

    /// <summary>One of them.</summary>
    public static (string Name, Action<Draft> Mutate) Pick(Dice dice, bool isGentle) => dice.Of(isGentle != dice.OneIn(8) ? Gentle : Wild);
}
