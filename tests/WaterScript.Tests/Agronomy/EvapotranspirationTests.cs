using WaterScript.Agronomy;
using WaterScript.Model;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Agronomy;

/// <summary>
/// Evapotranspiration against worked examples of Allen, Pereira, Raes and Smith, FAO Irrigation and Drainage Paper 56, Rome 1998. Where nothing
/// else is said, the value is printed there, with as many digits as here.
/// </summary>
public sealed class EvapotranspirationTests
{
    /// <summary>Example 2: at 1800 m.</summary>
    [Fact]
    public void Pressure_at_a_height()
    {
        Assert.Equal(81.8, Air.Pressure(1800), 1);
        Assert.Equal(0.054, Air.PsychrometricConstant(Air.Pressure(1800)), 3);
    }

    /// <summary>Example 3: 24.5 and 15 °C.</summary>
    [Fact]
    public void Vapour_pressure_of_saturated_air()
    {
        Assert.Equal(3.075, Air.SaturationPressure(24.5), 3);
        Assert.Equal(1.705, Air.SaturationPressure(15), 3);
        Assert.Equal(2.39, Air.MeanSaturationPressure(15, 24.5), 2);
    }

    /// <summary>Example 5: 18 and 25 °C, 82 and 54 %.</summary>
    [Fact]
    public void Vapour_pressure_from_humidity() => Assert.Equal(1.70, Air.VapourPressure(18, 25, 54, 82), 2);

    /// <summary>Example 8: 3 September at 20° S. Example 9 has the daylight.</summary>
    [Fact]
    public void Extraterrestrial_radiation_and_daylight()
    {
        const int day = 246;
        Assert.Equal(0.985, Radiation.InverseDistance(day), 3);
        Assert.Equal(0.120, Radiation.Declination(day), 3);
        Assert.Equal(1.527, Radiation.SunsetAngle(Radians(-20), day), 3);
        Assert.Equal(32.2, Radiation.Extraterrestrial(Radians(-20), day), 1);
        Assert.Equal(11.7, Radiation.Daylight(Radians(-20), day), 1);
    }

    /// <summary>Examples 10 and 11: Rio de Janeiro, 22°54′ S, 15 May, 7.1 h of sun; 25.1 and 19.1 °C, 2.1 kPa.</summary>
    [Fact]
    public void Solar_and_longwave_radiation()
    {
        var extraterrestrial = Radiation.Extraterrestrial(Radians(-22.9), 135);
        var daylight = Radiation.Daylight(Radians(-22.9), 135);
        var solar = Radiation.FromSunshine(7.1, daylight, extraterrestrial);
        Assert.Equal(25.1, extraterrestrial, 1);
        Assert.Equal(10.9, daylight, 1);
        Assert.Equal(14.5, solar, 1);
        Assert.Equal(3.5, Radiation.NetLongwave(19.1, 25.1, 2.1, solar, Radiation.ClearSky(0, extraterrestrial)), 1);
    }

    /// <summary>Example 13: Algiers, March 14.1, April 16.1, May 18.8 °C (from memory of the example).</summary>
    [Fact]
    public void Heat_into_the_ground() => Assert.Equal(0.33, ReferenceEvapotranspiration.SoilHeatOfMonth(14.1, 16.1, 18.8), 2);

    /// <summary>Example 14: 3.2 m/s at 10 m.</summary>
    [Fact]
    public void Wind_at_two_metres()
    {
        Assert.Equal(2.4, Air.WindAtTwoMetres(3.2, 10), 1);
        Assert.Equal(3.2, Air.WindAtTwoMetres(3.2, 2), 2);
    }

    /// <summary>Example 17: Bangkok, April.</summary>
    [Fact]
    public void Penman_Monteith_of_a_month()
    {
        var extraterrestrial = Radiation.Extraterrestrial(Radians(13.0 + (44 / 60.0)), 105);
        var daylight = Radiation.Daylight(Radians(13.0 + (44 / 60.0)), 105);
        var solar = Radiation.FromSunshine(8.5, daylight, extraterrestrial);
        var net = Radiation.Net(solar, Radiation.NetLongwave(25.6, 34.8, 2.85, solar, Radiation.ClearSky(2, extraterrestrial)));
        var soilHeat = ReferenceEvapotranspiration.SoilHeatOfMonth(29.2, 30.2, null);
        Assert.Equal(14.33, net, 2);
        Assert.Equal(0.14, soilHeat, 2);
        Assert.Equal(5.72, ReferenceEvapotranspiration.PenmanMonteith(25.6, 34.8, 2.85, 2, net, soilHeat, 2), 2);
    }

