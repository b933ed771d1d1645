using WaterScript.Diagnostics;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Documents.Reports;

/// <summary>Several findings of a site: what goes together, what is said once, and what is left out.</summary>
public class FindingGroupTests
{
    private static readonly SourceText Source = Printed.Source("zone a\nzone b\n");

    [Fact]
    public void What_goes_with_the_finding_before_is_one_line() => Assert.Equal(
        Printed.Text(
        """
        error: zones need 20.5 L/min at once [flow-over-supply]
          site.water:1:1
             1 | zone a
               | ^^^^^^
          Fix: water them one after the other.
          Also: zones close at once, 20.5 L/min [water-hammer]
        """),
        Printed.Of([
            Found(Printed.Rule, "zone a", "zones need 20.5 L/min at once") with { Help = "Water them one after the other." },
            Found(Printed.Follower, "zone a", "zones close at once, 20.5 L/min") with { Help = "Do something else." }]));

    [Fact]
    public void What_has_the_same_edits_goes_with_it_at_another_place()
    {
        var fix = Fix.Unsafe("do it", Printed.Place(Source, "zone a"), "zone c");
        Assert.EndsWith(
            "  Fix (changes the watering): do it\n     1 - zone a\n     1 + zone c\n  Also: follows [water-hammer]\n\n",
            Printed.Of([Found(Printed.Rule, "zone a") with { Fix = fix }, Found(Printed.Follower, "zone b", "follows") with { Fix = fix }]),
            StringComparison.Ordinal);
    }

    /// <summary>By the rule that it names, at the same place or with the same edit, next to it.</summary>
    [Fact]
    public void What_does_not_go_with_the_finding_before_stands_alone()
    {
        Assert.DoesNotContain("Also:", Printed.Of([Found(Printed.Rule, "zone a"), Found(Printed.Follower, "zone b")]), StringComparison.Ordinal);
        Assert.DoesNotContain("Also:", Printed.Of([Found(Printed.Follower, "zone a"), Found(Printed.Rule, "zone a")]), StringComparison.Ordinal);
        Assert.DoesNotContain("Also:", Printed.Of([Found(Printed.Rule, "zone a"), Found(Printed.Rule, "zone a")]), StringComparison.Ordinal);
        Assert.DoesNotContain("Also:",
            Printed.Of([Found(Printed.Rule, "zone a"), Found(Printed.Rule, "zone b"), Found(Printed.Follower, "zone a")]), StringComparison.Ordinal);
    }

    [Fact]
    public void What_several_assume_is_said_once_at_the_end() => Assert.Equal(
        Printed.Text(
        """
        error: first [flow-over-supply]
          site.water:1:1
             1 | zone a
               | ^^^^^^

        error: second [flow-over-supply]
          site.water:2:1
             2 | zone b
               | ^^^^^^
          Assumed: the soil is full.

        error: third [flow-over-supply]
          site.water:1:1
             1 | zone a
               | ^^^^^^

        Assumed: the tank is full at the start.
        """),
        Printed.Of([
            Found(Printed.Rule, "zone a", "first") with { Assumed = "the tank is full at the start." },
            Found(Printed.Rule, "zone b", "second") with { Assumed = "the soil is full." },
            Found(Printed.Rule, "zone a", "third") with { Assumed = "the tank is full at the start." }]));

    [Fact]
    public void What_a_finding_and_the_one_that_goes_with_it_assume_stays_with_it() => Assert.EndsWith(
        "  Assumed: the tank is full.\n  Also: follows [water-hammer]\n\n",
        Printed.Of([
            Found(Printed.Rule, "zone a") with { Assumed = "the tank is full." },
            Found(Printed.Follower, "zone a", "follows") with { Assumed = "the tank is full." }]),
        StringComparison.Ordinal);

    [Theory]
    [InlineData(20, false, 20, "")]
    [InlineData(21, false, 3, "\nand 18 more [flow-over-supply]; --all shows them\n\n")]
    [InlineData(60, false, 3, "\nand 57 more [flow-over-supply]; --all shows them\n\n")]
    [InlineData(60, true, 60, "")]
    public void Of_more_than_twenty_of_one_rule_three_are_shown(int count, bool all, int shown, string more)
    {
        var printed = Printed.Of(Enumerable.Range(1, count).Select(number => Found(Printed.Rule, "zone a", $"no. {number}")), all);
        Assert.Equal(
            string.Concat(Enumerable.Range(1, shown).Select(number =>
                $"error: no. {number} [flow-over-supply]\n  site.water:1:1\n     1 | zone a\n       | ^^^^^^\n"
                    + (number == shown && more.Length > 0 ? more : "\n"))),
            printed);
    }

    [Fact]
    public void Each_rule_is_counted_alone()
    {
        var printed = Printed.Of([
            .. Enumerable.Range(1, 15).Select(number => Found(Printed.Rule, "zone a", $"no. {number}")),
            .. Enumerable.Range(1, 25).Select(number => Found(Printed.Follower, "zone b", $"no. {number}"))]);
        Assert.Equal(15, printed.Split("[flow-over-supply]\n").Length - 1);
        Assert.Equal(3, printed.Split("[water-hammer]\n").Length - 1);
        Assert.EndsWith("\nand 22 more [water-hammer]; --all shows them\n\n", printed, StringComparison.Ordinal);
    }

    private static Finding Found(Rule rule, string place, string heading = "found") => Finding.At(rule, Printed.Place(Source, place), heading);
}
