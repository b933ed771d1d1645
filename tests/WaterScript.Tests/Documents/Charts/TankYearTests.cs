using NodaTime;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Years;
using WaterScript.Tests.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>What a tank holds over a year, worked out by hand.</summary>
public class TankYearTests
{
    private const string Butt = """
        site s { timezone Europe/Lisbon; effective 2026-05-01 }
        supply butt "Butt" { flow 20 L/min; tank 1000 L; refill 0.5 L/min; reserve 100 L }
        zone a { output 1; flow 10 L/min }
        schedule day { on 2026-05-11, 2026-05-12, 2026-05-13; start at 06:00; steps { water a for 60 min } }
        """;

    [Fact]
    public void It_falls_and_fills_as_it_is_drawn_from_and_refilled()
    {
        var tank = Assert.Single(Of(Butt).Tanks);

        // 60 min of 10 − 0.5 L/min are 570 L: 430 L are left; 23 h of 0.5 L/min bring 690 L: it is full after 19 h, at 02:00. Each day the same.
        Assert.Equal(430, tank.Least);
        Assert.Equal(1800, tank.Drawn);
        Assert.Empty(tank.Short);
        Assert.Equal(3, tank.Corners.Count(corner => corner.Litres == 430));
        Assert.Equal(10 + (7 / 24.0), tank.Corners.First(corner => corner.Litres == 430).At, 6);
        Assert.Equal((0.0, 1000m), (tank.Corners[0].At, tank.Corners[0].Litres));
        Assert.Equal((365.0, 1000m), (tank.Corners[^1].At, tank.Corners[^1].Litres));
    }

    [Fact]
    public void Days_on_which_it_cannot_give_all_are_marked_and_it_stays_at_its_reserve()
    {
        // 120 min of 9.5 L/min are 1 140 L, of which 900 L are there; a day of 22 h brings 660 L: the next two lack more.
        var year = Of(Butt.Replace("60 min", "120 min", StringComparison.Ordinal));
        var tank = Assert.Single(year.Tanks);

        Assert.Equal(100, tank.Least);
        Assert.Equal([10, 11, 12], tank.Short.AsEnumerable());
        Assert.Equal([(10, 13)], tank.ShortSpells());
        var drawn = TankDrawing.Draw(year, new PictureSizes(1044));
        Assert.Contains("3 days short", drawn, StringComparison.Ordinal);
        Assert.Contains("class=\"over\"", drawn, StringComparison.Ordinal);
        Assert.Contains("short on 3 days", drawn, StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_read_on_a_date_counts_from_then_on()
    {
        var tank = Assert.Single(Of(Butt.Replace("reserve 100 L", "reserve 100 L; contains 640 L on 2026-05-11", StringComparison.Ordinal)).Tanks);

        // 640 L at midnight, and 6 h of 0.5 L/min bring 180 L: 820 L, less 570 L.
        Assert.Equal(250, tank.Least);
    }

    [Theory]
    [InlineData("supply butt { flow 20 L/min; tank 1000 L }")]
    [InlineData("supply butt { flow 20 L/min }")]
    public void Nothing_is_drawn_of_what_cannot_be_followed(string supply)
    {
        var year = Of($"site s {{ timezone Europe/Lisbon; effective 2026-05-01 }}\n{supply}\nzone a {{ output 1; flow 10 L/min }}\n" +
            "schedule day { every day; start at 06:00; steps { water a for 60 min } }");

        Assert.Empty(year.Tanks);
        Assert.Equal("", TankDrawing.Draw(year, new PictureSizes(1044)));
    }

    [Fact]
    public void Words_have_room_at_every_width()
    {
        foreach (var reserve in new[] { 50, 200, 500, 900 })
        {
            var text = Butt.Replace("100 L", $"{reserve} L", StringComparison.Ordinal);
            var year = Of(text.Replace("\"Butt\"", "\"A tank with a name that has no room at all\"", StringComparison.Ordinal));
            foreach (var width in new[] { 1504.0, 1044, 720, 336 })
                Assert.Empty(DrawnWords.Faults(TankDrawing.Draw(year, new PictureSizes(width)), width, 1000));
        }
    }

    private static YearChart Of(string text) => YearBuilder.Build(Sites.Read(text), new LocalDate(2026, 5, 1));
}
