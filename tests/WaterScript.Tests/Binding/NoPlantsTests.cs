using Xunit;

namespace WaterScript.Tests.Binding;

/// <summary><c>plants none</c>: a zone that waters no plants.</summary>
public class NoPlantsTests
{
    private const string Site = "site plot { timezone Europe/Lisbon; effective 2026-03-01 }\n";

    [Fact]
    public void A_zone_may_say_that_it_has_no_plants()
    {
        var zone = Assert.Single(Expect.Read(Site + "zone yard { output 1; method spray; plants none }").Site!.Zones);
        Assert.True(zone.WatersNoPlants);
        Assert.Null(zone.Plants);
        Assert.False(zone.WatersFromAbove);
    }

    [Fact]
    public void Plants_of_the_files_own_that_are_called_so_are_plants()
    {
        var zone = Assert.Single(
            Expect.Read(Site + "plants none { coefficient 0.7 }\nzone yard { output 1; method spray; plants none }").Site!.Zones);
        Assert.False(zone.WatersNoPlants);
        Assert.Equal("none", zone.Plants!.Name);
        Assert.True(zone.WatersFromAbove);
    }
}
