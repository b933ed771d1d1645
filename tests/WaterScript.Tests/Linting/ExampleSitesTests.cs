using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation;
using WaterScript.Tests.Binding;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>The example sites of the documentation have no errors.</summary>
public class ExampleSitesTests
{
    [Theory]
    [InlineData("examples/balcony.water")]
    [InlineData("examples/bench-rig.water")]
    [InlineData("examples/nursery.water")]
    [InlineData("examples/orchard.water")]
    [InlineData("examples/park/park.water")]
    [InlineData("examples/roof-pots.water")]
    [InlineData("examples/school-field.water")]
    [InlineData("examples/sports-ground.water")]
    [InlineData("examples/terraces.water")]
    public void An_example_lints_without_an_error(string path)
    {
        var site = Example.Read(path).Site!;
        var report = Linter.Check(site, CheckHorizon.Of(site));

        Assert.Empty(report.Findings.Where(finding => finding.Severity == Severity.Error).Select(Expect.Shown));
    }
}
