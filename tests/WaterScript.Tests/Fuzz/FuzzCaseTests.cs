using WaterScript.Fuzz.Inputs;
using WaterScript.Fuzz.Stages;
using Xunit;

namespace WaterScript.Tests.Fuzz;

/// <summary>Every input in <c>tests/Cases/fuzz</c>, each of which once failed, gets through all stages of the fuzzer.</summary>
public sealed class FuzzCaseTests
{
    private static readonly Dictionary<string, SiteFiles> Known = CaseFolder.Read().ToDictionary(site => site.Name, StringComparer.Ordinal);

    public static TheoryData<string> Names => [.. Known.Keys.Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Names))]
    public void It_gets_through_all_stages(string name) =>
        Assert.All(Samples.Some([.. CaseFolder.InputsOf(Known[name])], name.Length), input => Assert.Null(AllStages.Run(input)));
}
