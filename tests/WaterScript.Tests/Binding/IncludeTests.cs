using Xunit;

namespace WaterScript.Tests.Binding;

/// <summary>Sites of several files.</summary>
public sealed class IncludeTests
{
    [Fact]
    public void PathsAreReadFromTheFileThatTheyStandInAndEachFileOnce()
    {
        var reading = Expect.Read(
            Expect.Garden + "include \"parts/zones.water\"\ninclude \"./parts/../parts/more.water\"",
            ("parts/zones.water", "include \"more.water\"\nzone c { output 3 }"),
            ("parts/more.water", "zone d { output 4 }"));
        Assert.Empty(Expect.Errors(reading).Select(Expect.Shown));
        Assert.Equal(["site.water", "parts/zones.water", "parts/more.water"], reading.Files.Select(file => file.Source.Path));
        Assert.Equal(["a", "b", "c", "d"], reading.Site!.Zones.Select(zone => zone.Name).Order());
    }

    [Theory]
    [InlineData("nowhere.water", "include-missing")]
    [InlineData("../other.water", "include-outside")]
    [InlineData("parts/../../other.water", "include-outside")]
    [InlineData("/etc/passwd", "include-outside")]
    [InlineData("C:/zones.water", "include-outside")]
    [InlineData("parts\\\\zones.water", "include-outside")]
    [InlineData("site.water", "loop")]
    [InlineData("./site.water", "loop")]
    public void APathThatLeadsNowhereOrOutsideIsSaid(string path, string slug) =>
        Expect.One(slug, $"‹include \"{path}\"›");

    [Fact]
    public void FilesThatIncludeEachOtherAreALoop()
    {
        var reading = Expect.Read(Expect.Garden + "include \"x.water\"", ("x.water", "include \"y.water\""), ("y.water", "include \"x.water\""));
        var finding = Assert.Single(Expect.Errors(reading));
        Assert.Equal(("loop", "y.water"), (finding.Rule.Slug, finding.Primary.Location.Source.Path));
    }

    [Fact]
    public void FindingsAreInTheirFileInOrderOfFilesThenPlace()
    {
        var reading = Expect.Read(
            Expect.Garden + "include \"x.water\"\nzone c { output 3; method spary }",
            ("x.water", "zone d { output 4; flow 3 mm }\nzone a { output 5 }"));
        Assert.Equal(
            ["site.water unknown-name", "x.water wrong-unit", "x.water duplicate-name"],
            Expect.Errors(reading).Select(finding => $"{finding.Primary.Location.Source.Path} {finding.Rule.Slug}"));
    }

    [Fact]
    public void OnlyTheRootHasASite()
    {
        var reading = Expect.Read(Expect.Garden + "include \"x.water\"", ("x.water", "site other { timezone Etc/UTC; effective 2026-01-01 }"));
        Assert.Equal("x.water", Assert.Single(Expect.Errors(reading)).Primary.Location.Source.Path);
        Assert.Equal("garden", reading.Site!.Name);
    }

    [Fact]
    public void EndlessIncludesEnd()
    {
        var files = Enumerable.Range(0, 5_000).Select(i => ($"f{i}.water", $"include \"f{i + 1}.water\"")).ToArray();
        var reading = Expect.Read(Expect.Garden + "include \"f0.water\"", files);
        Assert.Equal("over-limit", Assert.Single(Expect.Errors(reading)).Rule.Slug);
    }
}
