using NodaTime;
using WaterScript.Documents.Verdicts;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Proof;
using WaterScript.Simulation;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Documents.Verdicts;

/// <summary>What a verdict says where work ends before the dates do, or before all pairs are compared, and how much fits in a line.</summary>
public class VerdictTests
{
    private const string Text =
        """
        site park { timezone Europe/Lisbon; effective 2026-03-01 }
        supply tap { flow 30 L/min }
        zone lawn { output 1; flow 10 L/min }
        schedule one { every day; start at 06:00; steps { water lawn for 5 min } }
        schedule two { every day; start at 09:00; steps { water lawn for 5 min } }
        """;

    [Fact]
    public void A_check_that_was_cut_says_from_when_on_nothing_was_checked()
    {
        var site = Checked(units: 6_000);
        Assert.True(site.Lint is { IsCut: true } lint && lint.Horizon.Until > lint.Horizon.From);
        var until = site.Lint!.Horizon.Until;
        Assert.StartsWith(
            $"park: 1 error. Checked 1 Mar 2026 to {VerdictWords.Date(until.PlusDays(-1))}; nothing from {VerdictWords.Date(until)} on, at the limit of work.",
            Lines(site)[0].Replace("1 warning", "1 error", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.DoesNotContain(Lines(site), line => line.Contains("collide", StringComparison.Ordinal));
        var several = new SitesVerdict();
        several.Add(site);
        several.Add(Checked());
        Assert.Contains("1 timetable was checked in part only, at the limit of work: test.", several.Lines());
    }

    [Fact]
    public void A_check_of_no_date_says_so() =>
        Assert.EndsWith(". No date was checked: the first is more work than a check may be.", Lines(Checked(units: 1))[0], StringComparison.Ordinal);

    [Theory]
    [InlineData(40, 3, "No schedules can collide before 1 Mar 2426; 3 of 40 pairs not proved.")]
    [InlineData(1, 1, "No schedules can collide before 1 Mar 2028; later dates are not proved.")]
    [InlineData(40, 0, "No schedules can collide before 1 Mar 2426; not all pairs proved.")]
    [InlineData(null, 0, "No schedules can collide before 1 Mar 2426; not all pairs proved.")]
    public void Pairs_that_are_not_proved_are_counted(int? all, int notProved, string line)
    {
        var site = Checked();
        var proof = new ConflictProof(new LocalDate(2426, 3, 1), [], IsWhole: false) { Pairs = all is { } pairs ? (pairs, notProved) : null };
        Assert.Equal(line, Lines(site with { Lint = site.Lint! with { ConflictProof = proof } })[1]);
    }

    [Fact]
    public void Where_not_all_pairs_are_proved_not_all_collisions_are_said_to_be_listed()
    {
        var site = Checked();
        var proof = site.Lint!.ConflictProof! with { IsWhole = false, Pairs = (40, 3) };
        var found = site with { Lint = site.Lint with { ConflictProof = proof, Collisions = 1 } };
        Assert.Equal("Collisions before 1 Mar 2426 are counted; 3 of 40 pairs not proved.", Lines(found)[1]);
    }

    [Theory]
    [InlineData(0, 0, "All collisions before 1 Mar 2426 are counted.")]
    [InlineData(0, 2, "All collisions before 1 Mar 2426 are in the baseline.")]
    public void Collisions_that_are_not_shown_are_not_said_to_be_listed(int listed, int inBaseline, string line)
    {
        var site = Checked();
        Assert.Equal(line, Lines(site with { InBaseline = inBaseline, Lint = site.Lint! with { Collisions = listed + 2 } })[1]);
    }

    [Fact]
    public void As_much_as_fits_is_named_and_the_rest_is_counted()
    {
        var groups = Enumerable.Range(1, 9).Select(number => $"thing {number} (add statement)").ToArray();
        Assert.Equal("Not checked: thing 1 (add statement), thing 2 (add statement), 7 more (--missing).", GapLine.Of(groups));
        Assert.Equal("Not checked: first (add a), last (add c), 1 more (--missing).", GapLine.Of(["first (add a)", new string('x', 60), "last (add c)"]));
        Assert.Equal("Not checked: first (add a), last (add c).", GapLine.Of(["first (add a)", "last (add c)"]));
        Assert.Null(GapLine.Of([]));
        Assert.All(Enumerable.Range(1, 9), count => Assert.InRange(GapLine.Of(groups[..count])!.Length, 1, GapLine.Columns));
    }

    private static string[] Lines(CheckedSite site) => [.. Verdict.Of(site)];

    private static CheckedSite Checked(long? units = null)
    {
        var reading = Expect.Read(Text);
        return new CheckedSite("test.water", reading, Linter.Check(reading.Site!, CheckHorizon.Of(reading.Site!), units));
    }
}
