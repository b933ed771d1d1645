using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Text;
using WaterScript.Wording;
using Xunit;

namespace WaterScript.Tests.Documents.Reports;

/// <summary>Findings exactly as a person sees them, next to the source that they are about.</summary>
public class FindingPrinterTests
{
    private static readonly Rule Rule = Printed.Rule;

    [Fact]
    public void A_finding_shows_its_place_the_cause_and_a_fix()
    {
        var source = Printed.Source("""
            supply bore {
              flow 25 L/min
            }

            schedule mist {
              water bench-a + bench-b, bench-c for 20 min
            }
            """);
        Shows(
            new Finding(Rule, "too much water at once", Printed.At(source, "bench-a + bench-b", "these together need 26.0 L/min"))
            {
                Others = [Printed.At(source, "25 L/min", "the supply gives 25.0 L/min")],
                Details = "Tue 15 Sep 2026 08:12 for the first time\n  Bench A (output 1)   8.0",
                Help = "start the weaning at 08:00:30, which clears 75 of them",
            },
            """
            error: too much water at once [flow-over-supply]
              site.water:6:9
                 2 |   flow 25 L/min
                   |        -------- the supply gives 25.0 L/min
               ...
                 6 |   water bench-a + bench-b, bench-c for 20 min
                   |         ^^^^^^^^^^^^^^^^^ these together need 26.0 L/min
              Tue 15 Sep 2026 08:12 for the first time
                Bench A (output 1)   8.0
              Fix: start the weaning at 08:00:30, which clears 75 of them

            """);
    }

