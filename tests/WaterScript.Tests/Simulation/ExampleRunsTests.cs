using WaterScript.Tests.Documentation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>Every example has the runs that brute force gives, over a year with both of its clock changes.</summary>
public sealed class ExampleRunsTests
{
    [Theory]
    [InlineData("examples/balcony.water")]
    [InlineData("examples/bench-rig.water")]
    [InlineData("examples/nursery.water")]
    [InlineData("examples/park/park.water")]
    [InlineData("examples/roof-pots.water")]
    [InlineData("examples/school-field.water")]
    [InlineData("examples/sports-ground.water")]
    [InlineData("examples/terraces.water")]
    public void A_year_of_an_example_has_the_runs_of_the_reference(string path)
    {
        var site = Example.Read(path).Site;
        Assert.NotNull(site);
        Assert.True(Agreement.OfRuns(site, Horizon.YearFrom(site.Effective), path) > 100);
        Agreement.OfRuns(site, Horizon.YearFrom(site.Effective.PlusYears(1).PlusDays(17)), path);
    }
}
