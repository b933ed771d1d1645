using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Documents.Reports;

/// <summary>What to do about a finding, and the lines that it changes.</summary>
public class FixPrinterTests
{
    private const string Heading = "error: found [flow-over-supply]\n  site.water:1:1\n";

    [Fact]
    public void A_safe_fix_says_who_makes_it_and_shows_the_line()
    {
        var place = Printed.Place(Printed.Source("18min"), "18min");
        Assert.Equal(
            Printed.Text(
            """
            advice: found [unusual-form]
              site.water:1:1
                 1 | 18min
                   | ^^^^^
              Fix (--fix): write `18 min`
                 1 - 18min
                 1 + 18 min
            """),
            Printed.Of(Finding.At(ReadingRules.UnusualForm, place, "found") with { Fix = Fix.Safe("write `18 min`", place, "18 min") }));
    }

    /// <summary>The words of a finding stand before those of its fix, without a full stop where lines follow.</summary>
    [Theory]
    [InlineData(true, "Fix (--fix): do it")]
    [InlineData(false, "Fix (changes the watering): do it")]
    public void A_fix_that_is_not_safe_changes_the_watering(bool isSafe, string line)
    {
        var place = Printed.Place(Printed.Source("a"), "a");
        var finding = Finding.At(Printed.Rule, place, "found") with
        {
            Help = "Do it.",
            Fix = new Fix("another title", isSafe, [new TextEdit(place, "b")]),
        };
        Assert.Equal($"{Heading}     1 | a\n       | ^\n  {line}\n     1 - a\n     1 + b\n\n", Printed.Of(finding));
    }

    [Fact]
    public void A_fix_of_the_reading_that_is_not_safe_guesses()
    {
        var place = Printed.Place(Printed.Source("2,5"), "2,5");
        var finding = Finding.At(ReadingRules.DecimalComma, place, "a comma in a number") with { Fix = Fix.Unsafe("write `2.5`", place, "2.5") };
        Assert.EndsWith("\n  Fix (if that is meant): write `2.5`\n     1 - 2,5\n     1 + 2.5\n\n", Printed.Of(finding), StringComparison.Ordinal);
    }

    [Fact]
    public void Words_without_an_edit_keep_their_full_stop()
    {
        var place = Printed.Place(Printed.Source("a"), "a");
        Assert.EndsWith("       | ^\n  Fix: write L/min or L/h.\n\n",
            Printed.Of(Finding.At(Printed.Rule, place, "found") with { Help = "Write L/min or L/h." }), StringComparison.Ordinal);
        Assert.EndsWith("       | ^\n\n", Printed.Of(Finding.At(Printed.Rule, place, "found")), StringComparison.Ordinal);
        Assert.EndsWith("  Fix: VA of the transformer, more.\n\n",
            Printed.Of(Finding.At(Printed.Rule, place, "found") with { Help = "VA of the transformer, more." }), StringComparison.Ordinal);
    }

    [Fact]
    public void A_long_fix_hangs()
    {
        var place = Printed.Place(Printed.Source("a"), "a");
        var (b, c, d) = (new string('b', 90), new string('c', 96), new string('d', 3));
        Assert.EndsWith($"  Fix: {b}\n    {c}\n    {d}.\n\n",
            Printed.Of(Finding.At(Printed.Rule, place, "found") with { Help = $"{b} {c} {d}." }), StringComparison.Ordinal);
    }

