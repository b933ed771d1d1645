using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Xunit;

namespace WaterScript.Tests.Cli;

public sealed partial class NextTests : Workshop
{
    private const string Held = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn "Lawn" { output 1 }
        zone beds { output 2; trim 10 %; shortest 2 min }
        schedule morning { every day; start at 06:00; steps { water lawn, beds for 10 min } }
        schedule mist { on tue; start at 09:00; repeat every 8 min until 11:00; steps { water lawn for 30 s } }
        schedule by-hand { manual; steps { water beds for 1 min } }
        hold lawn from 2026-06-08 to 2026-06-10 because "new gravel"
        closed from 20 oct to 5 feb because "drained"

        """;

    [Theory]
    [InlineData("2026-06-11T06:04",
        "Garden, Thu 11 Jun 2026 06:04, Europe/Lisbon\nNow:       Lawn until 06:10, 6 min left: morning, pass 1, step 1 (site.water:4)\n")]
    [InlineData("2026-06-09T06:04", "Now:       nothing is watered\nHeld:      Lawn until Thu 11 Jun 00:00, \"new gravel\" (site.water:7)\n")]
    [InlineData("2026-10-20T06:04",
        "Closed:    All zones until Sat 6 Feb 2027 00:00, \"drained\" (site.water:8)\nNext:      Sat 6 Feb 2027 06:00  morning: Lawn 10 min\n")]
    [InlineData(
        "2026-06-02T06:10",
        "Left out:  beds, too little is left of what is due today, trim 10 % (site.water:3)\n"
            + "Next:      Tue 2 Jun 09:00  mist, every 8 min until 11:00 (16 times): Lawn 30 s\n")]
    [InlineData("2026-06-02T09:08", "Now:       Lawn until 09:08:30, 30 s left: mist, pass 2, step 1 (site.water:5)\n")]
    public void It_says_what_waters_what_is_shut_and_what_comes(string at, string text)
    {
        Write("site.water", Held);
        var result = RunLine($"next site.water --at {at} --count 2");
        Assert.Contains(text, result.Output, StringComparison.Ordinal);
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
    }

    private const string Restricted = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        supply well { flow 30 L/min }
        zone lawn "Lawn" { output 1; supply well }
        zone beds "Beds" { output 2; supply well }
        zone herbs { output 3; supply well }
        restriction town "Town rule" { for lawn, beds; allow on odd days; allow between 18:00 and 09:00 }
        restriction drought { from 1 jul to 31 aug; allow between 20:00 and 22:00; allow between 05:00 and 07:00; exempt herbs from 10 jul to 31 aug }
        restriction never { for herbs; from 1 oct to 31 oct; allow on 2020-01-01 }
        master main { output 4; supply well; starts 3 s before zones; stops 3 s after zones }
        schedule morning { every day; start at 06:00; steps { water lawn for 10 min } }

        """;

