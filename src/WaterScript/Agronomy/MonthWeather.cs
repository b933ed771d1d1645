using System.Collections.Immutable;
using WaterScript.Model;

namespace WaterScript.Agronomy;

/// <summary>How the reference evapotranspiration of a month is known.</summary>
internal enum EtMethod
{
    /// <summary>Given in the file.</summary>
    Given,

    /// <summary>Hargreaves, from temperatures alone.</summary>
    Hargreaves,

    /// <summary>FAO Penman–Monteith, from temperatures and at least one of humidity, wind and sunshine.</summary>
    PenmanMonteith,
}

/// <summary>What a month of the climate comes to.</summary>
/// <param name="Month">1 to 12.</param>
/// <param name="Et">Reference evapotranspiration, ETo, in mm/day, rounded to four decimals so that all machines calculate on from the same number.</param>
/// <param name="Method">How it is known.</param>
/// <param name="Rain">Rain of the whole month in mm; null where none is given, which counts as 0.</param>
/// <param name="Assumed">What was taken for granted, as a few words each.</param>
internal sealed record MonthWeather(int Month, decimal Et, EtMethod Method, decimal? Rain, ImmutableArray<string> Assumed)
{
    private const int Decimals = 4;

    /// <summary>Days of the year on which the months have their middle: their 15th, in a common year.</summary>
    private static readonly int[] MiddleDays = [15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349];

    /// <summary>Rain that plants can use, in mm in the whole month.</summary>
    public decimal EffectiveRain => Rain is { } rain ? Agronomy.EffectiveRain.OfMonth(rain) : 0;

    /// <summary>
    /// The months of a site's climate, January first; null for those of which no evapotranspiration is known: nothing is given, or only rain, or
    /// temperatures of a site without a location. All that are calculated are so by one method and from the same numbers: a month with humidity beside
    /// others without would look drier or damper than it is. The binder has refused humidity, wind and sunshine without temperatures.
    /// </summary>
    public static ImmutableArray<MonthWeather?> YearOf(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        if (site.Climate is not { } climate) return [.. new MonthWeather?[12]];
        var months = InCommon(climate.Months);
        return [.. Enumerable.Range(1, 12).Select(month => Of(months, month, site.Position, climate.IsByTheSea))];
    }

    /// <summary>The months that are given, without what not all those have that evapotranspiration is calculated of.</summary>
    public static ImmutableArray<ClimateMonth?> InCommon(ImmutableArray<ClimateMonth?> months)
    {
        ClimateMonth[] calculated = [.. months.OfType<ClimateMonth>().Where(month => month is { Et: null, Means: not null })];
        var (hasHumidity, hasWind, hasSun) = (Array.TrueForAll(calculated, month => month.HumidityLeast is not null),
            Array.TrueForAll(calculated, month => month.Wind is not null), Array.TrueForAll(calculated, month => month.Sun is not null));
        return [.. months.Select(month => month is null ? null : month with
        {
            HumidityLeast = hasHumidity ? month.HumidityLeast : null,
            HumidityGreatest = hasHumidity ? month.HumidityGreatest : null,
            Wind = hasWind ? month.Wind : null,
            WindHeight = hasWind ? month.WindHeight : null,
            Sun = hasSun ? month.Sun : null,
        })];
    }

    /// <summary>
    /// Solar radiation of each month on level ground, in MJ m⁻² day⁻¹ of its 15th, January first: from sunshine (FAO 56, eq. 35) where all have it, else from
    /// temperatures (eq. 50); null for a month without.
    /// </summary>
    public static ImmutableArray<double?> SolarOf(Climate climate, Position position)
    {
        ArgumentNullException.ThrowIfNull(climate);
        ArgumentNullException.ThrowIfNull(position);
        return [.. InCommon(climate.Months).Select((month, index) => month?.Means is { } means ? SolarOf(month, means, position, index, climate.IsByTheSea)
            : default(double?))];
    }

    private static double SolarOf(ClimateMonth given, MeanTemperatures means, Position position, int index, bool isByTheSea)
    {
        var latitude = position.Latitude * Math.PI / 180;
        var extraterrestrial = Radiation.Extraterrestrial(latitude, MiddleDays[index]);
        var assumed = ImmutableArray.CreateBuilder<string>();
        return SolarOf(given, means, extraterrestrial, Radiation.Daylight(latitude, MiddleDays[index]),
            Radiation.ClearSky(HeightOf(position, assumed), extraterrestrial), isByTheSea, assumed);
    }

