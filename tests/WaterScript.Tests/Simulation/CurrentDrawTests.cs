using WaterScript.Simulation.Electrical;
using WaterScript.Tests.Binding;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>What outputs draw, by the numbers of the file.</summary>
public sealed class CurrentDrawTests
{
    private const string Before = """
        site plot { timezone Etc/UTC; effective 2026-03-01 }
        controller box { outputs 4; power { transformer 40 VA at 24 V } }
        valve first non-latching { inrush 400 mA }
        valve second non-latching { holding 220 mA }
        zone a { output 1; valve first }
        zone b { output 2; valve second }

        """;

    [Fact]
    public void What_is_not_given_is_named_for_what_it_is_needed()
    {
        var site = Expect.Fine("", Before).Site!;
        var draw = new CurrentDraw(site, [null]);
        Assert.Equal(["b"], draw.Unknown(site.Controllers[0], isInrush: true).Zones.Select(zone => zone.Name));
        Assert.Equal(["a"], draw.Unknown(site.Controllers[0], isInrush: false).Zones.Select(zone => zone.Name));
    }

    /// <summary>A valve is done in a moment; a motor draws its surge until it runs.</summary>
    [Fact]
    public void Only_a_motor_has_a_surge_that_lasts()
    {
        var site = Expect.Fine("pump p { output 3; load 2 A; inrush 8 A for 1500 ms }", Before).Site!;
        var draw = new CurrentDraw(site, [null]);
        var (valve, motor) = (new Switching(0, 0, 1, true, 1, Zone: 0, Device: -1), new Switching(0, 0, 3, true, 2, Zone: -1, Device: 0));
        Assert.Equal((0, 1500), (draw.SurgeMilliseconds(valve), draw.SurgeMilliseconds(motor)));
        var plain = new CurrentDraw(Expect.Fine("pump p { output 3; load 2 A }", Before).Site!, [null]);
        Assert.Equal((0, 2), (plain.SurgeMilliseconds(motor), plain.Inrush(motor)));
        Assert.Equal((0.4m, 8, 0, 2), (draw.Inrush(valve), draw.Inrush(motor), draw.Holding(valve), draw.Holding(motor)));
    }
}
