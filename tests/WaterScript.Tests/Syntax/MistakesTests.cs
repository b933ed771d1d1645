using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>A file with many mistakes tells each of them at its own place, and nothing else.</summary>
public class MistakesTests
{
    private const string Site = "site garden { timezone Europe/Lisbon; effective 2026-03-01; location 39.6 N 8.1 W }\nzone lawn { output 1 }\nzone beds { output 2 }\n";

    [Fact]
    public void ManyMistakesAreToldOnceEachAtTheirPlaces()
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
    public void AMissingBraceIsToldAtTheLineThatOpensItsBlock() =>
        Assert.Equal(
            ["4:14 syntax", "8:6 missing", "8:14 unknown-property"],
            Findings(Site + "schedule one {\n  every day\n  start at 06:00\n  steps { water lawn for 5 min }\nzone hedge { otput 3 }\n"));

    [Theory]
    [InlineData("schedule s { evry day }", "Write every.")]
    [InlineData("schedule s { every day; start at 06:00; steps { watr lawn for 5 min } }", "Write water.")]
    [InlineData("restriction r { alow on odd days }", "Write allow.")]
    public void AMisspeltStatementIsAnsweredWithTheNearestWord(string line, string wayOut) =>
        Assert.Contains(wayOut, Read(Site + line).Select(finding => finding.WayOut));

