namespace WaterScript.Fuzz.Stages;

/// <summary>Something that holds of every input does not hold of this one.</summary>
/// <param name="what">What should hold, in the same words for every input.</param>
/// <param name="details">What was there instead.</param>
public sealed class BrokenException(string what, string details) : Exception($"{what}: {details}")
{
    /// <summary>What should hold.</summary>
    public string What { get; } = what;
}

/// <summary>Says what has to hold.</summary>
internal static class Must
{
    private const int MostDetails = 600;

    /// <summary>Goes on where something holds.</summary>
    /// <exception cref="BrokenException">It does not.</exception>
    public static void Hold(bool holds, string what, string details = "")
    {
        if (!holds) throw new BrokenException(what, details.Length > MostDetails ? details[..MostDetails] + "…" : details);
    }

    /// <summary>Goes on where two values are equal.</summary>
    /// <exception cref="BrokenException">They are not.</exception>
    public static void Equal<T>(T expected, T actual, string what)
    {
        if (!EqualityComparer<T>.Default.Equals(expected, actual)) throw new BrokenException(what, FirstDifference($"{expected}", $"{actual}"));
    }

    private static string FirstDifference(string expected, string actual)
    {
        const int around = 120;
        var at = expected.AsSpan().CommonPrefixLength(actual);
        string Part(string text) => text[Math.Max(0, at - around)..Math.Min(text.Length, at + around)];
        return $"at {at}: \"{Part(expected)}\" and \"{Part(actual)}\"";
    }
}
