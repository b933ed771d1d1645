using WaterScript.Diagnostics;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Documents.Reports;

/// <summary>One finding on terminals of several widths.</summary>
public class ReportLayoutTests
{
    private static readonly SourceText Source = Printed.Source(
        """
        supply tap { flow 18 L/min }
        zone kale { output 1; flow 11 L/min }
        zone berries { output 2; flow 9.5 L/min }
        schedule dusk {
          steps { water kale + berries for 25 min }
        }
        """);

    [Theory]
    [InlineData(100)]
    [InlineData(200)]
    [InlineData(null)]
    public void Where_there_is_room_labels_stand_beside_their_marks(int? width) => Shows(
        """
        error: zones need 20.5 L/min at once, supply tap gives 18.0 [flow-over-supply]
          site.water:5:11
             1 | supply tap { flow 18 L/min }
               |              ------------- gives 18.0 L/min
             2 | zone kale { output 1; flow 11 L/min }
               |                       ------------- draws 11.0 L/min
           ...
             5 |   steps { water kale + berries for 25 min }
               |           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ needs 20.5 L/min
          kale 11.0 + berries 9.5 = 20.5 L/min: 2.5 L/min too much.
          First Thu 16 Apr 2026 06:40; 97 times; last Thu 30 Sep 2027 06:40.
          Fix (changes the watering): water them one after the other
             5 -   steps { water kale + berries for 25 min }
             5 +   steps { water kale, berries for 25 min }
        """,
        width);

    [Theory]
    [InlineData(79)]
    [InlineData(68)]
    public void Under_80_columns_labels_stand_below_their_marks(int width) => Shows(
        """
        error: zones need 20.5 L/min at once, supply tap gives 18.0 [flow-over-supply]
          site.water:5:11
             1 | supply tap { flow 18 L/min }
               |              -------------
               |              gives 18.0 L/min
             2 | zone kale { output 1; flow 11 L/min }
               |                       -------------
               |                       draws 11.0 L/min
           ...
             5 |   steps { water kale + berries for 25 min }
               |           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
               |           needs 20.5 L/min
          kale 11.0 + berries 9.5 = 20.5 L/min: 2.5 L/min too much.
          First Thu 16 Apr 2026 06:40; 97 times; last Thu 30 Sep 2027 06:40.
          Fix (changes the watering): water them one after the other
             5 -   steps { water kale + berries for 25 min }
             5 +   steps { water kale, berries for 25 min }
        """,
        width);

    /// <summary>The heading, with the name of the rule, is never cut.</summary>
    [Fact]
    public void Under_60_columns_there_are_two_marks_no_minus_and_wrapped_facts() => Shows(
        """
        error: zones need 20.5 L/min at once, supply tap gives 18.0 [flow-over-supply]
          site.water:5:11
             1 | supply tap { flow 18 L/min }
               |              -------------
               |              gives 18.0 L/min
           ...
             5 |   steps { water kale + berries for 25 min }
               |           ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
               |           needs 20.5 L/min
          kale 11.0 + berries 9.5 = 20.5 L/min: 2.5 L/min too much.
          First Thu 16 Apr 2026 06:40; 97 times; last Thu
            30 Sep 2027 06:40.
          Fix (changes the watering): water them one after the
            other
             5 +   steps { water kale, berries for 25 min }
        """,
        59);

    [Fact]
    public void Under_40_columns_there_are_heading_place_when_and_fix() => Shows(
        """
        error: zones need 20.5 L/min at once, supply tap gives 18.0 [flow-over-supply]
          site.water:5:11
          First Thu 16 Apr 2026 06:40;
            97 times; last Thu 30 Sep 2027
            06:40.
          Fix (changes the watering): water
            them one after the other
        """,
        39);

    [Theory]
    [InlineData(59)]
    [InlineData(40)]
    [InlineData(25)]
    public void No_line_but_the_heading_is_wider_than_the_terminal(int width) => Assert.All(
        Printed.Of(Overload, width).Split('\n').Skip(1), line => Assert.True(line.Length <= width, line));

    /// <summary>However far to the right that is.</summary>
    [Fact]
    public void Without_a_terminal_a_label_below_its_mark_begins_where_the_mark_does()
    {
        var line = $"zone a {{ output 1 }} # {new string('x', 97)} b";
        Assert.Equal(
            $"error: found [flow-over-supply]\n  site.water:1:121\n     1 | {line}\n"
            + $"       | {new string(' ', 120)}^\n       | {new string(' ', 120)}the zone\n\n",
            Printed.Of(new Finding(Printed.Rule, "found", Printed.At(Printed.Source(line), "b", "the zone"))));
    }

    [Fact]
    public void Under_60_columns_no_wrong_number_of_marks_is_left_out()
    {
        var source = Printed.Source("zone a\nzone b\nzone c\nzone d\nzone e\nzone f");
        var finding = new Finding(Printed.Rule, "found", Printed.At(source, "zone a"))
        {
            Others = [.. "bcdef".Select(name => Printed.At(source, $"zone {name}"))],
        };
        Assert.Equal(
            "error: found [flow-over-supply]\n  site.water:1:1\n     1 | zone a\n       | ^^^^^^\n     2 | zone b\n       | ------\n\n",
            Printed.Of(finding, width: 59));
    }

    private static Finding Overload { get; } = new(
        Printed.Rule, "zones need 20.5 L/min at once, supply tap gives 18.0", Printed.At(Source, "water kale + berries for 25 min", "needs 20.5 L/min"))
    {
        Others = [Printed.At(Source, "flow 18 L/min", "gives 18.0 L/min"), Printed.At(Source, "flow 11 L/min", "draws 11.0 L/min")],
        Details = "kale 11.0 + berries 9.5 = 20.5 L/min: 2.5 L/min too much.",
        Happens = new(new(2026, 4, 16, 6, 40), new(2027, 9, 30, 6, 40), Times: 97, Days: 97),
        Help = "Water them one after the other.",
        Fix = Fix.Unsafe("write commas", Printed.Place(Source, " + "), ", "),
    };

    private static void Shows(string expected, int? width) => Assert.Equal(Printed.Text(expected), Printed.Of(Overload, width));
}