    [Fact]
    public void Labels_in_other_files_come_under_their_own_place()
    {
        var site = Printed.Source("zone lawn { output 2 }");
        var other = SourceText.From("zones/front.water", "\n\nzone lawn { output 1 }");
        Shows(
            new Finding(Rule, "two zones are called \"lawn\"", Printed.At(site, "lawn", "")) { Others = [Printed.At(other, "lawn", "the first one")] },
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
        var source = Printed.Source("zone a { output 1; output 2 }\n#\n#\n#\nzone b\nzone c");
        Shows(
            new Finding(Rule, "stated twice", Printed.At(source, "output 2", "stated again"))
            {
                Others = [Printed.At(source, "output 1", "first here"), Printed.At(source, "zone b", "as for this"), Printed.At(source, "zone c", "and this")],
            },
            """
            error: stated twice [flow-over-supply]
              site.water:1:20
                 1 | zone a { output 1; output 2 }
                   |          -------- first here
                   |                    ^^^^^^^^ stated again
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
        var source = Printed.Source("schedule a {\n  on mon\n  steps { }\n}\n");
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
        var source = Printed.Source("\tzone 庭 \"😀 e\u0301👩\u200D🌾\" { outptu 1 }");
        Shows(
            Finding.At(Rule, Printed.At(source, "outptu", "").Location, "no property is called \"outptu\""),
            "error: no property is called \"outptu\" [flow-over-supply]\n"
            + "  site.water:1:24\n"
            + "     1 |  zone 庭 \"😀 e\u0301👩\u200D🌾\" { outptu 1 }\n"
            + "       |                     ^^^^^^\n"
            + "\n");
    }

    [Fact]
    public void Nothing_in_a_source_steers_the_terminal()
    {
        var source = Printed.Source("zone a\u001b[31m \"\u202Eb\u0000\" x");
        Shows(
            Finding.At(Rule, Printed.At(source, "x", "").Location, "found \u001b[2J"),
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
        var source = Printed.Source("site a {\n");
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
            Finding.At(Rule, new Location(Printed.Source(""), new TextSpan(0, 0)), "nothing here"),
            """
            error: nothing here [flow-over-supply]
              site.water:1:1
                 1 |
                   | ^

            """);
    }

    /// <summary>Left of the mark stands a quarter of the room; a cut takes a column.</summary>
    [Fact]
    public void A_long_line_is_cut_around_its_mark()
    {
        var source = Printed.Source(string.Concat(Enumerable.Repeat("water a for 1 min; ", 3_000)) + "watr b; " + new string('x', 9_000));
        var finding = Finding.At(Rule, Printed.Place(source, "watr"), "no statement is called \"watr\"");
        Assert.Equal(
            Printed.Text(
            """
            error: no statement is called "watr" [flow-over-supply]
              site.water:1:57001
                 1 | …n; water a for 1 min; watr b; xxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxxx…
                   |                        ^^^^
            """),
            Printed.Of(finding, width: 100));
    }

    [Theory]
    [InlineData(null, 391)]
    [InlineData(100, 91)]
    [InlineData(300, 91)]
    [InlineData(60, 51)]
    public void A_span_longer_than_the_line_that_is_shown_is_cut_with_it(int? width, int shown)
    {
        var source = Printed.Source(new string('x', 500));
        Assert.Equal(
            $"error: long [flow-over-supply]\n  site.water:1:1\n     1 | {new string('x', shown - 2)}…\n       | {new string('^', shown - 2)}\n\n",
            Printed.Of(Finding.At(Rule, new Location(source, new TextSpan(0, 500)), "long"), width));
    }

    /// <summary>Without a terminal a line of an ordinary file stays whole, and a label that leaves the 100 columns goes below its mark.</summary>
    [Fact]
    public void Without_a_terminal_no_ordinary_line_is_cut()
    {
        var line = $"zone a {{ output 1 }} # {new string('x', 200)}";
        Assert.Equal(
            $"error: found [flow-over-supply]\n  site.water:1:6\n     1 | {line}\n       |      ^ the zone\n\n",
            Printed.Of(new Finding(Rule, "found", Printed.At(Printed.Source(line), "a", "the zone"))));
    }

    [Fact]
    public void One_line_between_two_marks_is_shown_and_two_are_dots()
    {
        var source = Printed.Source("zone a\n# one\nzone b\n# two\n# three\nzone c");
        Shows(
            new Finding(Rule, "found", Printed.At(source, "zone b", "this"))
            {
                Others = [Printed.At(source, "zone c", "and this"), Printed.At(source, "zone a", "that")],
            },
            """
            error: found [flow-over-supply]
              site.water:3:1
                 1 | zone a
                   | ------ that
                 2 | # one
                 3 | zone b
                   | ^^^^^^ this
               ...
                 6 | zone c
                   | ------ and this
            """);
    }

    /// <summary>The four lines that are named first are shown, in the order of the source.</summary>
    [Theory]
    [InlineData(4, "")]
    [InlineData(5, "   ... and 1 more line\n")]
    [InlineData(7, "   ... and 3 more lines\n")]
    public void At_most_four_marked_lines_are_shown(int lines, string more)
    {
        var source = Printed.Source(string.Join('\n', Enumerable.Range(1, lines).Select(number => $"zone z{number}")));
        var finding = new Finding(Rule, "found", Printed.At(source, "z2"))
        {
            Others = [.. Enumerable.Range(1, lines).Where(number => number != 2).Select(number => Printed.At(source, $"z{number}", $"no. {number}"))],
        };
        Assert.Equal(
            "error: found [flow-over-supply]\n  site.water:2:6\n"
            + "     1 | zone z1\n       |      -- no. 1\n     2 | zone z2\n       |      ^^\n"
            + "     3 | zone z3\n       |      -- no. 3\n     4 | zone z4\n       |      -- no. 4\n" + more + "\n",
            Printed.Of(finding));
    }

    [Fact]
    public void A_label_that_does_not_fit_goes_below_its_mark()
    {
        var source = Printed.Source($"zone figs {{ output 5; valve ac24; wire 280 m 1 mm2 }}");
        Shows(
            new Finding(Rule, "found", Printed.At(source, "wire 280 m 1 mm2", "gets 20.5 V as it opens, much less than 21 V")),
            """
            error: found [flow-over-supply]
              site.water:1:35
                 1 | zone figs { output 5; valve ac24; wire 280 m 1 mm2 }
                   |                                   ^^^^^^^^^^^^^^^^
                   |                                   gets 20.5 V as it opens, much less than 21 V
            """);
    }

    [Fact]
    public void Facts_come_one_after_the_other_with_when_it_happens_and_what_is_assumed()
    {
        var source = Printed.Source("zone a");
        Shows(
            new Finding(Rule, "found", Printed.At(source, "a"))
            {
                Details = "kale 11.0 + berries 9.5 = 20.5 L/min: 2.5 L/min too much.",
                Happens = new(new(2026, 4, 16, 6, 40), new(2027, 9, 30, 6, 40), Times: 97, Days: 97),
                Assumed = "The tank is full at the start.",
                Help = "Water them one after the other.",
            },
            """
            error: found [flow-over-supply]
              site.water:1:6
                 1 | zone a
                   |      ^
              kale 11.0 + berries 9.5 = 20.5 L/min: 2.5 L/min too much.
              First Thu 16 Apr 2026 06:40; 97 times; last Thu 30 Sep 2027 06:40.
              Assumed: the tank is full at the start.
              Fix: water them one after the other.
            """);
    }

    /// <summary>Of 100 columns, two are the indent; what goes on stands two further in.</summary>
    [Fact]
    public void A_long_fact_hangs()
    {
        var finding = new Finding(Rule, "found", Printed.At(Printed.Source("zone a"), "a"))
        {
            Details = $"{new string('a', 48)} {new string('b', 49)} {new string('c', 47)} {new string('d', 48)} e",
        };
        Assert.Equal(
            $"""
            error: found [flow-over-supply]
              site.water:1:6
                 1 | zone a
                   |      ^
              {new string('a', 48)} {new string('b', 49)}
                {new string('c', 47)} {new string('d', 48)}
                e


            """.ReplaceLineEndings("\n"),
            Printed.Of(finding));
    }

    [Fact]
    public void Colour_only_when_asked()
    {
        var finding = new Finding(Rule, "found", Printed.At(Printed.Source("zone a"), "a", "this"))
        {
            Others = [Printed.At(Printed.Source("zone b", "other.water"), "b", "that")],
            Details = "A sum.",
            Help = "Do it.",
        };
        Assert.DoesNotContain('\e', Printed.Of(finding));
        Assert.Equal(
            "\e[1;31merror\e[0m\e[1m: found\e[0m [flow-over-supply]\n"
            + "\e[34m  site.water:1:6\e[0m\n"
            + "\e[34m     1 |\e[0m zone a\n"
            + "\e[34m       |\e[0m      \e[1;31m^\e[0m this\n"
            + "\e[34m  other.water:1:6\e[0m\n"
            + "\e[34m     1 |\e[0m zone b\n"
            + "\e[34m       |\e[0m      \e[34m-\e[0m that\n"
            + "  A sum.\n"
            + "  \e[32mFix\e[0m: do it.\n\n",
            Printed.Of(finding, colour: true));
    }

    [Theory]
    [InlineData("error", "1;31")]
    [InlineData("warning", "1;33")]
    [InlineData("advice", "1;36")]
    public void The_word_and_the_mark_have_the_colour_of_the_severity(string word, string code)
    {
        var finding = new Finding(Rule, "found", Printed.At(Printed.Source("zone a"), "a")) { Severity = Enum.Parse<Severity>(word, ignoreCase: true) };
        var printed = Printed.Of(finding, colour: true);
        Assert.StartsWith($"\e[{code}m{word}\e[0m\e[1m: found\e[0m ", printed, StringComparison.Ordinal);
        Assert.EndsWith($"\e[34m       |\e[0m      \e[{code}m^\e[0m\n\n", printed, StringComparison.Ordinal);
    }

    /// <summary>It is grey, marks the line that accepts it with the reason, and has no fix.</summary>
    [Fact]
    public void What_is_accepted_is_grey_and_has_the_reason_and_no_fix()
    {
        var source = Printed.Source("start at 01:20\naccept skipped-time because \"it can wait\"");
        var finding = new Finding(Rule, "the clock skips 01:20", Printed.At(source, "01:20", "runs at 02:20"))
        {
            Severity = Severity.Warning,
            Help = "Start later.",
            Fix = Fix.Safe("write 02:20", Printed.Place(source, "01:20"), "02:20"),
        };
        void Print(FindingPrinter printer) => printer.PrintAccepted(finding, Printed.At(source, "accept skipped-time", "\"it can wait\""));
        Assert.Equal(
            Printed.Text(
            """
            accepted warning: the clock skips 01:20 [flow-over-supply]
              site.water:1:10
                 1 | start at 01:20
                   |          ^^^^^ runs at 02:20
                 2 | accept skipped-time because "it can wait"
                   | ------------------- "it can wait"
            """),
            Printed.Written(Print));
        var coloured = Printed.Written(Print, colour: true);
        Assert.StartsWith("\e[90maccepted warning\e[0m\e[1m: the clock skips 01:20\e[0m ", coloured, StringComparison.Ordinal);
        Assert.Contains("\e[90m^^^^^\e[0m runs at 02:20\n", coloured, StringComparison.Ordinal);
        Assert.Contains("\e[34m-------------------\e[0m \"it can wait\"\n", coloured, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0, 0, 0, "no findings")]
    [InlineData(1, 0, 0, "1 error")]
    [InlineData(1, 2, 1, "1 error, 2 warnings, 1 piece of advice")]
    [InlineData(0, 1, 3, "1 warning, 3 pieces of advice")]
    public void A_tally_counts_by_weight(int errors, int warnings, int advice, string expected)
    {
        var place = new Location(Printed.Source("a"), new TextSpan(0, 1));
        IEnumerable<Finding> Some(int count, Severity severity) =>
            Enumerable.Repeat(Finding.At(Rule, place, "found") with { Severity = severity }, count);

        Assert.Equal(expected, FindingSummary.Of(Some(advice, Severity.Advice).Concat(Some(errors, Severity.Error)).Concat(Some(warnings, Severity.Warning))));
    }

    private static void Shows(Finding finding, string expected) => Assert.Equal(Printed.Text(expected.TrimEnd('\n', '\r')), Printed.Of(finding));
}