    /// <summary>Day of the year that stands for a month, 1 to 12: its 15th, in a common year.</summary>
    public static int MiddleOf(int month) => MiddleDays[month - 1];

    private static MonthWeather? Of(ImmutableArray<ClimateMonth?> months, int month, Position? position, bool isByTheSea)
    {
        if (months[month - 1] is not { } given) return null;
        if (given.Et is { } et) return new MonthWeather(month, Math.Round(24 * et.InBase, Decimals), EtMethod.Given, given.Rain?.InBase, []);
        if (position is null || given.Means is not { } means) return null;
        var solar = Radiation.Extraterrestrial(position.Latitude * Math.PI / 180, MiddleDays[month - 1]);
        if (given is { HumidityLeast: null, Wind: null, Sun: null })
            return new MonthWeather(month, Rounded(ReferenceEvapotranspiration.Hargreaves(means.Coldest, means.Warmest, solar)), EtMethod.Hargreaves,
                given.Rain?.InBase, []);
        var assumed = ImmutableArray.CreateBuilder<string>();
        var daylight = Radiation.Daylight(position.Latitude * Math.PI / 180, MiddleDays[month - 1]);
        var soilHeat = ReferenceEvapotranspiration.SoilHeatOfMonth(MeanOf(months, month - 1), means.Mean, MeanOf(months, month + 1));
        var value = FromMeans(given, means, solar, daylight, soilHeat, HeightOf(position, assumed), isByTheSea, assumed);
        return new MonthWeather(month, Rounded(value), EtMethod.PenmanMonteith, given.Rain?.InBase, assumed.DrainToImmutable());
    }

    private static double FromMeans(ClimateMonth given, MeanTemperatures means, double extraterrestrial, double daylight, double soilHeat, double height,
        bool isByTheSea, ImmutableArray<string>.Builder assumed)
    {
        var clearSky = Radiation.ClearSky(height, extraterrestrial);
        var vapour = VapourOf(given, means, assumed);
        var solar = SolarOf(given, means, extraterrestrial, daylight, clearSky, isByTheSea, assumed);
        var net = Radiation.Net(solar, Radiation.NetLongwave(means.Coldest, means.Warmest, vapour, solar, clearSky));
        return ReferenceEvapotranspiration.PenmanMonteith(means.Coldest, means.Warmest, vapour, WindOf(given, assumed), net, soilHeat, height);
    }

    private static double VapourOf(ClimateMonth given, MeanTemperatures means, ImmutableArray<string>.Builder assumed)
    {
        if (given is { HumidityLeast: { } least, HumidityGreatest: { } greatest })
            return Air.VapourPressure(means.Coldest, means.Warmest, (double)least, (double)greatest);
        assumed.Add("humidity: dew falls at the mean minimum (FAO 56, eq. 48)");
        return Air.VapourPressure(means.Coldest);
    }

    private static double SolarOf(ClimateMonth given, MeanTemperatures means, double extraterrestrial, double daylight, double clearSky,
        bool isByTheSea, ImmutableArray<string>.Builder assumed)
    {
        if (given.Sun is { } sun) return Radiation.FromSunshine((double)sun.InBase, daylight, extraterrestrial);
        assumed.Add($"sunshine: from the temperatures, as {(isByTheSea ? "by the sea" : "inland")} (FAO 56, eq. 50)");
        return Radiation.FromTemperatures(means.Coldest, means.Warmest, isByTheSea ? Radiation.Coast : Radiation.Inland, extraterrestrial, clearSky);
    }

    private static double WindOf(ClimateMonth given, ImmutableArray<string>.Builder assumed)
    {
        if (given.Wind is { } wind)
            return given.WindHeight is { } height ? Air.WindAtTwoMetres((double)wind.InBase, (double)height.InBase) : (double)wind.InBase;
        assumed.Add("wind: 2 m/s (FAO 56, p. 63)");
        return Air.UsualWind;
    }

    private static double HeightOf(Position position, ImmutableArray<string>.Builder assumed)
    {
        if (position.Height is { } height) return (double)height.InBase;
        assumed.Add("height: that of the sea");
        return 0;
    }

    private static double? MeanOf(ImmutableArray<ClimateMonth?> months, int month) => months[(month + 11) % 12]?.Means?.Mean;

    private static decimal Rounded(double millimetres) => Math.Round((decimal)millimetres, Decimals);
}
