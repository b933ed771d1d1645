using WaterScript.Agronomy;
using WaterScript.Model;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Agronomy;

/// <summary>
/// Evapotranspiration against worked examples of Allen, Pereira, Raes and Smith, FAO Irrigation and Drainage Paper 56, Rome 1998. Values that are printed
/// there round their steps; the digits here are those of the equations, worked out to 25 digits with mpmath, a library for Python, so that each
/// coefficient shows. Where nothing else is said, the printed value is second-hand: that of the example in the tests of MeTo, a package for R.
/// </summary>
public sealed class EvapotranspirationTests
{
    /// <summary>Example 2: at 1800 m, printed 81.8 and 0.054.</summary>
    [Fact]
    public void Pressure_at_a_height()
    {
        Assert.Equal(81.7557964076, Air.Pressure(1800), 9);
        Assert.Equal(0.0543676046111, Air.PsychrometricConstant(Air.Pressure(1800)), 12);
    }

    /// <summary>Example 3: 24.5 and 15 °C, printed 3.075, 1.705 and 2.39; the slope is that at 20.7 °C.</summary>
    [Fact]
    public void Vapour_pressure_of_saturated_air()
    {
        Assert.Equal(3.07464905088, Air.SaturationPressure(24.5), 10);
        Assert.Equal(1.70534623212, Air.SaturationPressure(15), 10);
        Assert.Equal(2.3899976415, Air.MeanSaturationPressure(15, 24.5), 8);
        Assert.Equal(0.150313184084, Air.SlopeOfSaturation(20.7), 11);
    }

    /// <summary>Example 5: 18 and 25 °C, 82 and 54 %, printed 1.70.</summary>
    [Fact]
    public void Vapour_pressure_from_humidity() => Assert.Equal(1.70153555682, Air.VapourPressure(18, 25, 54, 82), 10);

    /// <summary>Example 8: 3 September at 20° S, printed 0.985, 0.120, 1.527 and 32.2. Example 9 has the daylight, 11.7.</summary>
    [Fact]
    public void Extraterrestrial_radiation_and_daylight()
    {
        const int day = 246;
        Assert.Equal(0.984828819598, Radiation.InverseDistance(day), 11);
        Assert.Equal(0.119655092697, Radiation.Declination(day), 11);
        Assert.Equal(1.52702241483, Radiation.SunsetAngle(Radians(-20), day), 10);
        Assert.Equal(32.1939958751, Radiation.Extraterrestrial(Radians(-20), day), 9);
        Assert.Equal(11.6655919456, Radiation.Daylight(Radians(-20), day), 9);
    }

    /// <summary>Examples 10 and 11: Rio de Janeiro, 22°54′ S, 15 May, 7.1 h of sun; 25.1 and 19.1 °C, 2.1 kPa; printed 25.1, 10.9, 14.5 and 3.5.</summary>
    [Fact]
    public void Solar_and_longwave_radiation()
    {
        var extraterrestrial = Radiation.Extraterrestrial(Radians(-22.9), 135);
        var daylight = Radiation.Daylight(Radians(-22.9), 135);
        var solar = Radiation.FromSunshine(7.1, daylight, extraterrestrial);
        Assert.Equal(25.1110277661, extraterrestrial, 9);
        Assert.Equal(10.895075611, daylight, 9);
        Assert.Equal(14.4598156763, solar, 9);
        Assert.Equal(3.50990325588, Radiation.NetLongwave(19.1, 25.1, 2.1, solar, Radiation.ClearSky(0, extraterrestrial)), 10);
        Assert.Equal(11.1340580708, Radiation.NetShortwave(solar), 9);
    }

    /// <summary>Example 13: Algiers, March 14.1, April 16.1, May 18.8 °C (from memory of the example, which prints 0.33).</summary>
    [Fact]
    public void Heat_into_the_ground() => Assert.Equal(0.329, ReferenceEvapotranspiration.SoilHeatOfMonth(14.1, 16.1, 18.8), 12);

    /// <summary>Worked out from eq. 44: 0.14 · (30.2 − 27.7).</summary>
    [Fact]
    public void Heat_into_the_ground_from_the_month_before_alone() =>
        Assert.Equal(0.35, ReferenceEvapotranspiration.SoilHeatOfMonth(27.7, 30.2, null), 12);

