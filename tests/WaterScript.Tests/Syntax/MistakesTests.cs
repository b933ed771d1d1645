using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>A file with many mistakes reports each of them at its own place, and nothing else.</summary>
public class MistakesTests
{
    private const string Site =
        "site garden { timezone Europe/Lisbon; effective 2026-03-01; location 39.6 N 8.1 W }\nzone lawn { output 1 }\nzone beds { output 2 }\n";

    [Fact]
    public void ManyMistakesAreReportedOnceEachAtTheirPlaces()
    {
        const string text = """
            site garden { timezone Europe/Lisbon; effective 2026-03-01; location 39.6 N 8.1 W }
            zone lawn "Lawn 🌱" { output 1; flow: 18 L/min }
            zone beds { output 2; area 2,5 m2 }
            schedule a {
            	on Monday, fri
            	start at 6:30 pm
            	steps { water lawn for 5 minutes; water beds for 18min }
            }
            schedule b { on mon-fri; start at sunrise-30 min; steps { repeat 3x { water lawm for 2 min } } }
            schedule c { on 1/5/2026; start at 06:00-09:00; steps { water lawn for 1h30min water beds for 2 min } }
            schedle d { every day }
            """;
        Assert.Equal(
            [
                "2:37 syntax", "3:28 decimal-comma", "5:5 unusual-form", "6:11 unusual-form", "7:27 unusual-form", "7:51 unusual-form",
                "9:17 syntax", "9:35 syntax", "9:66 syntax", "9:77 unknown-name", "10:17 syntax", "10:36 syntax", "10:72 unusual-form",
                "10:80 syntax", "11:1 unknown-name",
            ],
            Findings(text));
    }

    [Fact]
    public void AMissingBraceIsReportedAtTheLineThatOpensItsBlock() =>
        Assert.Equal(
            ["4:14 syntax", "8:14 unknown-property"],
            Findings(Site + "schedule one {\n  every day\n  start at 06:00\n  steps { water lawn for 5 min }\nzone hedge { otput 3 }\n"));

    [Theory]
    [InlineData("schedule s { evry day }", "Write `every`.")]
    [InlineData("schedule s { every day; start at 06:00; steps { watr lawn for 5 min } }", "Write `water`.")]
    [InlineData("restriction r { alow on odd days }", "Write `allow`.")]
    public void AMisspeltStatementIsAnsweredWithTheNearestWord(string line, string help) =>
        Assert.Contains(help, Read(Site + line).Select(finding => finding.Help));

