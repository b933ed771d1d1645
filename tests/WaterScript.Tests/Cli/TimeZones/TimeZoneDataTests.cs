using System.Text.Json.Nodes;
using NodaTime.TimeZones;
using Xunit;

namespace WaterScript.Tests.Cli.TimeZones;

/// <summary>Time-zone data of one's own: in the format of Noda Time, or that of the system.</summary>
public sealed class TimeZoneDataTests : Workshop
{
    private static readonly string Own = TzdbDateTimeZoneSource.Default.TzdbVersion;

    /// <summary>The stream that Noda Time itself carries is a file in its format.</summary>
    private void WriteOwn(string path)
    {
        var assembly = typeof(TzdbDateTimeZoneSource).Assembly;
        var resource = assembly.GetManifestResourceNames().Single(name => name.Contains("Tzdb", StringComparison.Ordinal));
        using var stream = assembly.GetManifestResourceStream(resource)!;
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        Write(path, bytes.ToArray());
    }

    [Fact]
    public void A_file_in_the_format_of_Noda_Time_gives_what_is_carried()
    {
        Write("site.water", Good);
        WriteOwn("zones.nzd");
        var plain = RunLine("compile site.water --to yaml --from 2026-03-25 --days 10");
        Assert.Equal(plain.Output, RunLine("compile site.water --to yaml --from 2026-03-25 --days 10 --tzdata zones.nzd").Output);
        Assert.Contains($"timezone_data: \"{Own}\"", plain.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("site.water")]
    [InlineData("empty.nzd")]
    [InlineData("cut.nzd")]
    public void What_is_no_such_data_is_refused(string file)
    {
        Write("site.water", Good);
        Write("empty.nzd", "");
        WriteOwn("cut.nzd");
        Write("cut.nzd", File.ReadAllBytes(PathOf("cut.nzd"))[..5_000]);
        var result = RunLine($"check site.water --tzdata {file}");
        Assert.Equal(2, result.ExitCode);
        Assert.Equal($"waterscript: {file} is not time-zone data in the format of Noda Time (.nzd); get it from https://nodatime.org/tzdb/\n", result.Error);
        Assert.Contains("no such file: nofile", RunLine("check site.water --tzdata nofile").Error, StringComparison.Ordinal);
    }

    [Fact]
    public void The_system_has_its_own_version_and_its_own_hash_of_the_site()
    {
        if (!File.Exists("/usr/share/zoneinfo/tzdata.zi")) return;
        var version = File.ReadLines("/usr/share/zoneinfo/tzdata.zi").First()["# version ".Length..];
        Write("site.water", Good);
        var system = JsonNode.Parse(RunLine("compile site.water --to json --from 2026-03-25 --days 10 --tzdata system").Output)!;
        var own = JsonNode.Parse(RunLine("compile site.water --to json --from 2026-03-25 --days 10").Output)!;
        Assert.Equal(version, system["site"]!["timezone_data"]!.GetValue<string>());
        Assert.Equal(own["runs"]!.ToJsonString(), system["runs"]!.ToJsonString()); // Both know the clock change of Lisbon on 29 March 2026.
        Assert.Equal(own["site"]!["sources_sha256"]!.GetValue<string>(), system["site"]!["sources_sha256"]!.GetValue<string>());
        Assert.Equal(version == Own, own["site"]!["sha256"]!.GetValue<string>() == system["site"]!["sha256"]!.GetValue<string>());
        var report = JsonNode.Parse(RunLine("check site.water --report json --tzdata system").Output)!;
        Assert.Equal(version, report["sites"]![0]!["timezone_data"]!.GetValue<string>());
        var verdict = RunLine("check site.water --tzdata system").Output.Replace("\n  ", " ", StringComparison.Ordinal);
        Assert.Equal(version != Own, verdict.Contains($", with time-zone data {version}.", StringComparison.Ordinal));
        Assert.DoesNotContain("time-zone data", RunLine("check site.water").Output, StringComparison.Ordinal);
        Assert.EndsWith($"\ntime-zone data {version}\n", RunLine("--version --tzdata system").Output, StringComparison.Ordinal);
    }

    /// <summary>The system's zones against those of Noda Time, where both have the same rules: offsets on each side of every change for ten years.</summary>
    [Theory]
    [InlineData("Europe/Lisbon")]
    [InlineData("Europe/Dublin")]
    [InlineData("Africa/Johannesburg")]
    [InlineData("Australia/Lord_Howe")]
    [InlineData("America/New_York")]
    [InlineData("Asia/Kolkata")]
    [InlineData("US/Pacific")]
    public void The_zones_of_the_system_change_when_those_of_Noda_Time_do(string id)
    {
        if (!File.Exists("/usr/share/zoneinfo/tzdata.zi")) return;
        var (mine, system) = (NodaTime.DateTimeZoneProviders.Tzdb[id], WaterScript.Cli.Files.TimeZones.SystemTimeZones.Load()[id]);
        var from = NodaTime.Instant.FromUtc(2026, 1, 1, 0, 0);
        foreach (var interval in mine.GetZoneIntervals(from, from + NodaTime.Duration.FromDays(3_650)))
        {
            var at = interval.HasStart && interval.Start > from ? interval.Start : from;
            Assert.Equal(interval.WallOffset, system.GetUtcOffset(at));
            Assert.Equal(mine.GetUtcOffset(at - NodaTime.Duration.FromSeconds(1)), system.GetUtcOffset(at - NodaTime.Duration.FromSeconds(1)));
        }
    }
}
