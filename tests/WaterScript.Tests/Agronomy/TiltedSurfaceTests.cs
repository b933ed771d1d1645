using WaterScript.Agronomy;
using Xunit;

namespace WaterScript.Tests.Agronomy;

/// <summary>Sun on a panel.</summary>
public class TiltedSurfaceTests
{
    private const double Degree = Math.PI / 180;

    /// <summary>
    /// Duffie and Beckman, Solar Engineering of Thermal Processes, example of monthly radiation on a tilted surface: Madison, 43° N, January with its mean day
    /// 17, tilt 60°, 6.44 MJ/m² on level ground, ground covered with snow (0.7). Printed: 13.7; from memory.
    /// </summary>
    [Fact]
    public void A_published_example_comes_out_as_printed() =>
        Assert.Equal(13.7, TiltedSurface.Radiation(43 * Degree, 17, 60 * Degree, 6.44, albedo: 0.7), tolerance: 0.05);

    /// <summary>The same with other numbers, worked out with another program: the mean day of the project, and a tenth of a degree further north.</summary>
    [Theory]
    [InlineData(43.0, 17, 13.67)]
    [InlineData(43.0, 15, 13.95)]
    [InlineData(43.1, 17, 13.74)]
    public void It_comes_out_as_worked_out(double latitude, int day, double expected) =>
        Assert.Equal(expected, TiltedSurface.Radiation(latitude * Degree, day, 60 * Degree, 6.44, albedo: 0.7), tolerance: 0.005);

    [Theory]
    [InlineData(43.0)]
    [InlineData(-33.9)]
    public void Flat_on_the_ground_it_is_that_of_level_ground(double latitude) =>
        Assert.Equal(20, TiltedSurface.Radiation(latitude * Degree, 166, 0, 20), tolerance: 1e-9);

    /// <summary>Half a year apart the south has what the north has, but for the distance to the sun, which is not in the ratio of the two beams.</summary>
    [Fact]
    public void A_panel_in_the_south_leans_to_the_north()
    {
        var north = TiltedSurface.BeamRatio(34 * Degree, -0.4, 40 * Degree);
        Assert.InRange(north, 1.7, 3);
        Assert.True(TiltedSurface.Radiation(-34 * Degree, 172, 40 * Degree, 8) > 8);
        Assert.True(TiltedSurface.Radiation(-34 * Degree, 355, 40 * Degree, 25) < 25);
    }

    /// <summary>The beam on both surfaces, added up minute by minute from the angle between the sun and the normal of each.</summary>
    [Fact]
    public void The_ratio_of_the_beams_is_that_of_their_sums_over_the_day()
    {
        foreach (var latitude in (int[])[0, 8, 23, 40, 52, 60, 66, 75])
        {
            foreach (var tilt in (int[])[0, 15, 35, 60, 90])
            {
                foreach (var declination in (double[])[-23.4, -10, 0, 12, 23.4])
                {
                    if (90 - Math.Abs(latitude - declination) < 5) continue;
                    var expected = Summed(latitude * Degree, declination * Degree, tilt * Degree);
                    var ratio = TiltedSurface.BeamRatio(latitude * Degree, declination * Degree, tilt * Degree);
                    Assert.Equal(expected, ratio, tolerance: 0.002 * Math.Max(1, expected));
                }
            }
        }
    }

    /// <summary>Erbs, Klein and Duffie 1982, at the ends of both seasons; from memory.</summary>
    [Theory]
    [InlineData(80, 0.5, 0.391125)] // 1.391 − 1.780 + 1.04725 − 0.267125
    [InlineData(90, 0.5, 0.429125)] // 1.311 − 1.511 + 0.85675 − 0.227625
    [InlineData(90, 0.9, 0.154328)] // as 0.8: 1.311 − 2.4176 + 2.19328 − 0.932352
    [InlineData(90, 0.1, 0.663663)] // as 0.3: 1.311 − 0.9066 + 0.30843 − 0.049167
    public void The_share_of_the_sky_follows_its_equation(double sunset, double clearness, double expected) =>
        Assert.Equal(expected, TiltedSurface.DiffuseShare(sunset * Degree, clearness), tolerance: 1e-6);

    [Theory]
    [InlineData(66.4, 355, 0)]
    [InlineData(75, 15, 0)]
    [InlineData(-75, 172, 0)]
    public void With_the_sun_at_the_horizon_there_is_none(double latitude, int day, double expected) =>
        Assert.Equal(expected, TiltedSurface.Radiation(latitude * Degree, day, 60 * Degree, 1));

    private static double Summed(double latitude, double declination, double tilt)
    {
        var (level, tilted) = (0.0, 0.0);
        for (var minute = -720; minute < 720; minute++)
        {
            var hour = (minute + 0.5) * Math.PI / 720;
            var height = (Math.Sin(latitude) * Math.Sin(declination)) + (Math.Cos(latitude) * Math.Cos(declination) * Math.Cos(hour));
            if (height <= 0) continue;
            // The normal leans towards the equator: as level ground lies so much nearer to it.
            var onPanel = (Math.Sin(latitude - tilt) * Math.Sin(declination)) + (Math.Cos(latitude - tilt) * Math.Cos(declination) * Math.Cos(hour));
            (level, tilted) = (level + height, tilted + Math.Max(0, onPanel));
        }

        return tilted / level;
    }
}
