namespace WaterScript.Language;

/// <summary>What a value must lie between, in base units of its dimension; both ends included unless said otherwise.</summary>
/// <param name="Least">The least, or null.</param>
/// <param name="Most">The greatest, or null.</param>
/// <param name="IsAboveLeast">Whether the least itself is already out.</param>
internal sealed record Bounds(decimal? Least = null, decimal? Most = null, bool IsAboveLeast = false)
{
    /// <summary>Anything.</summary>
    public static Bounds None { get; } = new();

    /// <summary>More than nothing.</summary>
    public static Bounds Positive { get; } = new(Least: 0, IsAboveLeast: true);

    /// <summary>Nothing or more.</summary>
    public static Bounds NotNegative { get; } = new(Least: 0);

    /// <summary>A share of a whole: more than nothing, up to all of it.</summary>
    public static Bounds ShareOfWhole { get; } = new(Least: 0, Most: 100, IsAboveLeast: true);

    /// <summary>Whether a value lies within.</summary>
    public bool Hold(decimal value) =>
        (Least is not { } least || (IsAboveLeast ? value > least : value >= least)) && (Most is not { } most || value <= most);

    /// <summary>In words: <c>above 0</c>, <c>1 to 100</c>.</summary>
    public string InWords() => (Least, Most) switch
    {
        ({ } least, null) => IsAboveLeast ? $"above {Shown(least)}" : $"{Shown(least)} or more",
        ({ } least, { } most) => IsAboveLeast ? $"above {Shown(least)}, up to {Shown(most)}" : $"{Shown(least)} to {Shown(most)}",
        (null, { } most) => $"up to {Shown(most)}",
        _ => "any",
    };

    private static string Shown(decimal value) => value.ToString(System.Globalization.CultureInfo.InvariantCulture);
}
