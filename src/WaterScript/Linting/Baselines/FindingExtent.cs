using System.Globalization;
using WaterScript.Diagnostics;

namespace WaterScript.Linting.Baselines;

/// <summary>How bad a finding is, to be compared with the same finding of another day.</summary>
/// <param name="Times">How often it happens; 1 for what does not happen in time.</param>
/// <param name="Excess">How far it is beyond its limit, or what it comes to, in a unit of its rule; 0 for what cannot be more or less.</param>
internal readonly record struct FindingExtent(long Times, decimal Excess)
{
    private const int Digits = 6;

    /// <summary>Of many times as many more as another first date may bring: one in so many.</summary>
    private const int OneIn = 20;

    /// <summary>What rounding may add.</summary>
    private const decimal Rounding = 0.0001m;

    /// <summary>That of a finding.</summary>
    public static FindingExtent Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return new FindingExtent(finding.Happens?.Times ?? 1, Rounded(finding.Excess ?? finding.Happens?.Worst ?? 0, Digits));
    }

    /// <summary>Whether it is no worse than another.</summary>
    public bool IsWithin(FindingExtent other) =>
        Times <= other.Times + (other.Times / OneIn) && Excess <= other.Excess + (Math.Abs(other.Excess) * Rounding) + Rounding;

    /// <summary>Roughly how bad: the first digit of the excess, and the times to a power of two.</summary>
    public string Band => string.Create(CultureInfo.InvariantCulture, $"{long.Log2(Math.Max(Times, 1))}\n{Rounded(Excess, 1)}");

    /// <summary>A number to so many digits that count.</summary>
    private static decimal Rounded(decimal number, int digits)
    {
        if (number == 0) return 0;
        var scale = 1m;
        while (Math.Abs(number) / scale >= 10) scale *= 10;
        while (Math.Abs(number) / scale < 1 && scale > 0.000001m) scale /= 10;
        return Math.Round(number / scale, digits - 1, MidpointRounding.AwayFromZero) * scale;
    }
}
