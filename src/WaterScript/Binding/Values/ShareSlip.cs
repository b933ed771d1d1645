using System.Globalization;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>A share that is written without its %.</summary>
internal static class ShareSlip
{
    /// <summary>Reports it: 0.8 is taken for 80 %.</summary>
    /// <param name="scope">Where findings go.</param>
    /// <param name="number">The number as written.</param>
    /// <param name="value">Its value.</param>
    public static void Report(Scope scope, Location number, decimal value)
    {
        var percent = value is > 0 and <= 1 ? (value * 100).ToString("0.####", CultureInfo.InvariantCulture) + " %" : number.Text + " %";
        scope.Report(Finding.At(ReadingRules.OutOfRange, number, $"{number.Text} is not a share in per cent") with
        {
            Help = $"Write `{percent}`.",
            Fix = Fix.Unsafe($"write `{percent}`", number, percent),
        });
    }
}