    /// <summary>Example 14: 3.2 m/s at 10 m, printed 2.4.</summary>
    [Fact]
    public void Wind_at_two_metres()
    {
        Assert.Equal(2.39344344054, Air.WindAtTwoMetres(3.2, 10), 10);
        Assert.Equal(3.200711052, Air.WindAtTwoMetres(3.2, 2), 9);
        Assert.Equal(2, Air.UsualWind);
    }

    /// <summary>Example 17: Bangkok, April, printed 14.33, 0.14 and 5.72.</summary>
    [Fact]
    public void Penman_Monteith_of_a_month()
    {
        var extraterrestrial = Radiation.Extraterrestrial(Radians(13.0 + (44 / 60.0)), 105);
        var daylight = Radiation.Daylight(Radians(13.0 + (44 / 60.0)), 105);
        var solar = Radiation.FromSunshine(8.5, daylight, extraterrestrial);
        var net = Radiation.Net(solar, Radiation.NetLongwave(25.6, 34.8, 2.85, solar, Radiation.ClearSky(2, extraterrestrial)));
        var soilHeat = ReferenceEvapotranspiration.SoilHeatOfMonth(29.2, 30.2, null);
        Assert.Equal(14.332664431, net, 8);
        Assert.Equal(0.14, soilHeat, 12);
        Assert.Equal(5.71612460781, ReferenceEvapotranspiration.PenmanMonteith(25.6, 34.8, 2.85, 2, net, soilHeat, 2), 9);
    }

    /// <summary>Example 18: Uccle, 6 July; the wind was measured at 10 m. Printed 41.09, 22.07, 13.28 and 3.9.</summary>
    [Fact]
    public void Penman_Monteith_of_a_day()
    {
        var extraterrestrial = Radiation.Extraterrestrial(Radians(50.8), 187);
        var solar = Radiation.FromSunshine(9.25, Radiation.Daylight(Radians(50.8), 187), extraterrestrial);
        var vapour = Air.VapourPressure(12.3, 21.5, 63, 84);
        var net = Radiation.Net(solar, Radiation.NetLongwave(12.3, 21.5, vapour, solar, Radiation.ClearSky(100, extraterrestrial)));
        var wind = Air.WindAtTwoMetres(10 / 3.6, 10);
        Assert.Equal(41.0883755635, extraterrestrial, 9);
        Assert.Equal(22.0720516144, solar, 9);
        Assert.Equal(13.2831851726, net, 9);
        Assert.Equal(3.88025944711, ReferenceEvapotranspiration.PenmanMonteith(12.3, 21.5, vapour, wind, net, soilHeat: 0, 100), 9);
    }

    /// <summary>
    /// Example 20: Lyon, 45°43′ N, 200 m, July, from temperatures alone; by the sea the coefficient is 0.19 (from memory of the example: 4.56 and 5.0 mm/day).
    /// </summary>
    [Fact]
    public void From_temperatures_alone()
    {
        var extraterrestrial = Radiation.Extraterrestrial(Radians(45.0 + (43 / 60.0)), 196);
        var clearSky = Radiation.ClearSky(200, extraterrestrial);
        var solar = Radiation.FromTemperatures(14.8, 26.6, Radiation.Inland, extraterrestrial, clearSky);
        var vapour = Air.VapourPressure(14.8);
        var net = Radiation.Net(solar, Radiation.NetLongwave(14.8, 26.6, vapour, solar, clearSky));
        Assert.Equal(22.2896350546, solar, 9);
        Assert.Equal(4.56043926532, ReferenceEvapotranspiration.PenmanMonteith(14.8, 26.6, vapour, Air.UsualWind, net, soilHeat: 0, 200), 9);
        Assert.Equal(5.03305531941, ReferenceEvapotranspiration.Hargreaves(14.8, 26.6, extraterrestrial), 9);
        Assert.Equal(26.4689416273, Radiation.FromTemperatures(14.8, 26.6, Radiation.Coast, extraterrestrial, clearSky), 9);
    }