    /// <summary>Example 18: Uccle, 6 July; the wind was measured at 10 m.</summary>
    [Fact]
    public void Penman_Monteith_of_a_day()
    {
        var extraterrestrial = Radiation.Extraterrestrial(Radians(50.8), 187);
        var solar = Radiation.FromSunshine(9.25, Radiation.Daylight(Radians(50.8), 187), extraterrestrial);
        var vapour = Air.VapourPressure(12.3, 21.5, 63, 84);
        var net = Radiation.Net(solar, Radiation.NetLongwave(12.3, 21.5, vapour, solar, Radiation.ClearSky(100, extraterrestrial)));
        var wind = Air.WindAtTwoMetres(10 / 3.6, 10);
        Assert.Equal(41.09, extraterrestrial, 2);
        Assert.Equal(22.07, solar, 2);
        Assert.Equal(13.28, net, 2);
        Assert.Equal(3.9, ReferenceEvapotranspiration.PenmanMonteith(12.3, 21.5, vapour, wind, net, soilHeat: 0, 100), 1);
    }

    /// <summary>Example 20: Lyon, 45°43′ N, 200 m, July, from temperatures alone (from memory of the example: 4.56 and 5.0 mm/day).</summary>
    [Fact]
    public void From_temperatures_alone()
    {
        var extraterrestrial = Radiation.Extraterrestrial(Radians(45.0 + (43 / 60.0)), 196);
        var clearSky = Radiation.ClearSky(200, extraterrestrial);
        var solar = Radiation.FromTemperatures(14.8, 26.6, Radiation.Inland, extraterrestrial, clearSky);
        var vapour = Air.VapourPressure(14.8);
        var net = Radiation.Net(solar, Radiation.NetLongwave(14.8, 26.6, vapour, solar, clearSky));
        Assert.Equal(22.3, solar, 1);
        Assert.Equal(4.6, ReferenceEvapotranspiration.PenmanMonteith(14.8, 26.6, vapour, Air.UsualWind, net, soilHeat: 0, 200), 1);
        Assert.Equal(5.0, ReferenceEvapotranspiration.Hargreaves(14.8, 26.6, extraterrestrial), 1);
    }

    /// <summary>Table 2.6 of Annex 2: 20° N on the 15th of each month, to 0.1.</summary>
    [Fact]
    public void Extraterrestrial_radiation_of_the_table()
    {
        int[] days = [15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349];
        double[] printed = [26.8, 30.6, 34.7, 37.9, 39.3, 39.5, 39.3, 38.3, 35.8, 31.8, 27.7, 25.6];
        Assert.All(days.Zip(printed), pair => Assert.InRange(Radiation.Extraterrestrial(Radians(20), pair.First), pair.Second - 0.1, pair.Second + 0.1));
    }

    [Theory]
    [InlineData(80, 355, 0)]
    [InlineData(80, 172, 24)]
    [InlineData(-80, 172, 0)]
    [InlineData(0, 80, 12)]
    public void The_sun_may_not_rise_or_not_set(double latitude, int day, double hours)
    {
        Assert.Equal(hours, Radiation.Daylight(Radians(latitude), day), 6);
        Assert.True(Radiation.Extraterrestrial(Radians(latitude), day) >= -1e-9);
        Assert.True(double.IsFinite(Radiation.NetLongwave(-30, -20, 0.05, solar: 0, Radiation.ClearSky(0, hours == 0 ? 0 : 30))));
    }

    [Fact]
    public void Hard_frost_evaporates_nothing()
    {
        Assert.Equal(0, ReferenceEvapotranspiration.Hargreaves(-40, -30, 5));
        Assert.Equal(0, ReferenceEvapotranspiration.PenmanMonteith(-20, -15, Air.VapourPressure(-20), 0, netRadiation: -3, soilHeat: 0, 0));
    }

    /// <summary>Brouwer and Heibloem, FAO Training Manual 3, 1986 (from memory): 0.8 P − 25 above 75 mm a month, else 0.6 P − 10.</summary>
    [Theory]
    [InlineData(0, 0)]
    [InlineData(16, 0)]
    [InlineData(20, 2)]
    [InlineData(75, 35)]
    [InlineData(100, 55)]
    public void Effective_rain(decimal rain, decimal effective) => Assert.Equal(effective, EffectiveRain.OfMonth(rain));

