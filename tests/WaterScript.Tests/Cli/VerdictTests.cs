using Xunit;

namespace WaterScript.Tests.Cli;

/// <summary>What a check says at its end: what was found, what the calendar proves, and what was not checked.</summary>
public sealed class VerdictTests : Workshop
{
    private const string Site = "site park \"Park\" { timezone Etc/UTC; effective 2026-03-01; location 40 N 8 W }\n";
    private const string Zones = "zone lawn { output 1; flow 10 L/min }\nzone beds { output 2; flow 10 L/min }\n";
    private const string Supply = "supply tap { flow 30 L/min }\n";

    [Fact]
    public void A_site_of_numbers_says_its_dates_alone()
    {
        Write("site.water", Site + Supply + Zones + At("one", "06:00"));
        Assert.Equal(Lines(
            "Park: no findings. Checked 1 Mar 2026 to 29 Feb 2028.",
            "Not checked: power (add power), wires (add wire), runoff (add rate), 2 more (--missing)."), Check());
    }

    [Fact]
    public void Files_and_what_is_accepted_stand_in_the_first_line()
    {
        Write("parts.water", Zones);
        Write("site.water", Site + Supply + "include \"parts.water\"\n" + "zone more { output 3; flow 1 L/min; accept unused because \"later\" }\n" +
            At("one", "06:00"));
        Assert.StartsWith("Park: no findings in 2 files, 1 accepted. Checked 1 Mar 2026 to 29 Feb 2028.\n", Check(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "", "Park: no findings, but only days and times were checked, 1 Mar 2026 to 29 Feb 2028.")]
    [InlineData("", "zone dry { output 3 }\n", "Park: 1 piece of advice; only days and times were checked, 1 Mar 2026 to 29 Feb 2028.")]
    [InlineData("", "controller box { outputs 4; power { transformer 40 VA at 24 V } }\n", "Park: no findings. Checked 1 Mar 2026 to 29 Feb 2028.")]
    [InlineData(Supply, "", "Park: no findings. Checked 1 Mar 2026 to 29 Feb 2028.")]
    public void Without_a_number_only_days_and_times_are_checked(string supply, string more, string line)
    {
        Write("site.water", Site + supply + "zone lawn { output 1 }\nzone beds { output 2 }\n" + more + At("one", "06:00"));
        Assert.Contains(line + "\n", Check(), StringComparison.Ordinal);
    }

    /// <summary>Four zones, of which two have all that the check of wires needs: a wrong count would say 1, 3 or none.</summary>
    [Fact]
    public void Zones_are_counted_where_only_some_lack_something()
    {
        const string Valve = "valve ac non-latching { inrush 400 mA; holding 200 mA; minimum-voltage 19 V }\n";
        Write("site.water", Site + Supply + "controller box { outputs 8; power { transformer 40 VA at 24 V } }\n" + Valve +
            "zone a { output 1; flow 5 L/min; valve ac; wire 10 m 1.5 mm2 }\nzone b { output 2; flow 5 L/min; valve ac; wire 10 m 1.5 mm2 }\n" +
            "zone c { output 3; flow 5 L/min; valve ac }\nzone d { output 4; flow 5 L/min; valve ac }\nzone e { output 5; spare }\n" +
            "schedule one { every day; start at 06:00; steps { water a, b, c, d for 5 min } }\n");
        Assert.EndsWith("\nNot checked: wires of 2 zones (add wire), runoff (add rate), 2 more (--missing).\n", Check(), StringComparison.Ordinal);
    }

    [Fact]
    public void Missing_lists_all_of_it_by_zone()
    {
        Write("site.water", Site + "supply tap { flow 30 L/min }\nsupply well { tank 2 m3 }\n" +
            "zone lawn { output 1; supply tap; rate 10 mm/h; soil loam }\nzone beds { output 2; supply well; flow 5 L/min }\n" + At("one", "06:00"));
        Assert.EndsWith(Lines(
            "Not checked:",
            "  site: power (add power), water need (add climate)",
            "  supply well: flow (add flow), tank (add refill)",
            "  zone lawn: flow (add flow), wires (add wire), water below the roots (add plants)",
            "  zone beds: wires (add wire), runoff (add rate), water below the roots (add soil)"), Check("--missing"), StringComparison.Ordinal);
        Assert.StartsWith("Not checked:\n  site: ", Check("--missing", "--quiet"), StringComparison.Ordinal);
        Assert.Equal("", Check("--quiet"));
    }

    [Theory]
    [InlineData("zone lawn { output 1; flow 9 L }\nzone beds { output 1 }\n",
        "Park: 1 error.\nThe timetable was not checked because of this error.\n", false)]
    [InlineData("zone lawn { output 1; flow 9 L }\nzone beds { output 2; area 9 L }\n",
        "Park: 2 errors.\nThe timetable was not checked because of these errors.\n", false)]
    [InlineData("zone lawn { output 1; flow 18L/min }\nzone bedz { output 2 }\n",
        "Park: 1 error, 1 piece of advice.\nThe timetable was not checked because of this error.\ncheck --fix corrects both.\n", true)]
    [InlineData("zone lawn { output 1; flow 18L/min }\nzone beds { output 1; flow 9 L }\n",
        "Park: 1 error, 1 piece of advice.\nThe timetable was not checked because of this error.\ncheck --fix corrects 1 of these 2.\n", true)]
    [InlineData("zone lawn { output 1; flow 18L/min }\nzone bedz { output 2; flow 9L/min }\n",
        "Park: 1 error, 2 pieces of advice.\nThe timetable was not checked because of this error.\ncheck --fix corrects all 3.\n", true)]
    [InlineData("zone lawn { output 1 }\nzone bedz { output 2 }\n",
        "Park: 1 error.\nThe timetable was not checked because of this error.\ncheck --fix corrects it.\n", true)]
    public void Errors_of_reading_say_that_no_timetable_was_checked_and_what_is_corrected(string zones, string end, bool hasFix)
    {
        Write("site.water", Site + zones + At("one", "06:00"));
        var output = Check();
        Assert.EndsWith(end, output, StringComparison.Ordinal);
        Assert.Equal(hasFix, output.Contains("check --fix", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("", "", "No schedules can collide, for ever.")]
    [InlineData("Europe/Lisbon", "", "No schedules can collide before 1 Mar 2426.")]
    [InlineData("Europe/Lisbon", "controller box { outputs 4; schedules may-overlap }", "No zone can be due twice at once before 1 Mar 2426.")]
    public void Two_schedules_are_proved_not_to_collide(string timeZone, string controller, string line)
    {
        Write("site.water", Zoned(timeZone) + Supply + controller + "\n" + Zones + At("one", "06:00") + At("two", "09:00"));
        Assert.Equal(line, Check().Split('\n')[1]);
    }

    [Theory]
    [InlineData("sunset", "", "No schedules can collide before 1 Mar 2426; two follows the sun: before 1 Mar 2028.")]
    [InlineData("sunset", "sunset + 2 h", "No schedules can collide before 1 Mar 2426; two and three follow the sun: before 1 Mar 2028.")]
    [InlineData("after one + 5 min", "", "No schedules can collide before 1 Mar 2426; two follows one: before 1 Mar 2028.")]
    public void Schedules_that_move_are_checked_for_the_dates_alone(string two, string three, string line)
    {
        var second = two.StartsWith("after", StringComparison.Ordinal)
            ? $"schedule two {{ start {two}; steps {{ water beds for 5 min }} }}\n"
            : At("two", two);
        Write("site.water", Zoned("Europe/Lisbon") + Supply + Zones + At("one", "06:00") + second + (three.Length > 0 ? At("three", three) : ""));
        Assert.Contains($"\n{line}\n", Check().Replace("\n  ", " ", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    [Fact]
    public void Where_all_move_there_is_one_date()
    {
        Write("site.water", Zoned("Europe/Lisbon") + Supply + Zones + At("one", "sunrise") + At("two", "sunset"));
        Assert.Equal("No schedules can collide before 1 Mar 2028: all follow the sun.", Check().Split('\n')[1]);
    }

    [Theory]
    [InlineData("", "All collisions before 1 Mar 2426 are listed.")]
    [InlineData("; accept zone-twice because \"a test\"", "All collisions before 1 Mar 2426 are accepted.")]
    public void Collisions_are_findings(string accept, string line)
    {
        Write("site.water", Zoned("Europe/Lisbon") + Supply + Zones + At("one", "06:00") +
            $"schedule two {{ every day; start at 06:02{accept}; steps {{ water lawn for 2 min }} }}\n");
        Assert.Contains($"\n{line}\n", Check(), StringComparison.Ordinal);
    }

    [Fact]
    public void One_schedule_of_two_starts_has_passes()
    {
        Write("site.water", Zoned("Europe/Lisbon") + Supply + Zones +
            "schedule one { every day; start at 06:00; start at 09:00; steps { water lawn, beds for 5 min } }\n");
        Assert.Equal("No passes can collide before 1 Mar 2426.", Check().Split('\n')[1]);
    }

    [Fact]
    public void A_folder_is_summed_up()
    {
        var early = Good.Replace("06:00", "01:30", StringComparison.Ordinal);
        Write("a.water", early);
        Write("b.water", early.Replace("zone beds { output 2 }", "zone beds { output 2 }\nzone more { output 3 }", StringComparison.Ordinal));
        Write("c.water", Good.Replace("lawn,", "lawm,", StringComparison.Ordinal));
        Write("d.water", Good);
        Assert.EndsWith(Lines(
            "4 sites: 1 error, 2 warnings, 3 pieces of advice in 3 of them.",
            "By rule: skipped-time 2, doubled-time 2, unknown-name 1, unused 1.",
            "1 timetable was not checked because of errors: c.",
            "Not checked: flow in 3 (add supply), power in 3 (add power), 4 more (--missing)."),
            Run("check", "a.water", "b.water", "c.water", "d.water").Output, StringComparison.Ordinal);
        Assert.Contains("Not checked in Garden:\n  site: flow (add supply)", Run("check", ".", "--missing", "--quiet").Output, StringComparison.Ordinal);
    }

    private string Check(params string[] options) => Run(["check", "site.water", .. options]).Output;

    private static string Zoned(string timeZone) => timeZone.Length > 0 ? Site.Replace("Etc/UTC", timeZone, StringComparison.Ordinal) : Site;

    private static string At(string name, string moment) =>
        $"schedule {name} {{ every day; start at {moment}; steps {{ water lawn{(name == "one" ? ", beds" : "")} for 5 min }} }}\n";

    private static string Lines(params string[] lines) => string.Join('\n', lines) + "\n";
}
