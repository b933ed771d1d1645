using System.Diagnostics;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Syntax.Formatting;
using WaterScript.Tests.Binding;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>Texts that nobody means: each is answered in words, and laid out or refused.</summary>
public sealed class HostileTextTests
{
    /// <summary>A million, and less where a part of all samples is tried.</summary>
    private static readonly int Huge = Samples.Of(1_000_000);

    private static readonly string[] Texts =
    [
        "{}", "{", "}", "}\n }\n}\n", " }\n}\n  }", "a\n  }\n}", "}\n  a\n}\n}", "\n\n }\n\n}\n", "{}{}{}", "x {{{}}}", "}{", ";}", "{;", "a {\n}\n}\n }\n",
        "²", "²{}", "s { ²l }", "let x = ²5 min", "let x = 5² min", "let x = 5 ²", "let x = \u0663 min", "let x = \u00BD h", "let x = 1\u00BD h",
        "let x = \uFF15 min", "zone \u0663 { output \u0661 }", "let x = \u2167 min",
        "y { 6:30 pm\u2013 }", "y { 6:30 pm5 }", "z { a 90001,5ft2 }", "a s,#\n\"\"{}", "=#\n{}", "group t = #\n# b\na {}", "\u201C\\\u201D {}",
        "let e = \u201Ca\\\u201D",
        "\uD83C", "\uDF31", "zone \uDF31\uD83C { }", "note \"\uD83C\"", "\0", "a\0b {\0}", "\uFEFF", "\uFEFF\uFEFFsite \uFEFF{ }", "a {\r b 1\r}\r",
        "a {\r\n b 1\r}\n", "a\u2028b\u0085c",
        "\"", "\"\\", "\"\\\"", "'", "''", "/*", "//", "#", "\\", "-", "=", ",", ",,,,", "+\n+\n", "let", "let a", "let a =", "site", "steps", "hold from",
        "water for", "schedule { }", "zone { { } }",
        "repeat 99999999999999999999999999999999 times { }",
        "schedule s { steps { repeat 0 times { repeat 99999999999999999999999999999 times { water a for 1 min } } } }",
    ];

    // All in one test: what shows the cases of a theory cannot tell one half of a pair of surrogates from another.
    [Fact]
    public void Each_is_read_and_laid_out_or_refused_in_words()
    {
        foreach (var text in Texts)
        {
            foreach (var file in (string[])[text, Expect.Garden + text, text + "\n" + Expect.Garden,
                $"zone c {{\n{text}\n}}\nschedule s {{\n{text}\nsteps {{\n{text}\n}}\n}}"]) Hold(file);
        }
    }

    [Theory]
    [InlineData("}\n }\n}\n", "1:1 2:2 3:1")]
    [InlineData("a {\n}\n }\n}\n", "1:1 3:2 4:1")]
    public void Braces_that_close_nothing_are_each_an_error(string text, string places) =>
        Assert.Equal(places, string.Join(' ',
            Expect.Read(text).Findings.Where(finding => finding.Rule.Slug != "missing")
            .Select(finding => $"{finding.Primary.Location.Start.Line}:{finding.Primary.Location.Start.Column}")));

    [Theory]
    [InlineData("let x = ‹²5› min")]
    [InlineData("let x = ‹\u0663› min")]
    [InlineData("let x = ‹\u00BD› h")]
    [InlineData("let x = ‹\uFF15› min")]
    public void Other_digits_are_answered_with_plain_ones(string text) =>
        Assert.Contains("digits 0 to 9", Expect.One("syntax", text).Help, StringComparison.Ordinal);

    [Theory]
    [InlineData('a')]
    [InlineData('1')]
    [InlineData('"')]
    [InlineData('{')]
    [InlineData('}')]
    [InlineData('#')]
    [InlineData(',')]
    [InlineData('\n')]
    [InlineData('\r')]
    [InlineData(' ')]
    [InlineData('-')]
    [InlineData('.')]
    [InlineData('\uD83C')]
    [InlineData('\u0301')]
    public void A_million_of_one_character_are_answered_in_seconds(char character)
    {
        var watch = Stopwatch.StartNew();
        Hold(new string(character, Huge));
        Hold("zone a { " + new string(character, Huge));
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 60);
    }

    [Fact]
    public void Deep_nesting_is_refused_in_words()
    {
        foreach (var opening in (string[])["{", "a {", "steps {", "schedule a { steps { repeat 2 times {", "a = {\n"])
        {
            var text = string.Concat(Enumerable.Repeat(opening, 10_000));
            Hold(text);
            Assert.Contains(Expect.Read(text).Findings, finding => finding.Rule == ReadingRules.OverLimit);
        }
    }

    /// <summary>
    /// Holds that a text is read, that each finding has a place in it, and that its layout is refused for an error, or says the same and comes out of itself.
    /// </summary>
    private static void Hold(string text)
    {
        var reading = Expect.Read(text);
        foreach (var finding in reading.Findings) Assert.InRange(finding.Primary.Location.Span.End, 0, finding.Primary.Location.Source.Text.Length);
        var findings = new FindingList();
        var formatted = Formatter.Format(SourceText.From("site.water", text), findings);
        if (formatted is null) Assert.True(findings.HasErrors);
        else Assert.Equal(formatted.Text, Formatter.Format(formatted, [])?.Text);
    }
}
