using NodaTime;
using NodaTime.TimeZones;
using WaterScript.Binding;
using WaterScript.Calendars.TimeZones;
using Xunit;

namespace WaterScript.Tests.Calendars;

/// <summary>Against the provider of Noda Time itself, which reads the same file whole.</summary>
public sealed class PackagedTimeZonesTests
{
    private static readonly Interval Years = new(Instant.FromUtc(1800, 1, 1, 0, 0), Instant.FromUtc(2500, 1, 1, 0, 0));

    [Fact]
    public void Every_zone_has_the_same_offsets_and_names()
    {
        var comparer = ZoneEqualityComparer.ForInterval(Years).WithOptions(ZoneEqualityComparer.Options.StrictestMatch);
        var zones = new PackagedTimeZones(ZonePack.Of(TheFile())!);
        foreach (var id in DateTimeZoneProviders.Tzdb.Ids)
        {
            var (expected, zone) = (DateTimeZoneProviders.Tzdb[id], zones[id]);
            Assert.Equal((id, expected.Id, true), (id, zone.Id, comparer.Equals(expected, zone)));
            Assert.Same(zone, zones.GetZoneOrNull(id));
        }
    }

    /// <summary>All but what must come from the whole: names that are none, and offsets that no data lists.</summary>
    [Fact]
    public void Every_zone_comes_from_its_own_part()
    {
        var pack = ZonePack.Of(TheFile())!;
        Assert.DoesNotContain(DateTimeZoneProviders.Tzdb.Ids, id => pack.FileOf(id) is null);
        Assert.Null(pack.FileOf("Europe/Lisbonn"));
        Assert.Null(pack.FileOf("LMT"));
        Assert.Null(pack.FileOf(""));
        Assert.Null(PackagedTimeZones.Provider.GetZoneOrNull("Europe/Lisbonn"));
        Assert.Throws<DateTimeZoneNotFoundException>(() => PackagedTimeZones.Provider["Europe/Lisbonn"]);
        Assert.Equal(Offset.FromHours(3), PackagedTimeZones.Provider["UTC+03"].MaxOffset);
    }

    [Fact]
    public void The_version_is_that_of_the_whole()
    {
        Assert.Equal(TimeZoneVersion.Of(DateTimeZoneProviders.Tzdb), TimeZoneVersion.Of(PackagedTimeZones.Provider));
        Assert.Equal(DateTimeZoneProviders.Tzdb.Ids, PackagedTimeZones.Provider.Ids);
    }

    /// <summary>A later package may have another form: then the package reads it.</summary>
    [Fact]
    public void A_file_that_is_not_understood_is_left_to_the_package()
    {
        var file = TheFile();
        Assert.Null(ZonePack.Of([]));
        Assert.Null(ZonePack.Of(file[..^1]));
        Assert.Null(ZonePack.Of(file[..4]));
        var zones = new PackagedTimeZones(pack: null);
        Assert.Equal(DateTimeZoneProviders.Tzdb.VersionId, zones.VersionId);
        Assert.Same(DateTimeZoneProviders.Tzdb["Europe/Lisbon"], zones["Europe/Lisbon"]);
    }

    /// <summary>Whatever becomes of a byte, a zone is the right one or there is a message of the package; nothing is endless.</summary>
    [Fact]
    public void Changed_bytes_do_no_harm()
    {
        var random = new Random(41);
        for (var each = 0; each < 200; each++)
        {
            var file = TheFile();
            for (var changes = random.Next(1, 4); changes > 0; changes--) file[random.Next(each % 2 == 0 ? 400 : file.Length)] = (byte)random.Next(256);
            var zones = new PackagedTimeZones(ZonePack.Of(file));
            try
            {
                Assert.Equal("Europe/Lisbon", zones["Europe/Lisbon"].Id);
            }
            catch (Exception problem) when (problem is NodaTime.Utility.InvalidNodaDataException)
            {
                // The zone's own bytes are read when they are needed.
            }
        }
    }

    private static byte[] TheFile()
    {
        using var stream = typeof(TzdbDateTimeZoneSource).Assembly.GetManifestResourceStream("NodaTime.TimeZones.Tzdb.nzd")!;
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
