using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Documents.Reports;

/// <summary>The lines that a fix takes out and writes: <c>2-b|2+x</c>, with a slash between changed lines that do not stand together.</summary>
public class EditLineTests
{
    [Theory]
    [InlineData("a\nb\nc\n")]
    [InlineData("a\r\nb\r\nc\r\n")]
    [InlineData("a\rb\rc\r")]
    [InlineData("a\nb\nc")]
    public void A_word_is_a_line_out_and_a_line_in(string text) => Assert.Equal("2-b|2+x", Changed(text, ("b", "x")));

    [Theory]
    [InlineData("a\nb\nc", "3-c|3+x")]
    [InlineData("c", "1-c|1+x")]
    public void The_last_line_needs_no_line_end(string text, string lines) => Assert.Equal(lines, Changed(text, ("c", "x")));

    [Fact]
    public void Several_edits_of_one_line_are_one_change() =>
        Assert.Equal("1-water a + b + c|1+water a, b, c", Changed("water a + b + c\n", (" + b", ", b"), (" + c", ", c")));

    [Fact]
    public void Edits_of_neighbouring_lines_are_two_changes() =>
        Assert.Equal("1-a|1+x/2-b|2+y/4-d|4+z", Changed("a\nb\nc\nd\n", ("a", "x"), ("b", "y"), ("d", "z")));

    [Fact]
    public void Edits_stand_in_the_order_of_the_file() => Assert.Equal("1-a|1+x/3-c|3+y", Changed("a\nb\nc\n", ("c", "y"), ("a", "x")));

    [Theory]
    [InlineData("a\nb\n", "\n")]
    [InlineData("a\r\nb\r\n", "\r\n")]
    public void A_line_before_another_is_one_line_in(string text, string lineEnd) => Assert.Equal("2+x", Changed(text, ("b", $"x{lineEnd}b")));

    [Theory]
    [InlineData("a\nb")]
    [InlineData("a\nb\n")]
    public void A_line_after_the_last_is_one_line_in(string text) => Assert.Equal("3+x", Changed(text, ("b", "b\nx")));

    [Theory]
    [InlineData("a\nb\nc\n", "b\n", "2-b")]
    [InlineData("a\nb\nc\n", "\nb", "2-b")]
    [InlineData("a\r\nb\r\nc", "b\r\n", "2-b")]
    [InlineData("a\nb\nc", "\nc", "3-c")]
    [InlineData("a\nb\nc\n", "a\nb\n", "1-a|2-b")]
    [InlineData("a\nb\n", "a\nb\n", "1-a|2-b")]
    [InlineData("a\nb\nc", "b", "2-b|2+")]
    public void What_is_deleted_goes_with_its_line_end(string text, string deleted, string lines) => Assert.Equal(lines, Changed(text, (deleted, "")));

    [Fact]
    public void Lines_that_stay_are_not_shown() => Assert.Equal("2-b|2+x|3+y", Changed("a\nb\nc\n", ("a\nb\nc", "a\nx\ny\nc")));

    /// <summary>A file has lines where <see cref="SourceText"/> counts them.</summary>
    [Fact]
    public void A_line_ends_where_the_language_ends_it() => Assert.Equal("2-b # \u2028 \f \u0085|2+x # \u2028 \f \u0085",
        Changed("a\nb # \u2028 \f \u0085\nc\n", ("b", "x")));

    [Fact]
    public void Files_stand_in_the_order_of_their_first_edit()
    {
        var (one, two) = (SourceText.From("one.water", "a\n"), SourceText.From("two.water", "b\n"));
        var blocks = EditLine.Of(new Fix("do it", IsSafe: true, [Edit(two, "b", "x"), Edit(one, "a", "y")]));
        Assert.Equal(["two.water", "one.water"], blocks.Select(block => block.Source.Path));
        Assert.Equal("1-b|1+x/1-a|1+y", Shown(blocks));
    }

    private static string Changed(string text, params (string Taken, string Written)[] edits)
    {
        var source = SourceText.From("site.water", text);
        return Shown(EditLine.Of(new Fix("do it", IsSafe: true, [.. edits.Select(edit => Edit(source, edit.Taken, edit.Written))])));
    }

    private static TextEdit Edit(SourceText source, string taken, string written) => new(Printed.Place(source, taken), written);

    private static string Shown(ImmutableArray<EditLine.Block> blocks) => string.Join('/', blocks.Select(block =>
        string.Join('|', block.Lines.Select(line => $"{line.Number}{(line.IsWritten ? '+' : '-')}{line.Text}"))));
}
