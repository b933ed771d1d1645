using WaterScript.Agronomy;
using Xunit;

namespace WaterScript.Tests.Agronomy;

/// <summary>Each cell of the built-in soils, against the tables that they come from; a wrong number in one place is seen here.</summary>
public sealed class SoilTableTests
{
    /// <summary>
    /// Irrigation Association, Landscape Irrigation Scheduling and Water Management, 2005 (from memory): basic intake in in/h, and what may stand in in
    /// on slopes of 0–3, 4–6, 7–12 and 13 % or more; seven textures. FAO Irrigation and Drainage Paper 56, table 19 (from memory): field capacity less
    /// wilting point, least and most, in m³/m³. The textures that only one of them has take the row of the next heavier one.
    /// </summary>
    [Theory]
    [InlineData("sand", 0.60, 0.40, 0.35, 0.30, 0.25, 0.05, 0.11)]
    [InlineData("loamy-sand", 0.50, 0.36, 0.30, 0.26, 0.22, 0.06, 0.12)]
    [InlineData("sandy-loam", 0.40, 0.33, 0.29, 0.24, 0.20, 0.11, 0.15)]
    [InlineData("loam", 0.35, 0.30, 0.25, 0.21, 0.17, 0.13, 0.18)]
    [InlineData("silt-loam", 0.20, 0.26, 0.22, 0.18, 0.15, 0.13, 0.19)]
    [InlineData("silt", 0.20, 0.26, 0.22, 0.18, 0.15, 0.16, 0.20)]
    [InlineData("clay-loam", 0.20, 0.26, 0.22, 0.18, 0.15, 0.13, 0.18)]
    [InlineData("silty-clay-loam", 0.20, 0.26, 0.22, 0.18, 0.15, 0.13, 0.18)]
    [InlineData("silty-clay", 0.15, 0.23, 0.19, 0.16, 0.13, 0.13, 0.19)]
    [InlineData("clay", 0.10, 0.20, 0.15, 0.10, 0.10, 0.12, 0.20)]
    public void Each_cell_is_that_of_the_table(
        string name, decimal intake, decimal flat, decimal gentle, decimal moderate, decimal steep, decimal least, decimal most)
    {
        var soil = SoilTable.All.Single(known => known.Name == name);
        decimal[] slopes = [0, 3, 3.001m, 6, 6.001m, 12, 12.001m, 100];
        decimal[] ponds = [flat, flat, gentle, gentle, moderate, moderate, steep, steep];
        Assert.Equal(intake * 25.4m, soil.Intake!.Value.InBase);
        Assert.Equal([.. ponds.Select(inches => inches * 25.4m)], slopes.Select(slope => soil.PondsOn(slope)!.Value.InBase));
        Assert.Equal((least + most) / 2 * 1000, soil.Holds!.Value.InBase);
    }

    [Fact]
    public void There_is_no_other_row() => Assert.Equal(10, SoilTable.All.Length);
}