    [Theory]
    [InlineData("schedule s { every day; start 06:00; steps { water lawn for 5 min } }", "Write `at`.", "start at 06:00")]
    [InlineData("schedule s { every day; start at 6.30; steps { water lawn for 5 min } }", "Write `06:30`", "start at 06:30")]
    [InlineData("schedule s { every day; start at 0630; steps { water lawn for 5 min } }", "Write `06:30`", "start at 06:30")]
    [InlineData("schedule s { every day; start at 6; steps { water lawn for 5 min } }", "Write `06:00`", "start at 06:00")]
    [InlineData("schedule s { every other day; start at 06:00; steps { water lawn for 5 min } }", "Write `every 2 days`.", "every 2 day")]
    [InlineData("schedule s { every third day; start at 06:00; steps { water lawn for 5 min } }", "Write `every 3 days`.", "every 3 day")]
    [InlineData("schedule s { every day; start at 06:00; cut 07:00; steps { water lawn for 5 min } }", "Write `cut off at 07:00`", "cut off at 07:00")]
    [InlineData("schedule s { every day; start at 06:00; cut at 07:00; steps { water lawn for 5 min } }", "Write `cut off at`", "cut off at 07:00")]
    [InlineData("closed 20 oct to 5 apr because \"drained\"", "Write `from`.", "closed from 20 oct")]
    [InlineData("let spell 5 min", "Write `=`.", "let spell = 5 min")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn 5 min } }", "Write `for`.", "water lawn for 5 min")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn 5 mm } }", "Write `with`.", "water lawn with 5 mm")]
    [InlineData("schedule s { every day; finish at 06:00; steps { water lawn for 5 min } }", "Write `by`", "finish by 06:00")]
    [InlineData("group front lawn, beds", "Write `=`.", "group front = lawn, beds")]
    [InlineData("schedule s { every day; from 1 may until 30 sep; start at 06:00; steps { water lawn for 5 min } }",
        "Write `to`; the last day is included.", "from 1 may to 30 sep")]
    [InlineData("hold lawn from 2026-07-03 until 2026-07-05 because \"fair\"", "Write `to`; the last day is included.",
        "from 2026-07-03 to 2026-07-05")]
    [InlineData("// a first try", "Begin the comment with `#`; it ends with its line.", "# a first try")]
    public void AMissingWordIsPutInWhereOnlyOneCanBeMeant(string line, string help, string corrected)
    {
        var finding = Read(Site + line).First(finding => finding.Rule == ReadingRules.Syntax);
        var edit = Assert.Single(finding.Fix!.Edits);
        var text = (Site + line).Remove(edit.Location.Span.Start, edit.Location.Span.Length).Insert(edit.Location.Span.Start, edit.Replacement);
        Assert.Equal(help, finding.Help);
        Assert.Contains(corrected, text, StringComparison.Ordinal);
        Assert.DoesNotContain(Findings(text), place => place.EndsWith(" syntax", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("water beds for 10 min, lawn for 5 min", "water beds for 10 min; water lawn for 5 min", "water lawn for 5 min")]
    [InlineData("water beds + lawn for 10 min ,lawn, beds for 5 min", "water beds + lawn for 10 min ;water lawn, beds for 5 min", "water lawn, beds for 5 min")]
    [InlineData("pause 1 min; water beds for 10 min, # then\n  lawn for 5 min", "pause 1 min; water beds for 10 min; # then\n  water lawn for 5 min",
        "water lawn for 5 min")]
    public void ASecondWateringInALineIsAnsweredWithTheTwoLinesToWrite(string steps, string corrected, string second)
    {
        var text = $"{Site}schedule s {{ every day; start at 06:00; steps {{ {steps} }} }}";
        var finding = Assert.Single(Read(text));
        Assert.StartsWith("Write two lines: `water beds", finding.Help, StringComparison.Ordinal);
        Assert.EndsWith($" and `{second}`.", finding.Help, StringComparison.Ordinal);
        foreach (var edit in finding.Fix!.Edits.Reverse()) text = text.Remove(edit.Location.Span.Start, edit.Location.Span.Length)
            .Insert(edit.Location.Span.Start, edit.Replacement);
        Assert.Contains(corrected, text, StringComparison.Ordinal);
        Assert.Empty(Read(text));
    }

    [Theory]
    [InlineData("schedule s { every day; start sunset; steps { water lawn for 5 min } }", "Put `at` or `after` before it.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn and beds for 5 min } }",
        "Put a plus in its place for together, or a comma for one after the other.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 01:30 } }", "Write how long with units, such as `1 h 30 min`.")]
    [InlineData("schedule s { every day at 06:00; steps { water lawn for 5 min } }", "Write `start at` and the time, on a line of its own.")]
    [InlineData("schedule s { daily; start at 06:00; steps { water lawn for 5 min } }", "Write `every day`.")]
    [InlineData("schedule s { on weekdays; start at 06:00; steps { water lawn for 5 min } }", "Write `mon to fri`.")]
    [InlineData("schedule s { on weekends; start at dawn; steps { water lawn for 5 min } }", "Write `sunrise`.")]
    [InlineData("schedule s { every day; start at noon; steps { water lawn for 5 min } }", "Write `12:00`.")]
    public void WhatIsSaidInOtherWordsIsAnsweredAndNotRewritten(string line, string help)
    {
        var finding = Read(Site + line).First(finding => finding.Help == help);
        Assert.Null(finding.Fix);
    }

    /// <summary>Each is one finding, with something to do about it.</summary>
    [Theory]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 0:10 } }", "Write how long with units, such as `1 h 30 min`.")]
    [InlineData("schedule s { every day; start at 30 min before sunrise; steps { water lawn for 5 min } }", "Write `sunrise - 30 min`.")]
    [InlineData("schedule s { every day; start at 10 min after sunset; steps { water lawn for 5 min } }", "Write `sunset + 10 min`.")]
    [InlineData("schedule s { every 2nd day; start at 06:00; steps { water lawn for 5 min } }",
        "Write the number alone, such as `every 2 days`, `days 2 of month` or `2 may`.")]
    [InlineData("schedule s { every day; start at 06:00; repeat 3 times every 20 min; steps { water lawn for 5 min } }",
        "Write the interval first, such as `repeat every 20 min for 3 passes`.")]
    [InlineData("schedule s { every day; start at 06:00; repeat every 20 min; steps { water lawn for 5 min } }",
        "Write how often or until when, such as `repeat every 20 min for 4 passes` or `repeat every 20 min until 09:00`.")]
    [InlineData("schedule s { every day, start at 06:00; steps { water lawn for 5 min } }",
        "Put a ; in its place, or begin a new line: a comma stands only inside a list.")]
    [InlineData("schedule s { every day; start at 06:00; water lawn for 5 min }",
        "Put it into the steps of a schedule, such as `steps { water lawn for 10 min }`.")]
    [InlineData("schedule s { every day; start at 06:00; steps { lawn for 5 min } }",
        "To water lawn, write `water lawn`. Here a statement begins with water, pause, repeat, cycle, run, accept.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 5 min; wait 2 min } }", "Write `pause`.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn } }",
        "Write how long or how much, such as `water lawn for 10 min` or `water lawn with 5 mm`.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 5 min with 5 mm } }", "Write how long or how much, not both.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn with 5 } }", "Write its unit after it, such as `water lawn with 12 mm`.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for half an hour } }",
        "Write a number and its unit, such as `water lawn for 10 min`.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water 1 for 5 min } }",
        "Write a name: things are called by their names here, not by numbers.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water \"Rose Beds\" for 5 min } }", "Write a name, without quotes: `rose-beds`.")]
    [InlineData("schedule s { every day; start at 06:00; steps { cycle 5 min { water lawn for 10 min } } }",
        "Write how long the water may soak in, such as `cycle 6 min soak 30 min { … }`.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 5 min } }   /* was 8 */", "Begin the comment with `#`; it ends with its line.")]
    [InlineData("schedule s: every day at 06:00 water lawn for 5 min", "Delete it: a value stands after a blank, and a block between { and }.")]
    [InlineData("schedule s\n  every day\n  start at 06:00\n  steps\n    water lawn for 5 min",
        "Put a { at the end of this line, and a } after the last line of its block.")]
    [InlineData("zone hedge\noutput 3\nflow 4 L/min\nsupply tap { flow 9 L/min }",
        "Put a { at the end of this line, and a } after the last line of its block.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 10 m } }", "Write 10 min.")]
    [InlineData("schedule s { on 30 feb; start at 06:00; steps { water lawn for 5 min } }", "Write last feb for its last day, or another day of it.")]
    [InlineData("zone hedge 'Hedge' { output 3 }", "Write a label in quotes, `\"Hedge\"`; a name stands without quotes.")]
    [InlineData("zone hedge { output 3; soil ‘loam’ }", "Write a label in quotes, `\"loam\"`; a name stands without quotes.")]
    [InlineData("zone hedge { output 3; area .5 m2 }", "Write `0.5`.")]
    [InlineData("zone Hedge_Süd { output 3 }", "Use small letters a to z, digits and single hyphens, such as `hedge-sued`; people read the label.")]
    [InlineData("zone \"Rose beds\" { output 3 }", "Write it as `zone rose-beds \"Rose beds\" { … }`.")]
    [InlineData("group front = lawn & beds", "Write + for together, or a comma for one after the other.")]
    [InlineData("hold lawn because \"new seed\"", "Write from when to when, such as `from 2026-06-12 to 2026-06-14`.")]
    [InlineData("closed nov to mar because \"frost\"", "Write from, and days with their months, such as `from 1 nov to 31 mar`.")]
    [InlineData("closed from nov to last mar because \"frost\"",
        "Write both days without a year, such as `closed from 1 nov to 15 mar`; a span of one year is a hold.")]
    [InlineData("closed from 2026-11-01 to 2027-03-01 because \"frost\"",
        "Write both days without a year, such as `closed from 1 nov to 15 mar`; a span of one year is a hold.")]
    [InlineData("extra 2026-07-01 21:00 { water lawn for 5 min }", "Write why, such as `because \"new plants\"`.")]
    [InlineData("restriction town { at most 3 times a week }", "Write at most 3 days a week")]
    [InlineData("water lawn for 5 min", "Put it into the steps of a schedule, such as `steps { water lawn for 10 min }`.")]
    [InlineData("zone hedge { output 3; start at 06:00 }", "Put it into a schedule, between its { and }.")]
    [InlineData("injector feed { output 3; before 5 min }",
        "Its properties are output, supply, zones, flow, motor, load, valve, inrush, minimum-voltage, wire, starts, stops, bridges, at most, after, rinse, "
        + "doses.")]
    [InlineData("climate { january 3 C to 10 C }", "Write `jan`.")]
    [InlineData("schedule s { on may; start at 06:00; steps { water lawn for 5 min } }", "Write its days, such as `1 may to last may`.")]
    public void A_slip_is_one_finding_with_help(string line, string help) => Assert.Equal([help], Read(Site + line).Select(finding => finding.Help));

    /// <summary>A name is not unknown because its description has a mistake.</summary>
    [Theory]
    [InlineData("valve ac24 { inrush 400 mA }\nzone hedge { output 3; valve ac24 }\nzone pots { output 4; valve ac24 }", "4:7 missing")]
    [InlineData("valve ac24 non-lathing { inrush 400 mA }\nzone hedge { output 3; valve ac24 }\nzone pots { output 4; valve ac24 }", "4:12 unknown-name")]
    [InlineData("suply tap { flow 9 L/min }\nzone hedge { output 3; supply tap }\nzone pots { output 4; supply tap }", "4:1 unknown-name")]
    [InlineData("zome hedge { output 3 }\nschedule s { every day; start at 06:00; steps { water hedge for 5 min; water hedge, lawn for 5 min } }",
        "4:1 unknown-name")]
    public void WhatCannotBeReadIsReportedWhereItStandsAndNotWhereItIsAskedFor(string lines, string finding) => Assert.Equal([finding], Findings(Site + lines));

    /// <summary>A thing that is written where it cannot be is reported there; what asks for it is reported where it asks.</summary>
    [Fact]
    public void AZoneInsideAScheduleIsSentToTheTop() =>
        Assert.Contains("Put it at the top of the file, outside of all braces.",
            Read(Site + "schedule s { zone hedge { output 3 }; every day; start at 06:00; steps { water hedge for 5 min } }").Select(finding => finding.Help));

    [Theory]
    [InlineData("schedule s { every day; from May 1 to Sept 30; start at 06:00; steps { water lawn for 5 min } }", "1 may", "30 sep")]
    [InlineData("zone hedge { output 3; area 12 m^2 }", "m2")]
    public void WhatIsUnderstoodIsReportedWithItsUsualForm(string line, params string[] forms) =>
        Assert.Equal(forms.Select(form => $"{ReadingRules.UnusualForm.Slug} Write `{form}`."),
            Read(Site + line).Select(finding => $"{finding.Rule.Slug} {finding.Help}"));

    [Theory]
    [InlineData("Berlin", "Write `Europe/Berlin`.")]
    [InlineData("\"Europe/Berlin\"", "Write `Europe/Berlin`.")]
    [InlineData("new york", "Write `America/New_York`.")]
    [InlineData("europe/berlin", "Write `Europe/Berlin`.")]
    [InlineData("Europe/Berln", "Write `Europe/Berlin`.")]
    [InlineData("GMT+1", "Name the zone of a city, such as `Europe/Lisbon`.")]
    [InlineData("here", "Name the zone of a city, such as `Europe/Lisbon`.")]
    public void ATimeZoneIsAnsweredWithThatOfItsCityAndNeverWithAnotherOffset(string zone, string help) =>
        Assert.Equal(help, Assert.Single(Read(Site.Replace("Europe/Lisbon", zone, StringComparison.Ordinal))).Help);

    [Theory]
    [InlineData("39.6N 8.1W", "unusual-form Write `39.6 N`.|unusual-form Write `8.1 W`.")]
    [InlineData("39°36'N 8°6'W",
        "syntax Write degrees with a decimal point, such as `52.5 N 13.4 E`.")]
    public void ALocationAsMapsShowItIsAnswered(string location, string found) =>
        Assert.Equal(found, string.Join('|',
            Read(Site.Replace("39.6 N 8.1 W", location, StringComparison.Ordinal)).Select(finding => $"{finding.Rule.Slug} {finding.Help}")));

    [Theory]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 5 min; accept short-run because \"a test\" } }", "4:71 syntax")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 5 min }; accept short-run because \"a test\" }", null)]
    [InlineData("sequence q { water lawn for 5 min; accept short-run because \"a test\" }", null)]
    public void AnAcceptStandsDirectlyInAScheduleOrASequence(string line, string? finding) =>
        Assert.Equal(finding is null ? [] : [finding], Findings(Site + line));

    [Fact]
    public void AMissingOpeningBraceIsReportedAtTheEndOfItsLine() =>
        Assert.Equal(
            ["4:13 syntax", "9:6 missing"],
            Findings(Site + "schedule one\n  every day\n  start at 06:00\n  steps { water lawn for 5 min }\n}\nzone hedge { flow 5 L/min }\n"));

    [Fact]
    public void AMissingOpeningBraceInsideABlockIsReportedToo() =>
        Assert.Equal(
            ["7:8 syntax"],
            Findings(Site + "schedule one {\n  every day\n  start at 06:00\n  steps\n    water lawn for 5 min\n  }\n}\n"));

    [Theory]
    [InlineData("zone Hedge_x { output 3 }")]
    [InlineData("zone hecke-ü { output 3 }")]
    [InlineData("zone 3rd { output 3 }")]
    public void ANameIsSmallLettersDigitsAndHyphens(string line) => Assert.Contains(Findings(Site + line), finding => finding == "4:6 syntax");

    [Fact]
    public void ABraceTooManyIsReportedAlone() => Assert.Equal(["5:1 syntax"], Findings(Site + "zone hedge { output 3 }\n}\n"));

    [Theory]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void LineEndsOfEveryKindCount(string lineEnd) =>
        Assert.Equal(["4:5 unknown-name"], Findings((Site + "    schedle a { every day }").Replace("\n", lineEnd, StringComparison.Ordinal)));

    [Fact]
    public void AByteOrderMarkTakesNoColumn() => Assert.Equal(["1:1 unknown-name"], Findings("\uFEFFschedle a { every day }\n" + Site));

    [Theory]
    [InlineData("# turned \u202E comment", "hidden-text")]
    [InlineData("zone\u00A0hedge { output 3 }", "hidden-text")]
    [InlineData("zone hedge \"\u202Eegdeh\" { output 3 }", "hidden-text")]
    [InlineData("zone hedge \"\\u{zz}\" { output 3 }", "syntax")]
    [InlineData("zone hedge \"open { output 3 }", "syntax")]
    public void WhatCannotBeSeenOrReadIsReported(string line, string slug) => Assert.Contains(Findings(Site + line), finding => finding.EndsWith(' ' + slug));

    [Fact]
    public void ALabelMayHoldAMarkOfDirectionAndAnEmoji() => Assert.Empty(Findings(Site + "zone hedge \"Hedge \u200F🌱 \\u{1F331}\" { output 3 }"));

    [Theory]
    [InlineData("schedule s { every day; start at 06:00; steps { ", "repeat 2 times { ", 20_000)]
    [InlineData("", "{ ", 20_000)]
    public void BracesTooDeepEndAtOnce(string before, string brace, int count)
    {
        var text = before + string.Concat(Enumerable.Repeat(brace, count));
        Assert.Equal(["over-limit"], Findings(text).Select(finding => finding.Split(' ')[1]));
    }

    [Fact]
    public void AFileTooLongIsRefused() =>
        Assert.Contains("over-limit", Findings(new string('#', Limits.FileLength + 1))[0], StringComparison.Ordinal);

    [Fact]
    public void RandomEditsNeverThrow()
    {
        var random = new Random(20260401);
        const string good = Site + "schedule s {\n  on mon, wed to fri\n  start at sunrise - 30 min\n  repeat every 45 min for 4 passes\n"
            + "  steps { water lawn + beds, lawn for 10 min; pause 2 min }\n}\n";
        for (var i = 0; i < 2_000; i++)
        {
            var at = random.Next(good.Length);
            var length = random.Next(1, 6);
            var text = random.Next(3) switch
            {
                0 => good.Remove(at, Math.Min(length, good.Length - at)),
                1 => good.Insert(at, good.Substring(random.Next(good.Length - 6), length)),
                _ => good.Remove(at, 1).Insert(at, ((char)random.Next(32, 400)).ToString()),
            };
            Assert.True(Findings(text).Length <= 12, text);
        }
    }

    private static FindingList Read(string text) =>
        SiteReader.Read(SourceText.From("site.water", text), "site.water", new NoFiles(), DateTimeZoneProviders.Tzdb).Findings;

    private static string[] Findings(string text) =>
        [.. Read(text).Select(finding => $"{finding.Primary.Location.Start.Line}:{finding.Primary.Location.Start.Column} {finding.Rule.Slug}")];

    private sealed class NoFiles : ISourceReader
    {
        public SourceText? Read(string path) => null;
    }
}
