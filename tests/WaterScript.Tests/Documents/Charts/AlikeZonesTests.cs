using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Drawing;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>Zones of a night that are watered alike share a lane where there are many.</summary>
public class AlikeZonesTests
{
    [Fact]
    public void From_twenty_zones_on_those_that_are_alike_share_a_lane()
    {
        var picture = Of(20, flowOf: number => number == 7 ? 3 : 2);
        var night = picture.Nights[0];

        Assert.Equal(["z1 and 18 more, alike", "z7"], night.Rows.Select(row => picture.Zones[row.Zone]).Order(StringComparer.Ordinal));
        Assert.Equal("20 L each", night.Rows.Single(row => picture.Zones[row.Zone] != "z7").Water);
        Assert.Equal("30 L", night.Rows.Single(row => picture.Zones[row.Zone] == "z7").Water);
        var members = picture.Members[night.Rows.Single(row => picture.Zones[row.Zone] != "z7").Zone].Split(", ");
        Assert.Equal(Enumerable.Range(1, 20).Where(number => number != 7).Select(number => $"z{number}"), members);

        // Hours that are forbidden are marked in the shared lane, also where they are folded away.
        Assert.All(night.Rows, row => Assert.Contains(row.Zone, night.Forbidden.Single().Zones));
        var svg = Charts.Drawn(picture, 1044)[0].Svg;
        Assert.Contains("z1 and 18 more, a", svg, StringComparison.Ordinal);
        Assert.Contains("class=\"forbidden\" x=\"172\"", svg, StringComparison.Ordinal);
        var page = Charts.Html(Site(20, number => number == 7 ? 3 : 2)).Root!.Value;
        Assert.Contains("z1 and 18 more, alike: z1, z2, z3, z4, z5, z6, z8, ", page, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_fewer_zones_each_has_its_lane() => Assert.Equal(19, Of(19, _ => 2).Nights[0].Rows.Select(row => row.Zone).Distinct().Count());

    private static Picture Of(int zones, Func<int, int> flowOf) => Charts.PictureOf(Site(zones, flowOf));

    private static Chart Site(int zones, Func<int, int> flowOf) => Charts.Of(
        $$"""
        site s { timezone Europe/Lisbon; effective 2026-05-01 }
        supply tap { flow 100 L/min }
        restriction town { allow between 20:00 and 06:00 }
        {{string.Join('\n', Enumerable.Range(1, zones).Select(number => $"zone z{number} {{ output {number}; flow {flowOf(number)} L/min }}"))}}
        schedule day { every day; start at 21:00; steps { water {{string.Join(" + ", Enumerable.Range(1, zones).Select(number => $"z{number}"))}} for 10 min } }
        """,
        "2026-05-03");
}
