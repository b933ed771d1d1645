using System.Globalization;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>Thousands of sites nobody thought of have the runs that brute force gives.</summary>
public sealed class RandomRunsTests
{
    private static readonly int SitesEach = Samples.OfBatch(100);

    public static TheoryData<int> Batches => [.. Samples.Batches(12)];

    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_sites_have_the_runs_of_the_reference(int batch)
    {
        var unread = new List<string>();
        var runs = 0;
        for (var number = batch * SitesEach; number < (batch + 1) * SitesEach; number++)
        {
            var source = RandomSource.Of(number, hasMore: true);
            if (Read(source.Text, out var errors) is { } site)
                runs += Agreement.OfRuns(site, Horizon.DaysFrom(source.From, 25), $"number {number}\n{source.Text}");
            else
                unread.Add($"number {number}: {errors}");
        }

        Assert.True(unread.Count <= SitesEach / 10, string.Create(CultureInfo.InvariantCulture, $"{unread.Count} are not read:\n{string.Join('\n', unread)}"));
        Assert.True(runs > 100 * SitesEach, string.Create(CultureInfo.InvariantCulture, $"only {runs} runs"));
    }

    /// <summary>The site, or null where it has errors.</summary>
    internal static Site? Read(string text, out string errors)
    {
        var reading = SiteReader.Read(SourceText.From("site.water", text), "site.water", new NoFiles(), DateTimeZoneProviders.Tzdb);
        errors = string.Join(
            "; ",
            reading.Findings.Where(finding => finding.Severity == Severity.Error)
                .Select(finding => $"{finding.Primary.Location.Start.Line} {finding.Heading} \"{finding.Primary.Location.Text}\""));
        return errors.Length == 0 ? reading.Site : null;
    }

    private sealed class NoFiles : ISourceReader
    {
        public SourceText? Read(string path) => null;
    }
}
