using WaterScript.Calendars;
using Xunit;

namespace WaterScript.Tests.Calendars;

/// <summary>
/// Each coefficient of the sun, on days near and far from 2000: worked out to 30 digits with mpmath, a library for Python, from the coefficients of
/// Jean Meeus, Astronomical Algorithms, 2nd ed. 1998, chapters 12, 13, 22 and 25. For 13 October 1992 his example 25.a has a declination of −7.78507°
/// (from memory).
/// </summary>
public class SunPositionTests
{
    [Theory]
    [InlineData(718_934_400, 0, 90, -176.575119590886, -0.135457397509345)] // 1992-10-13 00:00; at the pole the altitude is the declination
    [InlineData(718_934_400, 0, 0, -176.575119590886, -0.989013613511905)]
    [InlineData(1_782_045_296, -8.1, 39.6, 0.174925463844617, 0.960475330866454)] // 2026-06-21 12:34:56
    [InlineData(3_789_612_000, 151.2, -33.9, 57.8401168902192, 0.585172718562289)] // 2090-02-01 06:00
    public void Its_place_in_the_sky(long instant, double longitude, double latitude, double hourAngle, double sineOfAltitude)
    {
        var (sine, cosine) = Math.SinCos(latitude * Math.PI / 180);
        var sun = SunPosition.At(instant, longitude, sine, cosine);
        Assert.Equal(hourAngle, sun.HourAngle, 8);
        Assert.Equal(sineOfAltitude, sun.SineOfAltitude, 10);
    }

    [Fact]
    public void Its_declination_in_a_printed_example() =>
        Assert.Equal(-7.78507, Math.Asin(SunPosition.At(718_934_400, 0, 1, 0).SineOfAltitude) * 180 / Math.PI, 5);
}
