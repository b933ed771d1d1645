namespace WaterScript.Syntax;

/// <summary>The days of the week as people write them.</summary>
internal static class Weekdays
{
    private static readonly string[] Words = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];

    /// <summary>Whether a word is a day of the week as the language writes it.</summary>
    public static bool IsOne(string word) => Array.IndexOf(Words, word) >= 0;
}
