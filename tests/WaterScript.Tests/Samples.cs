using System.Globalization;
using FsCheck.Xunit;

namespace WaterScript.Tests;

/// <summary>
/// How many random inputs a test tries. One setting decides for all: <c>WATERSCRIPT_SAMPLES</c>, a percentage. A newcomer's run takes one in twenty,
/// so that it is over while one waits; <c>.ci/run</c> takes all.
/// </summary>
internal static class Samples
{
    /// <summary>The setting.</summary>
    public const string Setting = "WATERSCRIPT_SAMPLES";

    private const int Usual = 5;

    private static readonly int Percent = Environment.GetEnvironmentVariable(Setting) is { Length: > 0 } text
        ? int.Parse(text, CultureInfo.InvariantCulture) : Usual;

    /// <summary>Whether everything is tried, so that a test may ask that rare things were seen.</summary>
    public static bool AreAll => Percent >= 100;

    /// <summary>The part of a number of inputs that is tried now; at least one.</summary>
    public static int Of(int all) => Math.Max(1, (int)((long)all * Percent / 100));

    /// <summary>A part of a list that differs from call to call: one in twenty, say, with other ones for other numbers.</summary>
    public static IEnumerable<T> Some<T>(IReadOnlyList<T> all, int number)
    {
        var step = Math.Max(1, all.Count / Of(all.Count));
        return all.Where((_, index) => index % step == number % step);
    }

    /// <summary>The first batches of several; at least one.</summary>
    public static IEnumerable<int> Batches(int all) => Enumerable.Range(0, Of(all));

    /// <summary>
    /// How large a batch is: whole where all samples are tried, else a sixth, because one of several may be more than the part that is asked for.
    /// </summary>
    public static int OfBatch(int whole) => AreAll ? whole : Math.Max(1, whole / 6);
}

/// <summary>A property that is tried on a part of its inputs; a failure prints the seed that shows it again.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class SampledPropertyAttribute : PropertyAttribute
{
    /// <param name="all">How many inputs the whole is.</param>
    public SampledPropertyAttribute(int all) => MaxTest = Samples.Of(all);
}
