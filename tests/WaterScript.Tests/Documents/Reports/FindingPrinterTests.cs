using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Documents.Reports;
using WaterScript.Text;
using WaterScript.Text.Lines;
using WaterScript.Wording;
using Xunit;

namespace WaterScript.Tests.Documents.Reports;

/// <summary>Findings exactly as a person sees them, next to the source that they are about.</summary>
public class FindingPrinterTests
{
    private static readonly Rule Rule = new("flow-over-supply", Severity.Error, "too much water at once") { Category = RuleCategory.Water, Finds = "" };

    [Fact]
    public void A_finding_shows_its_place_the_cause_and_a_way_out()
    {
        var source = Source("""
            supply bore {
              flow 25 L/min
            }

            schedule mist {
              water bench-a + bench-b, bench-c for 20 min
            }
            """);
        Shows(
            new Finding(Rule, "too much water at once", At(source, "bench-a + bench-b", "these together need 26.0 L/min"))
            {
                Others = [At(source, "25 L/min", "the supply gives 25.0 L/min")],
                Details = "Tue 15 Sep 2026 08:12 for the first time\n  Bench A (output 1)   8.0",
                Help = "start the weaning at 08:00:30, which clears 75 of them",
            },
            """
            error: too much water at once [flow-over-supply]
              site.water:6:9
                6 |   water bench-a + bench-b, bench-c for 20 min
                  |         ^^^^^^^^^^^^^^^^^ these together need 26.0 L/min
                2 |   flow 25 L/min
                  |        -------- the supply gives 25.0 L/min
              Tue 15 Sep 2026 08:12 for the first time
                Bench A (output 1)   8.0
              Fix: start the weaning at 08:00:30, which clears 75 of them

            """);
    }

    [Fact]
    public void Labels_in_other_files_come_under_their_own_place()
    {
        var site = Source("zone lawn { output 2 }");
        var other = SourceText.From("zones/front.water", "\n\nzone lawn { output 1 }");
        Shows(
            new Finding(Rule, "two zones are called \"lawn\"", At(site, "lawn", "")) { Others = [At(other, "lawn", "the first one")] },
            """
            error: two zones are called "lawn" [flow-over-supply]
              site.water:1:6
                1 | zone lawn { output 2 }
                  |      ^^^^
              zones/front.water:3:6
                3 | zone lawn { output 1 }
                  |      ---- the first one

            """);
    }

    [Fact]
    public void Several_labels_of_one_line_have_a_row_each_and_dots_stand_for_lines_left_out()
    {
        var source = Source("zone a { output 1; output 2 }\n#\n#\n#\nzone b\nzone c");
        Shows(
            new Finding(Rule, "stated twice", At(source, "output 2", "stated again"))
            {
                Others = [At(source, "output 1", "first here"), At(source, "zone b", "as for this"), At(source, "zone c", "and this")],
            },
            """
            error: stated twice [flow-over-supply]
              site.water:1:20
                1 | zone a { output 1; output 2 }
                  |                    ^^^^^^^^ stated again
                  |          -------- first here
              ...
                5 | zone b
                  | ------ as for this
                6 | zone c
                  | ------ and this

            """);
    }

    [Fact]
    public void A_span_over_lines_shows_the_first_and_the_last()
    {
        var source = Source("schedule a {\n  on mon\n  steps { }\n}\n");
        var whole = new TextSpan(0, source.Text.Length);
        Shows(
            Finding.At(Rule, new Location(source, whole), "never due", "waters on no day"),
            """
            error: never due [flow-over-supply]
              site.water:1:1
                1 | schedule a {
                  | ^^^^^^^^^^^^
              ...
                4 | }
                  | ^ waters on no day

            """);
    }

    [Fact]
    public void Carets_stand_under_what_the_eye_sees()
    {
        // Widths from EastAsianWidth.txt of Unicode: CJK and emoji take two columns; an accent of its own takes none.
        var source = Source("\tzone 庭 \"😀 e\u0301👩\u200D🌾\" { outptu 1 }");
        Shows(
            Finding.At(Rule, At(source, "outptu", "").Location, "no property is called \"outptu\""),
            "error: no property is called \"outptu\" [flow-over-supply]\n"
            + "  site.water:1:24\n"
            + "    1 |     zone 庭 \"😀 e\u0301👩\u200D🌾\" { outptu 1 }\n"
            + "      |                        ^^^^^^\n"
            + "\n");
    }

