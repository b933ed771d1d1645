using WaterScript.Diagnostics;
using WaterScript.Linting.Rules.Restrictions;
using Xunit;

namespace WaterScript.Tests.Linting.Rules.Restrictions;

/// <summary>When a round no longer fits the hours, and when it only starts too late.</summary>
public class WindowTooShortTests
{
    [Theory]
    [InlineData("between 22:00 and 06:00", "start at 22:00", "water a, b for 4 h", "")]
    [InlineData("between 22:00 and 06:00", "start at 22:01", "water a, b for 4 h", "outside-hours")]
    [InlineData("between 22:00 and 06:00", "start at 22:00", "water a for 4 h; water b for 14401 s", "window-too-short")]
    [InlineData("between 22:00 and 06:00", "start at 12:00", "water a, b for 5 h", "window-too-short")]
    [InlineData("between 08:00 and 10:00", "start at 08:00", "water a, b for 61 min", "window-too-short")]
    [InlineData("between 08:00 and 10:00, between 18:00 and 23:00", "start at 08:00", "water a, b for 61 min", "outside-hours")]
    [InlineData("between 20:00 and 23:59:59, between 22:00 and 05:00", "start at 20:30", "water a, b for 4 h", "")]
    [InlineData("between 20:00 and 01:00, between 01:00 and 05:00", "start at 20:01", "water a, b for 270 min", "outside-hours")]
    [InlineData("between 22:00 and 06:00", "finish by 07:00", "water a, b for 4 h", "outside-hours")]
    [InlineData("between 22:00 and 06:00", "start at 22:00", "water a for 4 h; pause 1 h; water b for 3 h", "")]
    [InlineData("between 22:00 and 06:00", "start at 22:00", "water a for 4 h; pause 61 min; water b for 3 h", "window-too-short")]
    [InlineData("between 22:00 and 06:00", "start at 21:00", "pause 1 h; water a, b for 4 h; pause 1 h", "")]
    [InlineData("between 22:00 and 06:00", "start at 22:00", "water free for 1 h; water a, b for 4 h", "outside-hours")]
    [InlineData("between 22:00 and 06:00", "start at 20:00", "water free for 2 h; water a, b for 4 h; water free for 2 h", "")]
    public void Is_reported_in_place_of_outside_hours_where_no_start_would_help(string hours, string start, string steps, string slug)
    {
        var lines = string.Join('\n', hours.Split(", ").Select(each => $"  allow {each}"));
        var found = Found(Site(lines, $"on mon\n  {start}\n  steps {{ {steps} }}"));
        Assert.Equal(slug.Length == 0 ? [] : [slug], found.Select(finding => finding.Rule.Slug));
    }

    [Fact]
    public void Says_the_month_and_its_share_how_often_and_how_much_too_long()
    {
        var finding = Assert.Single(Found(Site("  allow between 22:00 and 06:00",
            "every day\n  from 1 jun to 31 aug\n  start at 22:00\n  scale warm\n  steps { water a, b for 4 h }",
            "scale warm { jun 90 %; jul 110 %; aug 100 % }")));
        Assert.Equal("window-too-short", finding.Rule.Slug);
        Assert.Equal("needs 8 h 48 min in July (110 %), has 8 h", finding.Primary.Text);
        Assert.Equal(("2026-07-02 06:00", 62L, 62L), (Shown(finding.Happens!.First), finding.Happens.Times, finding.Happens.Days));
        Assert.Equal("Take 48 min off, water zones together where the water supply allows, or use two schedules.", finding.Help);
    }

    /// <summary>Lisbon loses the hour from 01:00 to 02:00 on 29 March 2026 and 28 March 2027: those two nights have seven hours, not eight.</summary>
    [Fact]
    public void A_night_that_a_clock_change_shortens_is_too_short_for_what_fits_all_others()
    {
        var finding = Assert.Single(Found(Site("  allow between 22:00 and 06:00", "every day\n  start at 22:00\n  steps { water a, b for 4 h }")));
        Assert.Equal("window-too-short", finding.Rule.Slug);
        Assert.Equal("needs 8 h, has 7 h", finding.Primary.Text);
        Assert.Equal(("2026-03-29 06:00", 2L), (Shown(finding.Happens!.First), finding.Happens.Times));
    }

    [Fact]
    public void Says_that_it_is_the_most_where_other_nights_need_less()
    {
        var finding = Assert.Single(Found(Site("  allow between 22:00 and 06:00",
            "every day\n  from 1 jun to 31 aug\n  start at 22:00\n  scale warm\n  steps { water a, b for 4 h }", "scale warm { jun 105 %; jul 110 % }")));
        Assert.Equal("needs up to 8 h 48 min in July (110 %), has 8 h", finding.Primary.Text);
    }

    [Fact]
    public void Zones_that_are_exempt_and_schedules_by_hand_are_not_counted()
    {
        Assert.Empty(Found(Site("  allow between 22:00 and 06:00\n  exempt b",
            "every day\n  from 1 may to 31 aug\n  start at 22:00\n  steps { water a for 4 h; water b for 9 h }")));
        Assert.Empty(Found(Site("  allow between 22:00 and 06:00", "manual\n  steps { water a, b for 5 h }")));
    }

    [Fact]
    public void Two_passes_of_a_date_are_two_nights_too_short()
    {
        var finding = Assert.Single(Found(Site("  allow between 08:00 and 10:00",
            "on mon\n  from 2026-06-01 to 2026-06-07\n  start at 08:00\n  start at 15:00\n  steps { water a, b for 90 min }")));
        Assert.Equal(2, finding.Happens!.Times);
    }

    private static string Shown(NodaTime.LocalDateTime moment) => $"{moment:yyyy-MM-dd HH:mm}";

    private static Finding[] Found(string text) =>
        [.. Lint.Of(text).Findings.Where(finding => finding.Rule == OutsideHours.Rule || finding.Rule == WindowTooShort.Rule)];

    private static string Site(string hours, string schedule, string more = "") => $$"""
        site plot {
          timezone   Europe/Lisbon
          effective  2026-03-02
        }
        zone a    { output 1 }
        zone b    { output 2 }
        zone free { output 3 }
        {{more}}
        restriction town {
          for a, b
        {{hours}}
        }
        schedule night {
          {{schedule}}
        }
        """;
}
