using WaterScript.Diagnostics;
using WaterScript.Syntax.Formatting;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Syntax.Formatting;

/// <summary>Small things about layouts; whole files are cases under <c>tests/Cases/formatter</c>.</summary>
public sealed class FormatterCaseTests
{
    [Theory]
    [InlineData("", "")]
    [InlineData("\r\n\n ;; \n", "")]
    [InlineData("\n# alone", "# alone\n")]
    [InlineData("# a\r# b\r", "# a\n# b\n")]
    [InlineData("# a\r\n# b\n", "# a\r\n# b\r\n")]
    [InlineData("# a\n# b\r\n", "# a\n# b\n")]
    public void Lines_end_as_the_first_one_does(string text, string formatted) => Assert.Equal(formatted, Format(text));

    [Theory]
    [InlineData("zone lawn { output 1 ")]
    [InlineData("zone lawn { output 1 }}")]
    [InlineData("schedule a { start at sunset-45 min }")]
    [InlineData("sequence a { water lawn for 2,5 min }")]
    [InlineData("zone lawn { output\u00A01 }")]
    public void A_text_with_an_error_is_not_laid_out(string text)
    {
        var findings = new FindingList();
        Assert.Null(Formatter.Format(SourceText.From("test.water", text), findings));
        Assert.True(findings.HasErrors);
    }

    [Fact]
    public void Braces_as_deep_as_they_may_be_are_laid_out_and_deeper_ones_are_an_error()
    {
        static string Nested(int depth) =>
            "sequence a { " + string.Concat(Enumerable.Repeat("repeat 2 times { ", depth - 1)) + "water lawn for 1 min"
            + string.Concat(Enumerable.Repeat(" }", depth)) + "\n";
        Assert.NotNull(Format(Nested(Limits.NestingDepth)));
        Assert.Null(Format(Nested(Limits.NestingDepth + 1)));
    }

    private static string? Format(string text) => Formatter.Format(SourceText.From("test.water", text), [])?.Text;
}