    [Fact]
    public void Nothing_in_a_source_steers_the_terminal()
    {
        var source = Source("zone a\u001b[31m \"\u202Eb\u0000\" x");
        Shows(
            Finding.At(Rule, At(source, "x", "").Location, "found \u001b[2J"),
            """
            error: found <U+001B>[2J [flow-over-supply]
              site.water:1:19
                1 | zone a<U+001B>[31m "<U+202E>b<U+0000>" x
                  |                                        ^

            """);
    }

    [Fact]
    public void An_empty_span_is_one_caret_also_at_the_end_of_the_file()
    {
        var source = Source("site a {\n");
        Shows(
            Finding.At(Rule, new Location(source, new TextSpan(source.Text.Length, 0)), "a } is missing", "the file ends here"),
            """
            error: a } is missing [flow-over-supply]
              site.water:2:1
                1 | site a {
                2 |
                  | ^ the file ends here

            """);
        Shows(
            Finding.At(Rule, new Location(Source(""), new TextSpan(0, 0)), "nothing here"),
            """
            error: nothing here [flow-over-supply]
              site.water:1:1
                1 |
                  | ^

            """);
    }

    [Fact]
    public void A_long_line_is_cut_around_its_label()
    {
        var source = Source(string.Concat(Enumerable.Repeat("water a for 1 min; ", 3_000)) + "watr b; " + new string('x', 9_000));
        Shows(
            Finding.At(Rule, At(source, "watr", "").Location, "no statement is called \"watr\""),
            """
            error: no statement is called "watr" [flow-over-supply]
              site.water:1:57001
                1 | …for 1 min; water a for 1 min; watr b; xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…
                  |                                ^^^^

            """);
    }

    [Fact]
    public void A_span_longer_than_the_line_that_is_shown_is_cut_with_it()
    {
        var source = Source(new string('x', 300));
        Shows(
            Finding.At(Rule, new Location(source, new TextSpan(0, 300)), "long"),
            $"error: long [flow-over-supply]\n  site.water:1:1\n    1 | {new string('x', 120)}…\n      | {new string('^', 120)}\n\n");
    }

    [Fact]
    public void A_fix_is_the_way_out_where_no_other_is_given()
    {
        var source = Source("18min");
        var place = new Location(source, new TextSpan(0, 5));
        Shows(
            Finding.At(ReadingRules.UnusualForm, place, "a number and its unit are two words") with { Fix = Fix.Safe("write 18 min", place, "18 min") },
            """
            advice: a number and its unit are two words [unusual-form]
              site.water:1:1
                1 | 18min
                  | ^^^^^
              Fix: write 18 min

            """);
    }

    [Fact]
    public void Colour_only_when_asked()
    {
        var finding = Finding.At(Rule, At(Source("zone a"), "a", "").Location, "found");
        Assert.DoesNotContain('\e', Print(finding, colour: false));
        Assert.Equal(
            "\e[1;31merror\e[0m\e[1m: found\e[0m [flow-over-supply]\n"
            + "\e[34m  site.water:1:6\e[0m\n"
            + "\e[34m    1 |\e[0m zone a\n"
            + "\e[34m      |\e[0m      \e[1;31m^\e[0m\n\n",
            Print(finding, colour: true));
    }

    [Theory]
    [InlineData(0, 0, 0, "no findings")]
    [InlineData(1, 0, 0, "1 error")]
    [InlineData(1, 2, 1, "1 error, 2 warnings, 1 piece of advice")]
    [InlineData(0, 1, 3, "1 warning, 3 pieces of advice")]
    public void A_tally_counts_by_weight(int errors, int warnings, int advice, string expected)
    {
        var place = new Location(Source("a"), new TextSpan(0, 1));
        IEnumerable<Finding> Some(int count, Severity severity) =>
            Enumerable.Repeat(Finding.At(Rule, place, "found") with { Severity = severity }, count);

        Assert.Equal(expected, FindingSummary.Of(Some(advice, Severity.Advice).Concat(Some(errors, Severity.Error)).Concat(Some(warnings, Severity.Warning))));
    }

    private static void Shows(Finding finding, string expected) =>
        Assert.Equal(expected.ReplaceLineEndings("\n") + (expected.EndsWith("\n\n", StringComparison.Ordinal) ? "" : "\n"), Print(finding, colour: false));

    private static string Print(Finding finding, bool colour)
    {
        var output = new StringWriter();
        new FindingPrinter(new PlainLines(output, colour)).Print(finding);
        return output.ToString();
    }

    private static SourceText Source(string text) => SourceText.From("site.water", text.ReplaceLineEndings("\n"));

    private static Label At(SourceText source, string text, string words) =>
        new(new Location(source, new TextSpan(source.Text.IndexOf(text, StringComparison.Ordinal), text.Length)), words);
}
