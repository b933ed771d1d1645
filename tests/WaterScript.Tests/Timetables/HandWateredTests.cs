using System.Text;
using WaterScript.Answers.Usage;
using WaterScript.Documents.Timetables;
using WaterScript.Model;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Timetables;

/// <summary>What somebody waters by hand is in the timetable, and nothing switches it; worked out by hand.</summary>
public sealed class HandWateredTests
{
    private const string Garden = """
        site plot { timezone UTC; effective 2026-05-01 }
        supply tap { flow 30 L/min }
        controller box { outputs 4; at most 1 zones }
        zone tubs "Tubs" { hand-watered; flow 8 L/min }
        zone lawn "Lawn" { output 2; flow 10 L/min }
        zone beds "Beds" { output 1; flow 5 L/min }
        pump lift { output 4; supply tap; load 60 mA }
        schedule evening { every day; start at 20:00; steps { water tubs + lawn for 10 min } }
        schedule round { every day; start at 06:00; steps { water all for 1 min } }

        """;

    private static readonly Site Site = Sites.Read(Garden);

    private static Timetable OneDay => Timetable.Of(Site, Horizon.DaysFrom(Site.Effective, 1));

    [Fact]
    public void All_leaves_it_out_and_it_comes_after_the_outputs() =>
        Assert.Equal(["beds", "lawn", "lawn", "tubs"], OneDay.Runs().Select(run => Site.Zones[run.Zone].Name));

    [Fact]
    public void Nothing_is_open_or_switched_for_it()
    {
        Assert.Equal(["beds", "lawn", "lawn"], OneDay.Openings().Where(opening => opening.Zone >= 0).Select(opening => Site.Zones[opening.Zone].Name));
        Assert.DoesNotContain(OneDay.Switchings(), switching => switching.Zone == 0);
        Assert.Equal(["beds", "lawn"], Site.Devices[0].Zones.Select(zone => zone.Name).Order());
    }

    /// <summary>10 min at 8 L/min.</summary>
    [Fact]
    public void Its_water_is_used()
    {
        var usage = WaterUsage.Of(Site, Horizon.DaysFrom(Site.Effective, 1), [UsageAxis.Zone]);
        Assert.Equal((600L, 80m), usage.Rows.Where(row => row.First == 0).Select(row => (row.Seconds, row.Litres.ToDecimal(3))).Single());
        Assert.Equal(3, usage.Openings);
    }

    [Fact]
    public void Lists_have_no_output_and_no_controller_for_it()
    {
        using var stream = new MemoryStream();
        TimetableOutput.Write(OneDay, OutputFormat.Csv, new OutputOptions(), stream);
        Assert.Contains(
            Encoding.UTF8.GetString(stream.ToArray()).Split("\r\n"),
            line => line.StartsWith("4,2026-05-01T20:00:00+00:00,2026-05-01T20:10:00+00:00,tubs,,,evening,", StringComparison.Ordinal));
    }
}
