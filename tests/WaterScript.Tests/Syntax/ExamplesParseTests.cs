using WaterScript.Diagnostics;
using WaterScript.Syntax;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Syntax;

public sealed class ExamplesParseTests
{
    public static TheoryData<string> Examples
    {
        get
        {
            var data = new TheoryData<string>();
            foreach (var file in SourceFiles.Examples) data.Add(file);
            return data;
        }
    }

    [Theory]
    [MemberData(nameof(Examples))]
    public void EveryExampleParsesWithoutAFinding(string path)
    {
        var findings = new FindingList();
        var file = Parser.Parse(SourceText.From(path, File.ReadAllText(Path.Combine(SourceFiles.Root, path))), findings);
        Assert.Empty(findings.Select(finding => $"{finding.Primary.Location.Start} {finding.Heading}"));
        Assert.NotEmpty(file.Statements);
    }
}
