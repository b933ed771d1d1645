using System.Diagnostics;
using System.Text;
using FsCheck;
using FsCheck.Fluent;
using WaterScript.Diagnostics.Reading;
using Xunit;

namespace WaterScript.Tests.Binding;

/// <summary>No input makes the binder fall over, and none makes it slow.</summary>
public sealed class RobustnessTests
{
    /// <summary>Of a large site: five lines each.</summary>
    private static readonly int Zones = Samples.Of(20_000);

    private static readonly string[] Words =
    [
        "site", "supply", "controller", "power", "valve", "latching", "pump", "zone", "soil", "plants", "climate", "scale", "group", "sequence",
        "schedule", "restriction", "hold", "closed", "extra", "accept", "let", "include", "flow", "output", "of", "at", "most", "by", "since",
        "change-over", "gap", "contains", "on", "catchment", "transformer", "capacitor", "recharge", "efficiency", "starts", "before", "zones", "wire",
        "location", "timezone", "effective", "N", "W", "m", "mm2", "AWG", "C", "F", "to", "rain", "et", "humidity", "every", "day", "days", "weeks",
        "from", "for", "until", "next", "start", "finish", "after", "repeat", "times", "passes", "steps", "water", "run", "pause", "cycle", "soak",
        "with", "through", "doses", "keep", "skip", "exactly",
            "because", "manual", "odd", "even", "first", "last", "month", "mon", "fri", "jan", "feb", "jul", "sunset", "sunrise",
        "a", "b", "all", "x", "main", "L/min", "Europe/Lisbon", "mm/h", "h", "min", "s", "ms", "%", "0", "1", "12", "31", "0.5", "1.5",
        "99999999999999999999999999999999", "2026-05-01", "2026-02-30", "9999-99-99", "0000-00-00", "06:00", "24:00", "99:99", "00:00:61",
        "+", "-", ",", "=", "{", "}", "\n", ";", "\"x\"", "\"a.water\"", "18min", "3x", "1/5/2026", "é", "\"",
    ];

    /// <summary>Rows that the parser hands on whole, so that every one of them reaches the binder.</summary>
    [SampledProperty(2_000)]
    public Property AnyRowOfAPropertyIsAnswered() => Prop.ForAll(
        Gen.Elements(Words.Where(word => word is not ("{" or "}" or "\n" or ";")).ToArray()).ArrayOf(7).ToArbitrary(),
        Gen.Elements("flow", "output", "wire", "emitters", "method", "valve", "supply", "longest", "spare", "contains", "change-over", "catchment", "location",
            "timezone", "effective", "scale", "jul", "since", "by", "at", "capacitor", "recharge", "transformer", "starts", "zones").ToArbitrary(),
        (row, property) =>
        {
            foreach (var kind in (string[])["zone c", "supply c", "controller c", "pump c", "climate", "scale c", "valve c latching", "site c"])
                ReadEveryFinding($"{Expect.Garden}{kind} {{\n{property} {string.Join(' ', row)}\n}}\nlet x = {string.Join(' ', row)}");
        });

    [SampledProperty(2_000)]
    public Property AnyRowOfTokensIsAnswered() => Prop.ForAll(
        Gen.Elements(Words).ArrayOf(40).ToArbitrary(),
        row => ReadEveryFinding(Expect.Garden + string.Join(' ', row)));

    [SampledProperty(500)]
    public Property ASiteWithPiecesTakenOutIsAnswered() => Prop.ForAll(
        Gen.Choose(0, Expect.Garden.Length - 1).ToArbitrary(),
        Gen.Choose(1, 60).ToArbitrary(),
        (start, length) => ReadEveryFinding(Expect.Garden.Remove(start, Math.Min(length, Expect.Garden.Length - start))));

    // A fifth of what it is allowed goes to parsing; the rest of the margin is for a busy machine.
    [Fact]
    public void AHundredThousandLinesAreReadInSeconds()
    {
        var text = LargeSite(Zones);
        Expect.Read(LargeSite(200));
        var watch = Stopwatch.StartNew();
        var reading = Expect.Read(text);
        Assert.Empty(Expect.Errors(reading).Select(Expect.Shown));
        Assert.Equal(Zones + 2, reading.Site!.Zones.Length);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 10);
    }

    [Fact]
    public void AHundredThousandMistakesAreReadInSeconds()
    {
        var text = LargeSite(Zones).Replace("valve ac24; flow", "valve ca24; flwo", StringComparison.Ordinal)
            .Replace("water z", "water y", StringComparison.Ordinal);
        var watch = Stopwatch.StartNew();
        Assert.True(Expect.Read(text).Findings.HasErrors);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 20);
    }

    private static string LargeSite(int zones)
    {
        var text = new StringBuilder(Expect.Garden.Replace("outputs 8", "outputs 1000", StringComparison.Ordinal));
        for (var i = 0; i < zones; i++)
            text.Append($"zone z{i} {{\n  output {i % 900 + 3}\n  valve ac24; flow 10 L/min\n}}\n"
                + $"schedule s{i} {{ on mon; start at 06:00; steps {{ water z{i} for 5 min }} }}\n");
        return text.ToString();
    }

    private static void ReadEveryFinding(string text)
    {
        foreach (var finding in Expect.Read(text).Findings)
        {
            var location = finding.Primary.Location;
            Assert.InRange(location.Span.Start, 0, location.Source.Text.Length);
            Assert.InRange(location.Span.End, location.Span.Start, location.Source.Text.Length);
            Assert.NotEmpty(finding.Heading);
            Assert.Contains(finding.Rule, ReadingRules.All);
        }
    }
}
