using System.Globalization;

namespace WaterScript.Mutation.Driving;

/// <summary>How many mutants are noticed.</summary>
/// <param name="Noticed">Of those tried.</param>
/// <param name="Tried">Those tried.</param>
/// <param name="All">Those there are.</param>
internal readonly record struct Score(int Noticed, int Tried, int All)
{
    /// <summary>
    /// The range in which the share of all lies with 95 %: that of Wilson, narrower by the root of the share that was not tried (W. G. Cochran,
    /// Sampling Techniques, 3rd edition, 1977, chapter 2.6, on finite populations).
    /// </summary>
    public (double Least, double Most) Range
    {
        get
        {
            const double z = 1.96;
            var (n, share) = (Tried, (double)Noticed / Tried);
            var correction = All > 1 ? Math.Sqrt((double)(All - Tried) / (All - 1)) : 0;
            var middle = (share + (z * z / (2 * n))) / (1 + (z * z / n));
            var half = z / (1 + (z * z / n)) * Math.Sqrt((share * (1 - share) / n) + (z * z / (4.0 * n * n)));
            return (Math.Max(0, share + ((middle - half - share) * correction)), Math.Min(1, share + ((middle + half - share) * correction)));
        }
    }

    public override string ToString()
    {
        if (Tried == 0) return "none tried";
        var share = string.Create(CultureInfo.InvariantCulture, $"{Noticed} of {Tried} noticed, {100.0 * Noticed / Tried:0.0} %");
        var (least, most) = Range;
        return Tried == All ? share : string.Create(CultureInfo.InvariantCulture, $"{share}; of all {All}, {100 * least:0.0} to {100 * most:0.0} %");
    }
}
