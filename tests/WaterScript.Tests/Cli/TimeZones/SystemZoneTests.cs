using System.Globalization;
using System.Text;
using NodaTime;
using WaterScript.Cli.Files.TimeZones;
using Xunit;

namespace WaterScript.Tests.Cli.TimeZones;

/// <summary>The zones of the system as another reader of the same files has them: <c>zoneinfo</c> of Python (PEP 615).</summary>
public sealed class SystemZoneTests
{
    private const int FirstYear = 2010;

    /// <summary>Prints each change of all zones up to 2101: the name, the second, and the offset from then on.</summary>
    private const string Script = """
        import sys, zoneinfo
        from datetime import datetime, timedelta, timezone
        utc = timezone.utc
        first, last = datetime(FIRST, 1, 1, tzinfo=utc), datetime(2101, 1, 1, tzinfo=utc)
        for name in sys.stdin.read().split():
            zone = zoneinfo.ZoneInfo(name)
            off = lambda at: int(at.astimezone(zone).utcoffset().total_seconds())
            at, was = first, off(first)
            while at < last:
                then = at + timedelta(days=3)
                if off(then) != was:
                    low, high = at, then
                    while high - low > timedelta(seconds=1):
                        middle = low + (high - low) / 2
                        middle = middle.replace(microsecond=0)
                        if off(middle) == was: low = middle
                        else: high = middle
                    was = off(high)
                    print(name, int(high.timestamp()), was)
                    at = high
                else:
                    at = then
        """;

    [PythonFact]
    public void Every_zone_changes_when_another_reader_says()
    {
        var provider = SystemTimeZones.Load();
        var ids = provider.Ids.Where((_, index) => Samples.AreAll || index % 10 == 0).ToList();
        var result = WaterscriptProcess.Start("python3", "/", Encoding.ASCII.GetBytes(string.Join('\n', ids)), [],
            ["-c", Script.Replace("FIRST", FirstYear.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal)]);
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        var theirs = result.Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).ToLookup(line => line.Split(' ')[0]);
        var (from, until) = (Instant.FromUtc(FirstYear, 1, 1, 0, 0), Instant.FromUtc(2101, 1, 1, 0, 0));
        foreach (var id in ids)
        {
            var mine = new List<string>();
            var was = provider[id].GetUtcOffset(from);
            foreach (var interval in provider[id].GetZoneIntervals(from, until).Skip(1))
            {
                if (interval.WallOffset == was) continue;
                was = interval.WallOffset;
                mine.Add(string.Create(CultureInfo.InvariantCulture, $"{id} {interval.Start.ToUnixTimeSeconds()} {was.Seconds}"));
            }

            Assert.Equal(theirs[id], mine);
        }

        Assert.True(ids.Count > 30);
    }

    /// <summary>The examples of RFC 9636, 3.3.1 and POSIX.1, with the moments that each means, worked out by hand.</summary>
    [Theory]
    [InlineData("EST5EDT,M3.2.0,M11.1.0", 2040, "2040-03-11T07:00 -14400, 2040-11-04T06:00 -18000")]
    [InlineData("<-03>3<-02>,M3.5.0/-2,M10.5.0/-1", 2040, "2040-03-25T01:00 -7200, 2040-10-28T01:00 -10800")]
    [InlineData("IST-2IDT,M3.4.4/26,M10.5.0", 2040, "2040-03-23T00:00 10800, 2040-10-27T23:00 7200")]
    [InlineData("<+1030>-10:30<+11>-11,M10.1.0,M4.1.0", 2040, "2040-03-31T15:00 37800, 2040-10-06T15:30 39600")]
    [InlineData("AAA0BBB,J60/0,59/0", 2040, "2040-02-28T23:00 0, 2040-03-01T00:00 3600")]
    [InlineData("AAA0BBB,J60/0,59/0", 2041, "2041-02-28T23:00 0, 2041-03-01T00:00 3600")]
    [InlineData("XXX3EDT4,0/0,J365/23", 2040, "")]
    [InlineData("<+04>-4", 2040, "")]
    public void A_yearly_rule_is_read(string footer, int year, string expected) =>
        Assert.Equal(expected, string.Join(", ", ZoneRule.Read(footer).ChangesOf(year)
            .Select(change => string.Create(CultureInfo.InvariantCulture, $"{Instant.FromUnixTimeSeconds(change.At):uuuu-MM-ddTHH:mm} {change.Time.Offset}"))));

    [Theory]
    [InlineData("")]
    [InlineData("EST")]
    [InlineData("5")]
    [InlineData("EST5EDT")]
    [InlineData("EST5EDT,M3.2.0")]
    [InlineData("EST5EDT,M13.2.0,M11.1.0")]
    [InlineData("EST5EDT,M3.0.0,M11.1.0")]
    [InlineData("EST5EDT,M3.2.7,M11.1.0")]
    [InlineData("EST5EDT,J0,M11.1.0")]
    [InlineData("EST5EDT,366,M11.1.0")]
    [InlineData("EST5EDT,M3.2.0/168,M11.1.0")]
    [InlineData("EST5EDT,M3.2.0,M11.1.0,")]
    [InlineData("EST99")]
    [InlineData("<-03")]
    public void What_is_no_yearly_rule_is_refused(string footer) => Assert.Throws<FormatException>(() => ZoneRule.Read(footer));

    /// <summary>A file of the system, cut off anywhere and with any byte changed: a zone, or the one kind of refusal.</summary>
    [Fact]
    public void A_file_that_is_damaged_is_refused_or_read_and_no_more()
    {
        if (!File.Exists("/usr/share/zoneinfo/Europe/Lisbon")) return;
        var file = File.ReadAllBytes("/usr/share/zoneinfo/Europe/Lisbon");
        for (var length = 0; length < file.Length; length++) Assert.Throws<FormatException>(() => ZoneFile.Read("x", file.AsSpan(0, length)));
        var random = new Random(7);
        for (var round = 0; round < Samples.Of(20_000); round++)
        {
            var damaged = file.ToArray();
            for (var byteOf = 0; byteOf < 3; byteOf++) damaged[random.Next(byteOf == 0 ? 60 : file.Length)] = (byte)random.Next(256);
            try
            {
                var zone = ZoneFile.Read("x", damaged);
                foreach (var year in (int[])[-9_998, 1, 1900, 2026, 2100, 9_999]) zone.GetZoneInterval(Instant.FromUtc(year, 6, 1, 0, 0));
            }
            catch (FormatException)
            {
                // Refused.
            }
        }
    }
}

/// <summary>A test that another reader judges; where Python is missing it is left out.</summary>
[AttributeUsage(AttributeTargets.Method)]
internal sealed class PythonFactAttribute : FactAttribute
{
    public PythonFactAttribute() => Skip = File.Exists("/usr/bin/python3") && File.Exists("/usr/share/zoneinfo/tzdata.zi") ? null
        : "needs python3 and the time zones of the system";
}
