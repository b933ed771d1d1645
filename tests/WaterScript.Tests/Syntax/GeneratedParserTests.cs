using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.Syntax;

public class GeneratedParserTests
{
    /// <summary>ANTLR writes this call wherever the next token alone does not settle a decision.</summary>
    [Fact]
    public void Every_decision_is_made_by_the_next_token() =>
        Assert.DoesNotContain("AdaptivePredict", Repository.Read("src/WaterScript/Syntax/Generated/WaterScriptParser.cs"), StringComparison.Ordinal);
}