    /// <summary>Table 2.6 of Annex 2: 20° N on the 15th of each month, to 0.1 (noted, not read again).</summary>
    [Fact]
    public void Extraterrestrial_radiation_of_the_table()
    {
        int[] days = [15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349];
        double[] table = [26.8, 30.6, 34.7, 37.9, 39.3, 39.5, 39.3, 38.3, 35.8, 31.8, 27.7, 25.6];
        Assert.All(days.Zip(table), pair => Assert.InRange(Radiation.Extraterrestrial(Radians(20), pair.First), pair.Second - 0.1, pair.Second + 0.1));
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

    /// <summary>Equation 39 with the middle of 0.4 to 0.6 where the sun does not rise; more sun than a clear day has counts as a clear day.</summary>
    [Fact]
    public void Longwave_radiation_without_sun_and_with_too_much()
    {
        Assert.Equal(1.87007336638, Radiation.NetLongwave(-30, -20, 0.05, solar: 0, clearSky: 0), 10);
        Assert.Equal(Radiation.NetLongwave(10, 20, 1, solar: 20, clearSky: 20), Radiation.NetLongwave(10, 20, 1, solar: 30, clearSky: 20), 12);
        Assert.Equal(Radiation.FromSunshine(12, 12, 30), Radiation.FromSunshine(13, 12, 30), 12);
        Assert.Equal(0.75 * 30, Radiation.FromSunshine(12, 12, 30), 12);
        Assert.Equal(0, Radiation.FromSunshine(0, 0, 0));
        // A short polar day and a dim clear sky are still what they are: half an hour of half an hour, 0.5 of 0.5.
        Assert.Equal(0.75 * 3, Radiation.FromSunshine(0.5, 0.5, 3), 12);
        Assert.Equal(Radiation.NetLongwave(10, 20, 1, solar: 20, clearSky: 20), Radiation.NetLongwave(10, 20, 1, solar: 0.5, clearSky: 0.5), 12);
        Assert.Equal(10, Radiation.FromTemperatures(0, 36, Radiation.Inland, 30, clearSky: 10), 12);
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
    [InlineData(74.9, 34.94)]
    [InlineData(75, 35)]
    [InlineData(75.1, 35.08)]
    [InlineData(100, 55)]
    public void Effective_rain(decimal rain, decimal effective) => Assert.Equal(effective, EffectiveRain.OfMonth(rain));

    /// <summary>
    /// The month of example 17 as a file gives it: the heat of the ground from the months beside it, the vapour of the humidity, the rest assumed where it is
    /// not given. The values are worked out by a second program that was written from the equations alone, and rounded to four decimals.
    /// </summary>
    [Theory]
    [InlineData("apr 25.6 C to 34.8 C", EtMethod.Hargreaves, 0, 5.1995)]
    [InlineData("apr 25.6 C to 34.8 C, sun 8.5 h/day", EtMethod.PenmanMonteith, 2, 5.4182)]
    [InlineData("apr 25.6 C to 34.8 C, sun 8.5 h/day, wind 2 m/s, humidity 55 % to 75 %", EtMethod.PenmanMonteith, 0, 5.8238)]
    [InlineData("apr 25.6 C to 34.8 C, humidity 55 % to 75 %, wind 10 km/h at 10 m", EtMethod.PenmanMonteith, 1, 5.2170)]
    [InlineData("coast; apr 25.6 C to 34.8 C, humidity 55 % to 75 %, wind 10 km/h at 10 m", EtMethod.PenmanMonteith, 1, 5.7550)]
    [InlineData("coast; apr 25.6 C to 34.8 C, sun 8.5 h/day", EtMethod.PenmanMonteith, 2, 5.4182)] // sunshine that is given needs no coast
    [InlineData("apr et 5.72 mm/day", EtMethod.Given, 0, 5.72)]
    public void A_month_is_calculated_from_what_is_given(string line, object method, int assumed, decimal et)
    {
        var weather = Assert.Single(MonthWeather.YearOf(SiteWith($"climate {{ {line}, rain 64.9 mm }}")).OfType<MonthWeather>());
        Assert.Equal((4, (EtMethod)method, 64.9m, assumed), (weather.Month, weather.Method, weather.Rain, weather.Assumed.Length));
        Assert.Equal(et, weather.Et);
    }

    /// <summary>What a file leaves out is said, in the order of the calculation; without a height it is that of the sea.</summary>
    [Theory]
    [InlineData("", "inland")]
    [InlineData("coast; ", "by the sea")]
    public void What_is_assumed_is_said(string coast, string where)
    {
        var climate = $"climate {{ {coast}apr 25.6 C to 34.8 C, wind 2 m/s }}";
        MonthWeather April(string height) => MonthWeather.YearOf(Expect.Fine(climate,
            $"site s {{ timezone Asia/Bangkok; effective 2026-03-01; location 13.7333 N 100.5 E{height} }}\nzone a {{ output 1 }}\n").Site!)[3]!;
        string[] assumed =
            ["humidity: dew falls at the mean minimum (FAO 56, eq. 48)", $"sunshine: from the temperatures, as {where} (FAO 56, eq. 50)"];
        Assert.Equal(assumed, April(" 0 m").Assumed);
        Assert.Equal((string[])["height: that of the sea", .. assumed], April("").Assumed);
        Assert.Equal(April(" 0 m").Et, April("").Et);
        Assert.NotEqual(April(" 0 m").Et, April(" 100 m").Et);
    }

    /// <summary>The same program, with G = 0.14 (30.2 − 29.2) and 0.07 (25 − 31).</summary>
    [Theory]
    [InlineData("", "", 5.8238)]
    [InlineData("mar 24 C to 34.4 C", "", 5.7847)]
    [InlineData("mar 26 C to 36 C", "may 20 C to 30 C", 5.9411)]
    public void Months_beside_give_the_heat_of_the_ground(string march, string may, decimal et)
    {
        const string numbers = ", sun 8.5 h/day, wind 2 m/s, humidity 55 % to 75 %";
        var lines = string.Join("; ", new[] { march, "apr 25.6 C to 34.8 C", may }.Where(line => line.Length > 0).Select(line => line + numbers));
        Assert.Equal(et, MonthWeather.YearOf(SiteWith($"climate {{ {lines} }}"))[3]!.Et);
    }

    /// <summary>
    /// One month with humidity beside one without: both by Hargreaves, 5.1424 and 5.1995 by the second program; with sunshine in both, by Penman–Monteith
    /// without the humidity of one, which leaves 5.4182 less the heat of the ground. A month that is given as it is does not count.
    /// </summary>
    [Theory]
    [InlineData("mar 24 C to 34.4 C; apr 25.6 C to 34.8 C, humidity 55 % to 75 %", EtMethod.Hargreaves, 5.1424, 5.1995)]
    [InlineData("mar 24 C to 34.4 C, sun 8 h/day, wind 3 m/s; apr 25.6 C to 34.8 C, humidity 55 % to 75 %", EtMethod.Hargreaves, 5.1424, 5.1995)]
    [InlineData("mar 24 C to 34.4 C, sun 8 h/day; apr 25.6 C to 34.8 C, sun 8.5 h/day, humidity 55 % to 75 %", EtMethod.PenmanMonteith, 5.1227, 5.3791)]
    [InlineData("mar et 4 mm/day; apr 25.6 C to 34.8 C, sun 8.5 h/day, wind 2 m/s, humidity 55 % to 75 %", EtMethod.PenmanMonteith, 4, 5.8238)]
    public void All_months_are_calculated_from_the_same_numbers(string months, object method, decimal march, decimal april)
    {
        var year = MonthWeather.YearOf(SiteWith($"climate {{ {months} }}"));
        Assert.Equal(((EtMethod)method, march, april), (year[3]!.Method, year[2]!.Et, year[3]!.Et));
    }

    /// <summary>
    /// By Hargreaves at 50.8° N, 15 to 25 °C in each month: what differs is the day of the year, the 15th of each month. Worked out with mpmath to 8 digits.
    /// </summary>
    [Fact]
    public void Each_month_has_the_sun_of_its_15th()
    {
        var months = string.Join("; ", Language.MonthNames.All.Select(month => $"{month} 15 C to 25 C"));
        var site = Expect.Fine($"climate {{ {months} }}",
            "site s { timezone Europe/Brussels; effective 2026-03-01; location 50.8 N 4.3 E 100 m }\nzone a { output 1 }\n").Site!;
        decimal[] expected = [0.9434m, 1.5662m, 2.4464m, 3.5035m, 4.3039m, 4.6752m, 4.5024m, 3.8268m, 2.8297m, 1.8356m, 1.0869m, 0.7896m];
        Assert.Equal(expected, MonthWeather.YearOf(site).Select(month => month!.Et));
    }

    /// <summary>Without a climate nothing is known of any of the twelve months.</summary>
    [Fact]
    public void A_site_without_a_climate_has_twelve_months_of_which_nothing_is_known() =>
        Assert.Equal(new MonthWeather?[12], MonthWeather.YearOf(SiteWith("")));

    /// <summary>Days of the months, February of four years: (3 · 28 + 29) / 4.</summary>
    [Fact]
    public void Each_month_has_its_days() =>
        Assert.Equal([31, 28.25m, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31], Enumerable.Range(1, 12).Select(CropDemand.DaysIn));

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
