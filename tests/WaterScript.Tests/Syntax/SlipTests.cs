using WaterScript.Diagnostics;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>
/// What people write who have read two examples and no manual. Each slip is one finding at the slip itself, with the right answer; where there is an edit,
/// the file that it gives has no finding.
/// </summary>
public sealed class SlipTests
{
    private const string Site =
        "site g { timezone Europe/Lisbon; effective 2026-03-01; location 38.7 N 9.1 W 20 m }\ncontroller box { outputs 8; schedules may-overlap }\n"
        + "zone lawn { output 1; flow 5 L/min }\nzone beds { output 2; flow 5 L/min }\nlet sown = 2026-04-01\n";

    private const string Schedule = "schedule s {\n  every day\n  start at 06:00\n  steps {\n    water lawn for 10 min\n    water beds for 5 min\n  }\n}\n";

    [Theory]
    [InlineData("on mon, ‹wed–fri›", "Write `wed to fri`.", "on mon, wed to fri")]
    [InlineData("on ‹mon - fri›", "Write `mon to fri`.", "on mon to fri")]
    [InlineData("on ‹every› mon", "Delete `every`.", "on mon\n")]
    [InlineData("‹on› every 2 days", "Delete `on`.", "  every 2 days")]
    [InlineData("‹every› mon", "Write `on`.", "  on mon\n")]
    [InlineData("‹every› mon, thu", "Write `on`.", "  on mon, thu\n")]
    [InlineData("‹every weekday›", "Write `on mon to fri`.", "  on mon to fri\n")]
    [InlineData("‹each› day", "Write `every`.", "  every day\n")]
    [InlineData("‹each› mon", "Write `on`.", "  on mon\n")]
    [InlineData("every ‹night›", "Write `day`.", "  every day\n")]
    [InlineData("‹every 48 h›", "Write `every 2 days`.", "  every 2 days\n")]
    [InlineData("‹every 24 h›", "Write `every day`.", "  every day\n")]
    [InlineData("every ‹6› h", "Write `every day`, and the times, such as `start at 00:00, 06:00, 12:00, 18:00`.", null)]
    [InlineData("every ‹two› days", "Write `2`.", "every 2 days")]
    [InlineData("on first mon‹›", "Write `first mon of month`.", "on first mon of month\n")]
    [InlineData("on ‹first mon›, third thu of month", "Write `first mon of month`.", "on first mon of month, third thu of month")]
    [InlineData("on ‹the› first mon of month", "Delete `the`.", "on first mon of month")]
    [InlineData("on ‹1st› mon of month", "Write `first`.", "on first mon of month")]
    [InlineData("on mon ‹and› wed", "Put a comma in its place.", "on mon, wed")]
    [InlineData("‹ontue›, fri", "Write `on tue`.", "  on tue, fri")]
    [InlineData("‹tue›, fri", "Write `on tue`.", "  on tue, fri")]
    [InlineData("on mon, wed, ‹and› fri", "Delete `and`.", "on mon, wed, fri")]
    [InlineData("on mon, wed‹,›", "Delete the comma.", "on mon, wed\n")]
    public void Days(string days, string help, string? corrected) =>
        Hold(Site + Schedule.Replace("every day", days, StringComparison.Ordinal), help, corrected);