    [Theory]
    [InlineData("schedule s { every day; start 06:00; steps { water lawn for 5 min } }", "Write at 06:00", "start at 06:00")]
    [InlineData("schedule s { every day; start at 6.30; steps { water lawn for 5 min } }", "Write 06:30", "start at 06:30")]
    [InlineData("schedule s { every day; start at 0630; steps { water lawn for 5 min } }", "Write 06:30", "start at 06:30")]
    [InlineData("schedule s { every day; start at 6; steps { water lawn for 5 min } }", "Write 06:00", "start at 06:00")]
    [InlineData("schedule s { every other day; start at 06:00; steps { water lawn for 5 min } }", "Write 2, like this: every 2 days", "every 2 day")]
    [InlineData("schedule s { every third day; start at 06:00; steps { water lawn for 5 min } }", "Write 3, like this: every 3 days", "every 3 day")]
    [InlineData("schedule s { every day; start at 06:00; cut 07:00; steps { water lawn for 5 min } }", "Write at 07:00", "cut at 07:00")]
    [InlineData("closed 20 oct to 5 apr because \"drained\"", "Write from 20", "closed from 20 oct")]
    [InlineData("let spell 5 min", "Write = 5", "let spell = 5 min")]
    public void AMissingWordIsPutInWhereOnlyOneCanBeMeant(string line, string wayOut, string mended)
    {
        var finding = Read(Site + line).First(finding => finding.Rule == Rules.Syntax);
        var edit = Assert.Single(finding.Fix!.Edits);
        var text = (Site + line).Remove(edit.Location.Span.Start, edit.Location.Span.Length).Insert(edit.Location.Span.Start, edit.Replacement);
        Assert.Equal(wayOut, finding.WayOut);
        Assert.Contains(mended, text, StringComparison.Ordinal);
        Assert.DoesNotContain(Findings(text), place => place.EndsWith(" syntax", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("water beds for 10 min, lawn for 5 min", "water beds for 10 min; water lawn for 5 min", "water lawn for 5 min")]
    [InlineData("water beds + lawn for 10 min ,lawn, beds for 5 min", "water beds + lawn for 10 min ;water lawn, beds for 5 min", "water lawn, beds for 5 min")]
    [InlineData("pause 1 min; water beds for 10 min, # then\n  lawn for 5 min", "pause 1 min; water beds for 10 min; # then\n  water lawn for 5 min", "water lawn for 5 min")]
    public void ASecondWateringInALineIsAnsweredWithTheTwoLinesToWrite(string steps, string mended, string second)
    {
        var text = $"{Site}schedule s {{ every day; start at 06:00; steps {{ {steps} }} }}";
        var finding = Assert.Single(Read(text));
        Assert.StartsWith("Write two lines: water beds", finding.WayOut, StringComparison.Ordinal);
        Assert.EndsWith($", and: {second}", finding.WayOut, StringComparison.Ordinal);
        foreach (var edit in finding.Fix!.Edits.Reverse()) text = text.Remove(edit.Location.Span.Start, edit.Location.Span.Length).Insert(edit.Location.Span.Start, edit.Replacement);
        Assert.Contains(mended, text, StringComparison.Ordinal);
        Assert.Empty(Read(text));
    }

    [Theory]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn 5 min } }", "Put for or with before it.")]
    [InlineData("schedule s { every day; start sunset; steps { water lawn for 5 min } }", "Put at or after before it.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn and beds for 5 min } }", "Put a plus in its place for together, or a comma for one after the other.")]
    [InlineData("schedule s { on mon and wed; start at 06:00; steps { water lawn for 5 min } }", "Put a comma in its place.")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 01:30 } }", "Write how long with units, like this: 1 h 30 min")]
    [InlineData("schedule s { every day at 06:00; steps { water lawn for 5 min } }", "Write start at and the time, on a line of its own.")]
    [InlineData("schedule s { daily; start at 06:00; steps { water lawn for 5 min } }", "Write every day")]
    [InlineData("schedule s { on weekdays; start at 06:00; steps { water lawn for 5 min } }", "Write mon to fri")]
    [InlineData("schedule s { on weekends; start at dawn; steps { water lawn for 5 min } }", "Write sunrise")]
    [InlineData("schedule s { every day; start at noon; steps { water lawn for 5 min } }", "Write 12:00")]
    public void WhatIsSaidInOtherWordsIsAnsweredAndNotRewritten(string line, string wayOut)
    {
        var finding = Read(Site + line).First(finding => finding.WayOut == wayOut);
        Assert.Null(finding.Fix);
    }

    [Theory]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 5 min; accept short-run because \"a test\" } }", "4:71 syntax")]
    [InlineData("schedule s { every day; start at 06:00; steps { water lawn for 5 min }; accept short-run because \"a test\" }", null)]
    [InlineData("sequence q { water lawn for 5 min; accept short-run because \"a test\" }", null)]
    public void AnAcceptStandsDirectlyInAScheduleOrASequence(string line, string? finding) =>
        Assert.Equal(finding is null ? [] : [finding], Findings(Site + line));

    [Fact]
    public void AMissingOpeningBraceIsToldAtTheEndOfItsLine() =>
        Assert.Equal(
            ["4:13 syntax", "9:6 missing"],
            Findings(Site + "schedule one\n  every day\n  start at 06:00\n  steps { water lawn for 5 min }\n}\nzone hedge { flow 5 L/min }\n"));

    [Fact]
    public void AMissingOpeningBraceInsideABlockIsToldToo() =>
        Assert.Equal(
            ["7:8 syntax"],
            Findings(Site + "schedule one {\n  every day\n  start at 06:00\n  steps\n    water lawn for 5 min\n  }\n}\n"));

    [Theory]
    [InlineData("zone Hedge_x { output 3 }")]
    [InlineData("zone hecke-ü { output 3 }")]
    [InlineData("zone 3rd { output 3 }")]
    public void ANameIsSmallLettersDigitsAndHyphens(string line) => Assert.Contains(Findings(Site + line), finding => finding == "4:6 syntax");

    [Fact]
    public void ABraceTooManyIsToldAlone() => Assert.Equal(["5:1 syntax"], Findings(Site + "zone hedge { output 3 }\n}\n"));

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
    public void WhatCannotBeSeenOrReadIsTold(string line, string slug) => Assert.Contains(Findings(Site + line), finding => finding.EndsWith(' ' + slug));

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
        const string good = Site + "schedule s {\n  on mon, wed to fri\n  start at sunrise - 30 min\n  repeat every 45 min for 4 passes\n  steps { water lawn + beds, lawn for 10 min; pause 2 min }\n}\n";
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
