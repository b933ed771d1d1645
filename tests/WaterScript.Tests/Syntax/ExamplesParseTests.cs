using WaterScript.Diagnostics;
using WaterScript.Syntax;
using WaterScript.Tests.Documentation;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Syntax;

public sealed class ExamplesParseTests
{
    public static TheoryData<string> Examples => new(Repository.ExampleFiles);

    [Theory]
    [MemberData(nameof(Examples))]
    public void EveryExampleParsesWithoutAFinding(string path)
    {
        var findings = new FindingList();
        var file = Parser.Parse(SourceText.From(path, Repository.Read(path)), findings);
        Assert.Empty(findings.Select(finding => $"{finding.Primary.Location.Start} {finding.Heading}"));
        Assert.NotEmpty(file.Statements);
    }
}