    [Theory]
    [InlineData("except ‹on› sown", "Delete `on`.", "except sown")]
    [InlineData("except ‹12 june 2026›", "Write `2026-06-12`.", "except 2026-06-12")]
    [InlineData("except ‹June 12, 2026›", "Write `2026-06-12`.", "except 2026-06-12")]
    [InlineData("from ‹1st apr› to 30 sep", "Write `1 apr`.", "from 1 apr to 30 sep")]
    [InlineData("from ‹1st of April› to 30 sep", "Write `1 apr`.", "from 1 apr to 30 sep")]
    [InlineData("from 1 apr ‹–› 30 sep", "Write `to`.", "from 1 apr to 30 sep")]
    [InlineData("‹until› 30 sep", "Write both ends, such as `from 1 apr to 30 sep`.", null)]
    [InlineData("‹for› 3 weeks", "Write from when, such as `from 2026-05-01 for 3 weeks`.", null)]
    [InlineData("cut ‹by› 07:00", "Write `cut off at 07:00`.", "cut off at 07:00")]
    [InlineData("cut off ‹by› 07:00", "Write `cut off at 07:00`.", "cut off at 07:00")]
    [InlineData("‹at› 05:30", "Write `start at`.", "start at 05:30")]
    [InlineData("note ‹check the filter›", "Write `note \"check the filter\"`.", "note \"check the filter\"")]
    public void Seasons(string line, string help, string? corrected)
    {
        var schedule = line.Contains("05:30", StringComparison.Ordinal) ? Schedule.Replace("start at 06:00", "", StringComparison.Ordinal) : Schedule;
        Hold(Site + schedule.Replace("every day", $"every day\n  {line}", StringComparison.Ordinal), help, corrected);
    }

    [Theory]
    [InlineData("‹startat› 06:00", "Write `start at`.", "start at 06:00")]
    [InlineData("start at ‹5h30›", "Write `05:30`.", "start at 05:30")]
    [InlineData("start at 20:00 ‹21:30›", "Write `20:00, 21:30`.", "start at 20:00, 21:30")]
    [InlineData("start at 20:00 ‹21:30› 22:00", "Write `20:00, 21:30`.", "start at 20:00, 21:30, 22:00")]
    [InlineData("start at 06:00 ‹and› 20:00", "Put a comma in its place.", "start at 06:00, 20:00")]
    [InlineData("start at ‹6›:00", "Write `06:00`.", "start at 06:00")]
    public void Starts(string start, string help, string? corrected) =>
        Hold(Site + Schedule.Replace("start at 06:00", start, StringComparison.Ordinal), help, corrected);

    [Theory]
    [InlineData("water lawn for 2 min; pause ‹for› 2 min; water beds for 5 min", "Delete `for`.", "pause 2 min;")]
    [InlineData("water lawn for 2 min; ‹pause30› s; water beds for 5 min", "Write `pause 30`.", "pause 30 s;")]
    [InlineData("water lawn for 1 h ‹and› 5 min", "Delete `and`.", "for 1 h 5 min")]
    [InlineData("water lawn for 1 h‹,› 5 min", "Delete `,`.", "for 1 h 5 min")]
    [InlineData("water lawn for ‹1h05›", "Write `1 h 5 min`.", "for 1 h 5 min")]
    [InlineData("water lawn for ‹ten› min", "Write `10`.", "for 10 min")]
    [InlineData("water lawn for 2 min‹,› pause 1 min; water beds for 5 min", "Write a `;` before `pause`, or begin a new line.", "for 2 min; pause 1 min;")]
    [InlineData("water lawn for 2 min‹,› then water beds for 5 min", "Write a `;` before `water`, or begin a new line.", "for 2 min; water beds")]
    [InlineData("water lawn‹,› for 3 min", "Delete the comma.", "water lawn for 3 min")]
    [InlineData("water lawn ‹+› for 3 min", "Name a zone after the `+`, or delete it.", "water lawn for 3 min")]
    [InlineData("water lawn for 3 min‹,›", "Delete the comma.", "water lawn for 3 min\n")]
    [InlineData("water lawn for 3 min‹,›\n    pause 2 min\n    water beds for 5 min", "Delete the comma.", "water lawn for 3 min\n    pause 2 min")]
    [InlineData("water lawn, beds,‹›\n    pause 2 min", "Write how long or how much, such as `water lawn for 10 min` or `water lawn with 5 mm`.", null)]
    [InlineData("water lawn +‹›\n    pause 2 min", "Write how long or how much, such as `water lawn for 10 min` or `water lawn with 5 mm`.", null)]
    [InlineData("water lawn for 4 min; ‹soak› 10 min; water beds for 5 min",
        "Write `pause 10 min`, or `cycle 6 min soak 10 min { … }` around steps that water in pieces.", "pause 10 min")]
    [InlineData("water lawn for 4 min; ‹wait› 10 min; water beds for 5 min", "Write `pause`.", "pause 10 min")]
    [InlineData("water lawn for 4 min; ‹delay› 10 min; water beds for 5 min", "Write `pause`.", "pause 10 min")]
    [InlineData("water lawn for 4 min; ‹rest› 10 min; water beds for 5 min", "Write `pause`.", "pause 10 min")]
    [InlineData("water ‹the› beds for 5 min", "Delete `the`.", "water beds for 5 min")]
    [InlineData("‹lawn› 10 min", "Write `water lawn for 10 min`.", "water lawn for 10 min")]
    [InlineData("cycle 6 min‹,› soak 30 min { water lawn for 12 min }", "Delete `,`.", "cycle 6 min soak 30 min")]
    [InlineData("water lawn ‹(front)› for 10 min", "Delete `(front)`, or write it after a # at the end of the line.", "water lawn for 10 min")]
    [InlineData("‹(water lawn for 10 min)›; water beds for 5 min", "Delete the `(` and the `)`.", " water lawn for 10 min;")]
    [InlineData("water ‹(lawn + beds)› for 10 min", "Delete the `(` and the `)`.", "water lawn + beds for 10 min")]
    public void Steps(string steps, string help, string? corrected) =>
        Hold(Site + Schedule.Replace("water lawn for 10 min\n    water beds for 5 min", steps, StringComparison.Ordinal), help, corrected);