    /// <summary>
    /// The month of example 17 as a file gives it: the heat of the ground from the months beside it, the vapour of the humidity, the rest assumed where it is
    /// not given.
    /// </summary>
    [Theory]
    [InlineData("apr 25.6 C to 34.8 C", EtMethod.Hargreaves, 0)]
    [InlineData("apr 25.6 C to 34.8 C, sun 8.5 h/day", EtMethod.PenmanMonteith, 2)]
    [InlineData("apr 25.6 C to 34.8 C, sun 8.5 h/day, wind 2 m/s, humidity 55 % to 75 %", EtMethod.PenmanMonteith, 0)]
    [InlineData("apr 25.6 C to 34.8 C, humidity 55 % to 75 %, wind 10 km/h at 10 m", EtMethod.PenmanMonteith, 1)]
    [InlineData("apr et 5.72 mm/day", EtMethod.Given, 0)]
    public void A_month_is_calculated_from_what_is_given(string line, object method, int assumed)
    {
        var weather = Assert.Single(MonthWeather.YearOf(SiteWith($"climate {{ {line}, rain 64.9 mm }}")).OfType<MonthWeather>());
        Assert.Equal((4, (EtMethod)method, 64.9m, assumed), (weather.Month, weather.Method, weather.Rain, weather.Assumed.Length));
        Assert.InRange(weather.Et, 4.5m, 6.5m);
    }

    [Fact]
    public void Months_beside_give_the_heat_of_the_ground()
    {
        const string april = "apr 25.6 C to 34.8 C, sun 8.5 h/day, wind 2 m/s, humidity 55 % to 75 %";
        decimal Of(string others) => MonthWeather.YearOf(SiteWith($"climate {{ {others}{april} }}"))[3]!.Et;
        Assert.True(Of("mar 24 C to 34.4 C; ") < Of("") && Of("") < Of("mar 26 C to 36 C; may 20 C to 30 C; "));
    }

    /// <summary>
    /// Colville, Washington State University Extension: shares of April to October by a printed table; the demand in mm/day is made to fit them, so this holds
    /// the arithmetic alone.
    /// </summary>
    [Fact]
    public void Shares_of_the_peak_month()
    {
        var site = SiteWith("climate { apr et 3.32 mm/day; may et 4.42 mm/day; jun et 5.13 mm/day; jul et 6.5 mm/day; aug et 5.98 mm/day; sep et 4.09 mm/day; "
            + "oct et 2.02 mm/day }");
        Assert.Equal("   51 68 79 100 92 63 31  ", string.Join(' ', CropDemand.Shares(site.Zones, MonthWeather.YearOf(site))));
    }

    /// <summary>
    /// Worked out: July 6 · 0.95 = 5.7 mm/day; May 4 · 0.95 − (0.8 · 100 − 25) / 31 = 2.0258; a tomato bed beside it has 6 · 1.15 = 6.9 and 2.8258.
    /// </summary>
    [Theory]
    [InlineData("plants turf-cool", "", 36)]
    [InlineData("plants tomato", "", 41)]
    [InlineData("plants turf-cool", "plants tomato", 39)]
    [InlineData("plants turf-cool", "soil loam", 36)]
    [InlineData("soil loam", "", 37)]
    public void Rain_counts_and_each_zone_has_its_plants(string first, string second, decimal may)
    {
        var site = SiteWith(
            $"climate {{ may et 4 mm/day, rain 100 mm; jul et 6 mm/day, rain 10 mm }}\nzone d {{ output 4; {first} }}\nzone e {{ output 5; {second} }}");
        var shares = CropDemand.Shares(site.Zones.Where(zone => zone.Name is "d" or "e"), MonthWeather.YearOf(site));
        Assert.Equal((may, 100m), (shares[4], shares[6]));
    }

    private static Site SiteWith(string blocks) =>
        Expect.Fine(blocks, "site s { timezone Asia/Bangkok; effective 2026-03-01; location 13.7333 N 100.5 E 2 m }\nzone a { output 1 }\n").Site!;

    private static double Radians(double degrees) => degrees * Math.PI / 180;
}
