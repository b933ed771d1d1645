using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Documentation;

/// <summary>Every example is a site that can be handed on as it is.</summary>
public class ExampleTests
{
    /// <summary>The examples with a site of their own; the others are included by one.</summary>
    public static TheoryData<string> Roots => [.. Repository.ExampleFiles.Where(IsRoot)];

    [Theory]
    [MemberData(nameof(Roots))]
    public void An_example_is_read_without_errors(string path) =>
        Assert.Empty(Example.Read(path).Findings.Where(finding => finding.Severity == Severity.Error || finding.Rule == ReadingRules.UnusualForm)
            .Select(finding => finding.Heading));

    [Theory]
    [MemberData(nameof(Roots))]
    public void Every_zone_of_an_example_but_a_spare_one_is_watered_within_a_year(string path)
    {
        var site = Example.Read(path).Site!;
        var watered = Timetable.Of(site, Horizon.YearFrom(site.Effective)).Runs().Select(run => run.Zone).ToHashSet();

        Assert.Equal(site.Zones.Where(zone => !zone.IsSpare).Select(zone => zone.Name),
            site.Zones.Where(zone => watered.Contains(zone.Index)).Select(zone => zone.Name));
    }

    [Theory]
    [MemberData(nameof(Roots))]
    public void An_example_says_in_its_first_comment_what_it_shows(string path)
    {
        var comment = Repository.Read(path).Split('\n').TakeWhile(line => line.StartsWith('#'));

        Assert.Contains("shows", string.Join(' ', comment), StringComparison.Ordinal);
    }

    [Fact]
    public void Every_file_that_is_no_root_belongs_to_one() =>
        Assert.Empty(Repository.ExampleFiles.Where(path => !IsRoot(path))
            .Except(Repository.ExampleFiles.Where(IsRoot).SelectMany(path => Example.Read(path).Files.Select(file => file.Source.Path))));

    private static bool IsRoot(string path) =>
        Repository.Read(path).Split('\n').Any(line => line.StartsWith("site ", StringComparison.Ordinal));
}