    [Theory]
    [InlineData("restriction r { allow between 20:00 ‹-› 09:00 }", "Write `and`.", "between 20:00 and 09:00")]
    [InlineData("restriction r { allow between 20:00 ‹to› 09:00 }", "Write `and`.", "between 20:00 and 09:00")]
    [InlineData("restriction r { allow ‹from› 20:00 to 09:00 }", "Write `between 20:00 and 09:00`.", "allow between 20:00 and 09:00")]
    [InlineData("scale year { ‹from› 2026-07-06 85 % }", "Write `since`.", "since 2026-07-06 85 %")]
    [InlineData("zone rose { output 3; slope ‹5 degrees› }", "Write `8.7 %`.", "slope 8.7 %")]
    [InlineData("zone rose { output 3; slope ‹5°› }", "Write `8.7 %`.", "slope 8.7 %")]
    [InlineData("zone rose { output 3; soil ‹sand loam› }", "Write `sandy-loam`.", "soil sandy-loam")]
    [InlineData("zone rose { output 3; soil ‹sandy loam› }", "Write `sandy-loam`.", "soil sandy-loam")]
    [InlineData("zone rose { output 3 ‹flow› 2 L/min }", "Write a `;` before `flow`, or begin a new line.", "output 3; flow 2 L/min")]
    [InlineData("zone rose { output 3 ‹soil› loam }", "Write a `;` before `soil`, or begin a new line.", "output 3; soil loam")]
    [InlineData("‹zonerose› { output 3 }", "Write `zone rose`.", "zone rose { output 3 }")]
    [InlineData("zone rose { ‹output3›; flow 2 L/min }", "Write `output 3`.", "zone rose { output 3; flow 2 L/min }")]
    [InlineData("closed from 20 oct to 10 ‹aprbecause› \"blown out\"", "Write `apr because`.", "10 apr because")]
    [InlineData("sequence ‹{› water lawn for 5 min }", "Write a name after `sequence`.", null)]
    [InlineData("let ‹=› 5 min", "Write a name after `let`.", null)]
    [InlineData("‹station› rose { output 3 }", "Write `zone`.", "zone rose { output 3 }")]
    [InlineData("‹program› p { }", "Write `schedule`.", null)]
    [InlineData("hold lawn from 2026-06-01 to 2026-06-03 because ‹new turf›", "Write `because \"new turf\"`.", "because \"new turf\"")]
    [InlineData("accept unused because ‹next year› until 2027-01-01", "Write `because \"next year\"`.", "because \"next year\" until 2027-01-01")]
    [InlineData("lawn‹\t›1\t10 min\nbeds\t2\t5 min\nrose\t3\t3 min",
        "Describe each zone, such as `zone lawn \"Front lawn\" { output 1; flow 12 L/min }`, or begin the lines with # to keep them as comments.", null)]
    public void Descriptions(string line, string help, string? corrected) => Hold($"{Site}{Schedule}{line}\n", help, corrected);