    [Theory]
    [InlineData("2026-06-08T10:00", "Forbidden: Lawn, Beds: until Tue 9 Jun 2026 00:00, Town rule (site.water:6)\nNext:")]
    [InlineData("2026-06-09T08:00", "Forbidden: Lawn, Beds: from 09:00 until 18:00, Town rule (site.water:6)\nNext:")]
    [InlineData("2026-06-09T17:59:59", "Forbidden: Lawn, Beds: until 18:00, Town rule (site.water:6)\nNext:")]
    [InlineData("2026-06-09T18:00", "Now:       nothing is watered\nNext:")]
    [InlineData("2026-07-07T06:30",
        "           All zones: from 07:00 until 20:00, drought (site.water:7)\n"
            + "           All zones: from 22:00 until Wed 8 Jul 2026 05:00, drought (site.water:7)\nNext:")]
    [InlineData("2026-07-10T06:30", "  Lawn, Beds: from 07:00 until 20:00, drought (site.water:7)\n")]
    [InlineData("2026-08-31T23:00", "Forbidden: Lawn, Beds: until Tue 1 Sep 2026 00:00, drought (site.water:7)\n")]
    [InlineData("2026-10-07T12:00", "  herbs: until Sun 1 Nov 2026 00:00, never (site.water:8)\n")]
    public void What_a_restriction_does_not_allow_is_said_with_its_line(string at, string text)
    {
        Write("site.water", Restricted);
        Assert.Contains(text, RunLine($"next site.water --at {at} --count 1").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void A_zone_may_be_asked_for_by_its_label()
    {
        Write("site.water", Good.Replace("zone lawn {", "zone lawn \"Play lawn\" {", StringComparison.Ordinal));
        Assert.Equal(RunLine("why site.water lawn 2026-06-02").Output, Run("why", "site.water", "Play lawn", "2026-06-02").Output);
    }

    [Fact]
    public void A_day_that_does_not_exist_again_within_a_year_has_no_end()
    {
        Write("site.water", Restricted.Replace("from 1 oct to 31 oct; ", "", StringComparison.Ordinal));
        Assert.Contains("  herbs: for a year and more, never (site.water:8)\n", RunLine("next site.water --at 2026-10-07T12:00 --count 1").Output,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2026-06-09T05:59:56", "Now:       nothing is watered\n")]
    [InlineData("2026-06-09T05:59:57",
        "Now:       nothing is watered\n           main until 06:10:03, 10 min 6 s left: master (site.water:9)\n")]
    [InlineData("2026-06-09T06:10:02", "Now:       nothing is watered\n           main until 06:10:03, 1 s left: master (site.water:9)\n")]
    [InlineData("2026-06-09T06:05",
        "Now:       Lawn until 06:10, 5 min left: morning, pass 1, step 1 (site.water:10)\n"
            + "           main until 06:10:03, 5 min 3 s left: master (site.water:9)\n")]
    public void Devices_that_are_on_are_reported(string at, string text)
    {
        Write("site.water", Restricted);
        var result = RunLine($"next site.water --at {at} --count 1").Output;
        Assert.Contains(text, result, StringComparison.Ordinal);
        var tree = JsonNode.Parse(RunLine($"next site.water --at {at} --count 1 --report json").Output)!;
        Assert.Equal(text.Contains("main", StringComparison.Ordinal) ? ["main"] : [], tree["on"]!.AsArray().Select(on => (string)on!["master"]!));
    }

    [Fact]
    public void Programs_get_what_is_not_allowed()
    {
        Write("site.water", Restricted);
        var ban = JsonNode.Parse(RunLine("next site.water --at 2026-06-08T10:00 --report json --count 1").Output)!["not_allowed"]![0]!;
        Assert.Equal(("town", "[\"lawn\",\"beds\"]"), ((string?)ban["restriction"], ban["zones"]!.ToJsonString()));
        Assert.Equal(("2026-06-08T10:00:00+01:00", "2026-06-09T00:00:00+01:00", 6), ((string?)ban["from"], (string?)ban["until"], (int)ban["place"]!["line"]!));
    }

    [Fact]
    public void Programs_get_the_same_as_json()
    {
        Write("site.water", Held);
        var tree = JsonNode.Parse(RunLine("next site.water --at 2026-06-09T09:03 --report json --count 1").Output)!;
        Assert.Equal("hold", (string?)tree["kept_shut"]![0]!["by"]);
        Assert.Equal(7, (int)tree["kept_shut"]![0]!["place"]!["line"]!);
        Assert.Equal("2026-06-11T06:00:00+01:00", (string?)tree["coming"]![0]!["first"]);
    }

    private const string Week = """
        site garden "Gar*den" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn "Lawn | front" { output 1 }
        zone beds { output 2 }
        schedule night "Night_round_" { on mon, tue; start at 23:50; steps { water lawn for 20 min; water beds for 5 min } }
        schedule mist { on mon; start at 09:00; repeat every 8 min for 3 passes; steps { water beds for 30 s } }
        schedule after { start after night; steps { water beds for 1 min } }
        zone pots { output 3; trim 1 %; shortest 2 min }
        schedule early { every day; start at 05:00; steps { water pots for 3 min } }
        hold beds from 2026-06-10 to 2026-06-11 because "new #3 [gravel](http://x)"
        skip night on 2026-06-09 because "the `fair`"

        """;

    /// <summary>Worked out by hand: 8 June 2026 is a Monday; the night of Tuesday is skipped, so nothing comes after it.</summary>
    private const string Page = """
        **Gar\*den** Mon 8 Jun 2026 09:05, Europe/Lisbon

        Now nothing is watered.

        ### Mon 8 Jun

        | from | to | water |
        | --- | --- | --- |
        | 09:08 | 09:16:30 | mist: beds 30 s, every 8 min, twice |
        | 23:50 | Tue 00:15 | Night\_round\_: Lawn \| front 20 min, beds 5 min |

        ### Tue 9 Jun

        | from | to | water |
        | --- | --- | --- |
        | 00:15 | 00:16 | after: beds 1 min |

        Not watered:

        - 05:00 pots: too little is left, trim 1 %
        - Night\_round\_: skipped, "the \`fair\`"

        ### Wed 10 Jun

        Not watered:

        - 05:00 pots: too little is left, trim 1 %

        """;

    [Fact]
    public void A_page_has_one_date_under_the_other_with_the_times_first()
    {
        Write("site.water", Week);
        var result = RunLine("next site.water --at 2026-06-08T09:05 --days 3 --report markdown");
        Assert.Equal(Page, result.Output);
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        Assert.Equal(result.Output, RunLine("next site.water --at 2026-06-08T09:05 --days 3 --report markdown").Output);
    }

    [Fact]
    public void A_page_without_dates_is_a_week_and_says_what_is_held()
    {
        Write("site.water", Week);
        var page = RunLine("next site.water --at 2026-06-10T09:05 --report markdown").Output;
        Assert.Equal(["Wed 10 Jun", "Thu 11 Jun", "Fri 12 Jun", "Sat 13 Jun", "Sun 14 Jun", "Mon 15 Jun", "Tue 16 Jun"],
            page.Split('\n').Where(line => line.StartsWith("### ", StringComparison.Ordinal)).Select(line => line[4..]));
        Assert.Contains("\nHeld:\n\n- beds until Fri 12 Jun 00:00, \"new `#`3 \\[gravel\\](http\\<U+003A\\>//x)\"\n", page, StringComparison.Ordinal);
    }

    /// <summary>The rows of the page, times first, in order of time.</summary>
    [Fact]
    public void Rows_of_a_page_are_in_order_of_time_and_no_more_than_were_asked_for()
    {
        Write("site.water", Week);
        var page = RunLine("next site.water --at 2026-06-08T09:05 --days 3 --count 2 --report markdown").Output;
        Assert.Equal(["09:08", "23:50"], page.Split('\n').Where(line => line.StartsWith("| 0", StringComparison.Ordinal) || line.StartsWith("| 2",
            StringComparison.Ordinal)).Select(line => line.Split(' ')[1]));
        Assert.EndsWith("\nNo more than 2 waterings are shown.\n", page, StringComparison.Ordinal);
    }

    /// <summary>Five Mondays and five Tuesdays in 31 dates; what comes after a night comes on the next date, and is held once.</summary>
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 3)]
    [InlineData(31, 19)]
    public void Dates_that_are_asked_for_bound_what_comes(int days, int nights)
    {
        Write("site.water", Week.Replace("skip night", "# skip night", StringComparison.Ordinal));
        var text = RunLine($"next site.water --at 2026-06-08T10:00 --days {days}").Output;
        Assert.Equal(nights, text.Split("night: ").Length - 1 + text.Split("after: ").Length - 1);
    }

    private const string Kept = """
        site garden "Garden" { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn "Lawn" { output 1 }
        restriction town "Town rule" { allow on mon to fri; at most 15 min a day }
        schedule evening { every day; start at 20:00; keep to town; steps { water lawn for 20 min } }

        """;

    /// <summary>6 June 2026 is a Saturday.</summary>
    [Fact]
    public void What_a_restriction_takes_that_is_kept_to_is_said_with_its_line()
    {
        Write("site.water", Kept);
        Assert.Contains("### Sat 6 Jun\n\nNot watered:\n\n- 20:00 Lawn: not allowed, \"Town rule\"\n",
            RunLine("next site.water --at 2026-06-06T09:05 --days 2 --report markdown").Output, StringComparison.Ordinal);
        var why = Columns().Replace(RunLine("why site.water lawn 2026-06-06").Output, "  ");
        Assert.Contains("  site.water:4  keep to town  takes 20 min, because of Town rule\n", why, StringComparison.Ordinal);
        Assert.Contains("Lawn, Mon 8 Jun 2026: watered once, 15 min in all.\n", RunLine("why site.water lawn 2026-06-08").Output, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_a_moment_it_is_now()
    {
        Write("site.water", Held);
        var before = DateTimeOffset.UtcNow.AddSeconds(-1);
        var at = DateTimeOffset.Parse((string)JsonNode.Parse(RunLine("next site.water --report json").Output)!["at"]!,
            System.Globalization.CultureInfo.InvariantCulture);
        Assert.InRange(at, before, DateTimeOffset.UtcNow);
    }

    [Theory]
    [InlineData("next site.water --count 0", "--count must be 1 to 1000")]
    [InlineData("next site.water --days 32", "--days must be 1 to 31, not 32")]
    [InlineData("next site.water --at noon", "--at needs a date and time such as 2026-05-01T09:30, not noon")]
    [InlineData("why site.water lawm 2026-06-01", "no zone \"lawm\"; did you mean lawn?")]
    [InlineData("why site.water lawn tomorrow", "DATE needs a date such as 2026-05-01, not tomorrow")]
    [InlineData("why site.water", "why needs FILE, ZONE, DATE")]
    public void What_cannot_run_says_why(string line, string why)
    {
        Write("site.water", Held);
        var result = RunLine(line);
        Assert.Contains(why, result.Error, StringComparison.Ordinal);
        Assert.Equal(2, result.ExitCode);
    }

    [Theory]
    [InlineData("lawn 2026-06-02", "Lawn, Tue 2 Jun 2026: watered 17 times, 18 min in all.\n  Tue 2 Jun 2026 06:00 to 06:10, morning, step 1 (site.water:4)\n")]
    [InlineData("lawn 2026-06-02",
        "mist: due\n  site.water:5  on tue  includes Tue\n  site.water:5  09:00  starts 16 passes, the first Tue 2 Jun 2026 09:00\n")]
    [InlineData("lawn 2026-06-03", "mist: not due\n  site.water:5  on tue  does not include Wed; the next is Tue 9 Jun 2026\n")]
    [InlineData("lawn 2026-06-09", "Lawn, Tue 9 Jun 2026: not watered.\n")]
    [InlineData("lawn 2026-06-10", "  site.water:7  hold lawn from 2026-06-08 to 2026-06-10 because \"new gravel\"  takes 10 min, because new gravel\n")]
    [InlineData("beds 2026-06-02", "  site.water:3  trim 10 %  is 10 % of every run time\n")]
    [InlineData("beds 2026-06-02", "by-hand: not due\n  site.water:6  by-hand  is manual: it runs when somebody starts it\n")]
    [InlineData("lawn 2026-02-28", "  site.water:1  garden  the file takes effect on Sun 1 Mar 2026\n")]
    [InlineData("lawn 2026-12-01", "  site.water:8  closed from 20 oct to 5 feb because \"drained\"  takes 10 min, because drained\n")]
    public void The_lines_that_decide_a_date_are_named(string asked, string text)
    {
        Write("site.water", Held);
        var result = RunLine($"why site.water {asked}");
        Assert.Contains(text, Columns().Replace(result.Output, "  "), StringComparison.Ordinal);
        Assert.Equal(("", 0), (result.Error, result.ExitCode));
        var tree = JsonNode.Parse(RunLine($"why site.water {asked} --report json").Output)!;
        Assert.Equal(asked, $"{tree["zone"]} {tree["date"]}");
    }

    [Fact]
    public void A_file_with_an_error_has_no_answer()
    {
        Write("site.water", Held.Replace("water lawn,", "water lawm,", StringComparison.Ordinal));
        var result = RunLine("why site.water lawn 2026-06-02");
        Assert.Contains("no zone is called \"lawm\"", result.Error, StringComparison.Ordinal);
        Assert.Equal(("", 1), (result.Output, result.ExitCode));
    }

    /// <summary>What stands between two columns.</summary>
    [GeneratedRegex("(?<=\\S) {2,}")]
    private static partial Regex Columns();
}