    [Fact]
    public void Three_lines_of_one_sign_are_shown_and_of_more_the_first_two()
    {
        Assert.EndsWith("Fix (--fix): do it\n     1 - a\n     2 - b\n     3 - c\n     1 + x\n\n",
            Changed("a\nb\nc\n", "a\nb\nc\n", "x\n"), StringComparison.Ordinal);
        Assert.EndsWith(
            "Fix (--fix): do it\n     1 - a\n     2 - b\n       … 2 more lines\n     1 + v\n     2 + w\n       … 3 more lines\n\n",
            Changed("a\nb\nc\nd\n", "a\nb\nc\nd\n", "v\nw\nx\ny\nz\n"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_line_that_is_put_in_is_one_plus() => Assert.EndsWith(
        "Fix (--fix): do it\n     2 +   stagger 500 ms\n\n",
        Inserted("controller box {\n  outputs 4\n}\n", "  outputs", "  stagger 500 ms\n"), StringComparison.Ordinal);

    [Fact]
    public void A_line_that_is_deleted_is_one_minus()
    {
        var source = Printed.Source("zone a { output 1 }\naccept skipped-time because \"x\"\nzone b { output 2 }\n");
        var place = Printed.Place(source, "accept skipped-time because \"x\"");
        Assert.EndsWith("Fix (--fix): delete it\n     2 - accept skipped-time because \"x\"\n\n",
            Printed.Of(Finding.At(Printed.Rule, place, "found") with { Fix = Fix.SafeDeletion("delete it", place) }), StringComparison.Ordinal);
    }

    [Fact]
    public void An_edit_in_another_file_has_the_file_before_it()
    {
        var (site, other) = (Printed.Source("run all"), Printed.Source("sequence all { }\nwater lawm\n", "shared.water"));
        var finding = Finding.At(Printed.Rule, Printed.Place(site, "run all"), "found") with
        {
            Fix = new Fix("do it", IsSafe: true,
                [new TextEdit(Printed.Place(site, "all"), "lawns"), new TextEdit(Printed.Place(other, "all"), "lawns")]),
        };
        Assert.EndsWith(
            "Fix (--fix): do it\n     1 - run all\n     1 + run lawns\n  shared.water\n     1 - sequence all { }\n     1 + sequence lawns { }\n\n",
            Printed.Of(finding), StringComparison.Ordinal);
    }

    /// <summary>Two places are shown; of more, the first, and how many lines change in the others.</summary>
    [Fact]
    public void Of_many_places_the_first_is_shown()
    {
        var source = Printed.Source("zone a1\n#\nzone a2\n#\nzone a3\n");
        string Of(int count) => Printed.Of(Finding.At(Printed.Rule, Printed.Place(source, "a1"), "found") with
        {
            Fix = new Fix("do it", IsSafe: true,
                [.. Enumerable.Range(1, count).Select(number => new TextEdit(Printed.Place(source, $"a{number}"), $"b{number}"))]),
        });
        Assert.EndsWith("Fix (--fix): do it\n     1 - zone a1\n     1 + zone b1\n     3 - zone a2\n     3 + zone b2\n\n", Of(2), StringComparison.Ordinal);
        Assert.EndsWith("Fix (--fix): do it\n     1 - zone a1\n     1 + zone b1\n       … 4 more lines\n\n", Of(3), StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_in_an_edit_steers_the_terminal()
    {
        var source = Printed.Source("a \u001b[2J\u202E");
        var place = Printed.Place(source, "a");
        Assert.EndsWith("     1 - a <U+001B>[2J<U+202E>\n     1 + b <U+001B>[2J<U+202E>\n\n",
            Printed.Of(Finding.At(Printed.Rule, place, "found") with { Fix = Fix.Safe("do it", place, "b") }), StringComparison.Ordinal);
    }

    [Fact]
    public void Plus_and_Fix_are_green_and_minus_is_red()
    {
        var place = Printed.Place(Printed.Source("a"), "a");
        Assert.EndsWith(
            "  \e[32mFix (--fix)\e[0m: do it\n\e[34m     1\e[0m\e[31m - a\e[0m\n\e[34m     1\e[0m\e[32m + b\e[0m\n\n",
            Printed.Of(Finding.At(Printed.Rule, place, "found") with { Fix = Fix.Safe("do it", place, "b") }, colour: true), StringComparison.Ordinal);
    }

    [Fact]
    public void A_changed_line_wider_than_the_terminal_is_cut()
    {
        var source = Printed.Source("a" + new string('x', 200));
        var place = Printed.Place(source, "a");
        var finding = Finding.At(Printed.Rule, place, "found") with { Fix = Fix.Safe("do it", place, "b") };
        Assert.EndsWith($"     1 - a{new string('x', 89)}…\n     1 + b{new string('x', 89)}…\n\n",
            Printed.Of(finding, width: 100), StringComparison.Ordinal);
        Assert.EndsWith($"     1 - a{new string('x', 200)}\n     1 + b{new string('x', 200)}\n\n",
            Printed.Of(finding), StringComparison.Ordinal);
    }

    private static string Changed(string text, string taken, string written)
    {
        var place = Printed.Place(Printed.Source(text), taken);
        return Printed.Of(Finding.At(Printed.Rule, place, "found") with { Fix = Fix.Safe("do it", place, written) });
    }

    private static string Inserted(string text, string before, string written)
    {
        var place = Printed.Place(Printed.Source(text), before);
        var at = place with { Span = new TextSpan(place.Span.Start, 0) };
        return Printed.Of(Finding.At(Printed.Rule, place, "found") with { Fix = Fix.Safe("do it", at, written) });
    }
}
