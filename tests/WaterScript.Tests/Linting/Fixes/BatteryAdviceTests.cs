using System.Globalization;
using System.Text.RegularExpressions;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Tests.Documents.Reports;
using Xunit;
using Xunit.Abstractions;

namespace WaterScript.Tests.Linting.Fixes;

/// <summary>
/// The batteries and panels that are advised for random ones are put in, literally: the finding is gone, nothing graver came, and a step less than what
/// was advised would not have done.
/// </summary>
public partial class BatteryAdviceTests(ITestOutputHelper output)
{
    private static readonly int InBatch = Samples.OfBatch(50);

    public static TheoryData<int> Batches => [.. Enumerable.Range(0, Samples.Of(20))];

    [Theory]
    [MemberData(nameof(Batches))]
    public void What_is_advised_for_random_batteries_does_and_is_the_least_that_does(int batch)
    {
        var tried = Enumerable.Range(batch * InBatch, InBatch).Sum(Try);
        output.WriteLine($"{tried} proposals");
        Assert.True(tried >= InBatch / 5, $"only {tried} proposals were tried");
    }

    private static int Try(int seed)
    {
        var power = RandomPower(new Random(seed));
        var site = Checked.Of(SiteWith(power));
        Assert.NotNull(site.Lint);
        var tried = 0;
        foreach (var finding in site.Findings.Where(finding => finding.Rule.Slug is "battery-runs-flat" or "autonomy-too-short"))
        {
            foreach (Match advised in Advised().Matches(finding.Help))
            {
                var word = advised.Groups[1].Value == "battery" ? "battery" : "solar-panel";
                var least = decimal.Parse(advised.Groups[2].Value, CultureInfo.InvariantCulture);
                var written = decimal.Parse(Regex.Match(power, word + " ([0-9.]+)").Groups[1].Value, CultureInfo.InvariantCulture);
                var step = finding.Rule.Slug == "battery-runs-flat" ? written / 10 : 0.1m;
                var good = Checked.Of(SiteWith(With(power, word, written, least)));
                Assert.True(IsClear(good, finding.Rule), $"{power}: {finding.Help}");
                Assert.Empty(Grave(good).Except(Grave(site)));
                Assert.False(IsClear(Checked.Of(SiteWith(With(power, word, written, least - step))), finding.Rule), $"{power}: less would do: {finding.Help}");
                tried++;
            }
        }

        return tried;
    }

    private static string RandomPower(Random random)
    {
        var rows = new List<string> { $"battery {random.Next(2, 40)} Ah at {random.Next(1, 3) * 12} V" };
        rows.Add(string.Create(CultureInfo.InvariantCulture, $"standby {random.Next(10, 400) / 10m} mA"));
        if (random.Next(2) == 0) rows.Add($"usable {random.Next(30, 96)} %");
        if (random.Next(2) == 0) rows.Add(string.Create(CultureInfo.InvariantCulture, $"cold-loss {random.Next(1, 15) / 10m} % per C"));
        if (random.Next(3) > 0) rows.Add($"solar-panel {random.Next(1, 20)} W tilt {random.Next(0, 70)} deg efficiency {random.Next(40, 90)} %");
        if (random.Next(3) == 0) rows.Add($"renewed on {random.Next(1, 28)} mar, {random.Next(1, 28)} sep");
        if (random.Next(2) == 0) rows.Add($"autonomy {random.Next(1, 20)} days");
        return string.Join("; ", rows);
    }

    private static string SiteWith(string power) =>
        $$"""
        site fell { timezone Europe/Lisbon; effective 2026-03-01; location 39.6 N 8.1 W 310 m }
        climate {
          jan 2 C to 15 C
          feb 3 C to 16 C
          mar 9 C to 18 C
          apr 11 C to 20 C
          may 13 C to 23 C
          jun 16 C to 27 C
          jul 18 C to 29 C
          aug 18 C to 30 C
          sep 17 C to 27 C
          oct 14 C to 23 C
          nov 11 C to 18 C
          dec 8 C to 15 C
        }
        controller box { outputs 2; power { {{power}} } }
        valve hold non-latching { inrush 400 mA; holding 250 mA }
        zone lawn { output 1; valve hold }
        schedule morning { every 3 days; start at 06:00; steps { water lawn for 40 min } }
        """;

    private static string With(string power, string word, decimal written, decimal value) =>
        power.Replace(Row(word, written), Row(word, value), StringComparison.Ordinal);

    private static string Row(string word, decimal value) => string.Create(CultureInfo.InvariantCulture, $"{word} {value} ");

    private static bool IsClear(CheckedSite site, Rule rule) => site.Findings.All(finding => finding.Rule != rule);

    private static IEnumerable<string> Grave(CheckedSite site) =>
        site.Findings.Where(finding => finding.Severity > Severity.Advice).Select(finding => finding.Rule.Slug);

    [GeneratedRegex("a (battery|panel) of ([0-9.]+) (?:Ah|W) or more")]
    private static partial Regex Advised();
}