    /// <summary>What cannot be read where it is declared is not reported once more wherever it is used.</summary>
    [Theory]
    [InlineData("zone ‹\"open› { output 4; flow 3 L/min }", "open", "Write a `\"` at its end, on the same line.", null)]
    [InlineData("zone rose ‹\"Roses› { output 4 }", "rose", "Write a `\"` at its end, on the same line.", "zone rose \"Roses\" { output 4 }")]
    [InlineData("zone ‹Rose Bed› { output 4 }", "rose-bed", "Write `zone rose-bed \"Rose Bed\"`.", "zone rose-bed \"Rose Bed\" {")]
    [InlineData("zone ‹Rose Bed› { output 4 }", "rose", "Write `zone rose-bed \"Rose Bed\"`.", null)]
    [InlineData("zone ‹rose Front› { output 4 }", "rose", "Write `zone rose \"Front\"`.", "zone rose \"Front\" {")]
    [InlineData("zone ‹Rose› { output 4 }", "rose", "Use small letters a to z, digits and single hyphens, such as `rose`; people read the label.", null)]
    [InlineData("zone ‹3rose› { output 4 }", "3rose",
        "Use small letters a to z, digits and single hyphens, such as `north-bed`; people read the label.", null)]
    [InlineData("‹station› rose { output 4 }", "rose", "Write `zone`.", "zone rose { output 4 }")]
    public void Misread_names(string declaration, string name, string help, string? corrected) => Hold(
        $"{Site}{declaration}\ngroup all-of-them = lawn, {name}\nhold {name} from 2026-06-01 for 3 days because \"new\"\n"
            + Schedule.Replace("beds", name, StringComparison.Ordinal),
        help, corrected);

    [Fact]
    public void A_supply_is_fed_by_another() => Hold(
        Site.Replace("flow 5 L/min", "flow 2 L/min; supply two", StringComparison.Ordinal)
            + "supply main { flow 9 L/min }\nsupply two { flow 3 L/min; tank 100 L; ‹from› main }\n" + Schedule,
        "Write `fed-by`.", "fed-by main");

    [Fact]
    public void A_path_without_quotes_is_read()
    {
        var (site, parts) = ($"{Site}include parts.water\n{Schedule}", ("parts.water", "zone rose { output 3 }\n"));
        var finding = Assert.Single(Expect.Read(site, parts).Findings);
        Assert.Equal("Write `include \"parts.water\"`.", finding.Help);
        Assert.Empty(Expect.Read(Applied(site, finding.Fix!), parts).Findings);
    }

    [Fact]
    public void A_name_that_cannot_be_one_is_not_offered()
    {
        var findings = Expect.Read(Site + "zone Rose { output 3 }\n" + Schedule.Replace("beds", "rosse", StringComparison.Ordinal)).Findings;
        Assert.DoesNotContain(findings, finding => finding.Fix?.Edits.Any(edit => edit.Replacement == "Rose") == true);
    }

    /// <summary>Holds that a marked file has one finding, at the mark, with that help, and that its edit gives a file without one.</summary>
    private static void Hold(string marked, string help, string? corrected)
    {
        var reading = Expect.Read(marked);
        Assert.True(reading.Findings.Count == 1, string.Join("; ", reading.Findings.Select(Expect.Shown)));
        var finding = reading.Findings[0];
        Expect.HoldPlace(marked, finding);
        Assert.Equal(help, finding.Help);
        if (corrected is null) return;
        var text = Applied(finding.Primary.Location.Source.Text, Assert.IsType<Fix>(finding.Fix));
        Assert.Contains(corrected, text, StringComparison.Ordinal);
        Assert.Empty(Expect.Read(text).Findings.Select(Expect.Shown));
    }

    private static string Applied(string text, Fix fix)
    {
        foreach (var edit in fix.Edits.Reverse())
            text = text.Remove(edit.Location.Span.Start, edit.Location.Span.Length).Insert(edit.Location.Span.Start, edit.Replacement);
        return text;
    }
}
