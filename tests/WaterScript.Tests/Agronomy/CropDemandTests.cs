using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Agronomy;
using WaterScript.Model;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Agronomy;

/// <summary>What plants need that are not the same all year, worked out by hand from FAO 56, eq. 58, and the rule of effective rain.</summary>
public sealed class CropDemandTests
{
    private const string Maize = "plants maize { may 0.3; jun 0.7; jul 1.2 }\n";

    /// <summary>Kc · ETo: 0.3 · 4, 0.7 · 5 and 1.2 · 6; no plants, no demand; in August they are not in the ground.</summary>
    [Fact]
    public void Each_month_has_its_coefficient()
    {
        var site = SiteWith(Maize, "climate { may et 4 mm/day; jun et 5 mm/day; jul et 6 mm/day; aug et 6 mm/day }");
        var plants = site.Zones.Single(zone => zone.Name == "d").Plants!;
        Assert.Equal([1.2m, 3.5m, 7.2m, null], Year(site)[4..8].Select(month => CropDemand.PerDay(plants, month!)));
    }

    /// <summary>Of 7.2 mm/day: 1.2 are 17 %, 3.5 are 49 %; a month without plants in the ground needs nothing, one without a climate is not known.</summary>
    [Fact]
    public void Shares_go_by_the_coefficient_of_the_month()
    {
        var site = SiteWith(Maize, "climate { may et 4 mm/day; jun et 5 mm/day; jul et 6 mm/day; aug et 6 mm/day }");
        Assert.Equal("- 17 49 100 0 -", SharesOf(site, 3..9));
    }

    /// <summary>1 · 2 − (0.8 · 100 − 25) / 30 = 0.1667 mm/day in April; in June 0.5 · 2 less the same is below 0.</summary>
    [Fact]
    public void What_rain_gives_need_not_be_watered()
    {
        var year = Year(SiteWith(Maize, "climate { apr et 2 mm/day, rain 100 mm; jun et 2 mm/day, rain 100 mm }"));
        Assert.Equal(0.1667m, Math.Round(CropDemand.NetPerDay(1, year[3]!), 4));
        Assert.Equal(0, CropDemand.NetPerDay(0.5m, year[5]!));
    }

    /// <summary>Where rain is enough in every month, no month has a share of a peak.</summary>
    [Fact]
    public void Where_nothing_is_needed_the_shares_are_0()
    {
        var site = SiteWith(Maize, "climate { may et 1 mm/day, rain 200 mm; jun et 1 mm/day, rain 200 mm }");
        Assert.Equal("- 0 0 -", SharesOf(site, 3..7));
    }

    private static string SharesOf(Site site, Range months)
    {
        var shares = CropDemand.Shares(site.Zones.Where(zone => zone.Name == "d"), Year(site));
        return string.Join(' ', shares.Take(months).Select(share => share?.ToString(CultureInfo.InvariantCulture) ?? "-"));
    }

    private static ImmutableArray<MonthWeather?> Year(Site site) => MonthWeather.YearOf(site);

    private static Site SiteWith(string plants, string climate) => Expect.Fine($"{plants}{climate}\nzone d {{ output 4; plants maize }}").Site!;
}
