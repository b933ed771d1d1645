using WaterScript.Model;
using WaterScript.Quantities;
using Xunit;

namespace WaterScript.Tests.Quantities;

/// <summary>
/// The water between two pressures: by Boyle's law p · V is constant for the air, so a tank of V litres filled to the lower pressure gives
/// V · (1 − p_in / p_out), both absolute. Worked out from the law, with 1.01325 bar of air; 1 psi is 6.894757 kPa (NIST SP 811).
/// </summary>
public sealed class PressureTankTests
{
    [Theory]
    [InlineData(24, 2, 3.5, "bar", 7.977)]
    [InlineData(24, 200, 350, "kPa", 7.977)]
    [InlineData(76, 20, 40, "psi", 27.790)]
    [InlineData(100, 0, 1.01325, "bar", 50)]
    public void What_it_gives_follows_from_Boyles_law(decimal litres, decimal cutIn, decimal cutOut, string unit, decimal usable) =>
        Assert.Equal(usable, decimal.Round(Tank(litres, cutIn, cutOut, unit).UsableLitres!.Value, 3));

    [Fact]
    public void Without_pressures_it_is_not_known() =>
        Assert.Null(new PressureTank(Of(24, "L"), CutIn: null, CutOut: null).UsableLitres);

    private static PressureTank Tank(decimal litres, decimal cutIn, decimal cutOut, string unit) => new(Of(litres, "L"), Of(cutIn, unit), Of(cutOut, unit));

    private static Quantity Of(decimal value, string unit) => new(value, Units.Find(unit)!);
}
