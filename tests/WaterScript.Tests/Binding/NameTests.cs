using Xunit;

namespace WaterScript.Tests.Binding;

/// <summary>Names: given, used, and leading round in circles.</summary>
public sealed class NameTests
{
    /// <summary>Of a chain of names; the deepest where all samples are tried.</summary>
    private static readonly int Links = Samples.Of(20_000);

    [Theory]
    [InlineData("zone ‹a› { output 3 }")]
    [InlineData("zone c { output 3 }\ngroup ‹a› = b, c")]
    [InlineData("pump ‹a› { output 8; supply tap }")]
    [InlineData("pump p { output 8; supply tap }\nmaster ‹p› { output 7; supply tap }")]
    [InlineData("valve ‹ac24› latching { pulse 50 ms }")]
    [InlineData("sequence s { water a for 1 min }\nsequence ‹s› { water b for 1 min }")]
    [InlineData("schedule ‹main› { every day; start at 07:00; steps { water a for 1 min } }")]
    [InlineData("let drink = 1 min\nlet ‹drink› = 2 min\nschedule s { manual; steps { water a for drink } }")]
    public void TwoOfAKindAreADuplicate(string blocks)
    {
        var finding = Expect.One("duplicate-name", blocks);
        Assert.NotEmpty(finding.Others);
    }

    [Theory]
    [InlineData("soil a { intake 10 mm/h }\nplants a { coefficient 0.9 }\nsequence a { water a for 1 min }\nschedule a { manual; steps { run a } }")]
    [InlineData("zone steps { output 3 }\nzone hold { output 4 }\nzone from { output 5 }\nzone water { output 6 }\n"
        + "schedule s { manual; steps { water steps, hold + from, water for 1 min } }")]
    [InlineData(
        "schedule early { manual; steps { run later } }\nsequence later { water front for dip }\ngroup front = c, a\nlet dip = 1 min\nzone c { output 3 }")]
    public void OfDifferentKindsAndBeforeTheirDeclarationTheyAreFine(string blocks) => Expect.Fine(blocks);

    [Theory]
    [InlineData("zone ‹all› { output 3 }")]
    [InlineData("group ‹all› = a, b")]
    public void AllIsTaken(string blocks) => Assert.NotEmpty(Expect.Errors(Expect.Read(Expect.Garden + blocks)));

    [Theory]
    [InlineData("let ‹sunset› = 5 min")]
    [InlineData("let ‹mon› = 5 min")]
    [InlineData("let ‹every› = 5 min")]
    [InlineData("let ‹jul› = 2026-07-01")]
    public void ALetIsNotCalledLikeAWordOfTheLanguage(string let)
    {
        var errors = Expect.Errors(Expect.Read(Expect.Garden + let));
        Expect.HoldPlace(Expect.Garden + let, Assert.Single(errors));
    }

    [Theory]
    [InlineData("zone lawn { output 3 }\nschedule s { manual; steps { water ‹lawm› for 1 min } }", "lawn")]
    [InlineData("sequence round { water a for 1 min }\nschedule s { manual; steps { run ‹ruond› } }", "round")]
    [InlineData("schedule s { start after ‹mian›; steps { water a for 1 min } }", "main")]
    [InlineData("let planted = 2026-05-01\nschedule s { every day; from ‹plantd› for 3 weeks; start at 06:00; steps { water a for 1 min } }", "planted")]
    [InlineData("let drink = 1 min\nschedule s { manual; steps { water a for ‹drnk› } }", "drink")]
    [InlineData("zone lawn { output 3 }\ngroup front = a, ‹lown›", "lawn")]
    [InlineData("schedule s { on ‹thr›; start at 06:00; steps { water a for 1 min } }", "thu")]
    [InlineData("schedule s { every day; from 1 ‹arp› to 30 sep; start at 06:00; steps { water a for 1 min } }", "apr")]
    public void AnUnknownOneIsAnsweredWithTheNearest(string blocks, string nearest)
    {
        var finding = Expect.One("unknown-name", blocks);
        Assert.Equal(nearest, Assert.Single(finding.Fix!.Edits).Replacement);
    }

    [Theory]
    [InlineData("sequence r { run ‹r› }")]
    [InlineData("sequence x { run y }\nsequence y { run z }\nsequence z { run x }")]
    [InlineData("group g = a, g")]
    [InlineData("group g = a, h\ngroup h = b, g")]
    [InlineData("schedule x { start after y; steps { water a for 1 min } }\nschedule y { start after x; steps { water b for 1 min } }")]
    [InlineData("let x = y + 1 weeks\nlet y = x + 1 weeks")]
    [InlineData("let x = x + 1 weeks")]
    public void WhatLeadsBackToItselfIsALoop(string blocks)
    {
        var finding = Assert.Single(Expect.Errors(Expect.Read(Expect.Garden
            + blocks.Replace("‹", "", StringComparison.Ordinal).Replace("›", "", StringComparison.Ordinal))));
        Assert.Equal("loop", finding.Rule.Slug);
    }

    [Fact]
    public void ALongChainOfGroupsEndsWithoutFallingOver()
    {
        string Chain(Func<int, string> link, string end) => string.Join('\n', Enumerable.Range(0, Links).Select(link)) + "\n" + end;
        Reads(Chain(i => $"group g{i} = g{i + 1}", $"group g{Links} = a"));
        Reads(Chain(i => $"sequence s{i} {{ run s{i + 1} }}", $"sequence s{Links} {{ water a for 1 s }}"));
        Reads(Chain(i => $"let d{i} = d{i + 1} + 1 day", $"let d{Links} = 2026-05-01"));
        Reads(Chain(i => $"supply s{i} {{ fed-by s{i + 1} }}", $"supply s{Links} {{ flow 1 L/min }}"));
        Reads(Chain(i => $"schedule s{i} {{ start after s{i + 1}; steps {{ water a for 1 s }} }}",
            $"schedule s{Links} {{ start after main; steps {{ water a for 1 s }} }}"));
        Reads(string.Join('\n', Enumerable.Range(0, Links / 2).Select(i =>
            $"schedule x{i} {{ start after y{i}; steps {{ water a for 1 s }} }}\nschedule y{i} {{ start after x{i}; steps {{ water a for 1 s }} }}")));
    }

    private static void Reads(string text) => Assert.NotNull(Expect.Read(Expect.Garden + text).Findings);

    [Fact]
    public void GroupsThatDoubleEachOtherEndAtOnce()
    {
        var doubling = "group g0 = a, b\n" + string.Join('\n', Enumerable.Range(1, 60).Select(i => $"group g{i} = g{i - 1}, g{i - 1}"));
        var reading = Expect.Read(Expect.Garden + doubling + "\nschedule s { manual; steps { water g60 for 1 s } }");
        Assert.Contains(reading.Findings, finding => finding.Rule.Slug == "over-limit");
    }

    [Fact]
    public void AllIsEveryZoneInUseByControllerThenOutput()
    {
        const string site =
            """
            site g { timezone Etc/UTC; effective 2026-01-01 }
            controller one { outputs 9 }
            controller two { outputs 9 }
            zone d { output 1 of two }
            zone c { output 7 of one }
            zone b { output 5 of one; spare }
            zone a { output 3 of one }
            schedule s { manual; steps { water all for 1 min } }
            """;
        var step = Assert.IsType<Model.WaterStep>(Assert.Single(Expect.Fine("", site).Site!.Schedules[0].Steps));
        Assert.Equal(["a", "c", "d"], step.Parts.Select(part => Assert.Single(part.Zones).Name));
    }

    [Theory]
    [InlineData("group g = a, b\nschedule s { manual; steps { water ‹g› + c for 1 min } }\nzone c { output 3 }", "contradiction")]
    [InlineData("zone c { output 3 }\nschedule s { manual; steps { water c + ‹all› for 1 min } }", "contradiction")]
    [InlineData("group g = a + b\nschedule s { manual; steps { water g + ‹a› for 1 min } }", "stated-twice")]
    [InlineData("schedule s { manual; steps { water a + ‹a› for 1 min } }", "stated-twice")]
    public void WhatCannotStandBesideAPlusIsSaid(string blocks, string slug)
    {
        var text = Expect.Garden + blocks;
        var finding = Assert.Single(Expect.Errors(Expect.Read(text)));
        Assert.Contains(finding.Rule.Slug, (string[])[slug, "contradiction", "stated-twice"]);
        Assert.Equal(Expect.Errors(Expect.Read(text))[0].Primary.Location.Source.PositionOf(text.IndexOf('‹', StringComparison.Ordinal)).Line,
            finding.Primary.Location.Start.Line);
    }

    [Fact]
    public void AGroupWithAPlusMayStandBesideAPlus()
    {
        var site = Expect.Fine("zone c { output 3 }\ngroup g = a + b\nschedule s { manual; steps { water g + c, g for 1 min } }").Site!;
        var step = Assert.IsType<Model.WaterStep>(Assert.Single(site.Schedules.Single(schedule => schedule.Name == "s").Steps));
        Assert.Equal(["a b c", "a b"], step.Parts.Select(part => string.Join(' ', part.Zones.Select(zone => zone.Name))));
    }

    [Theory]
    [InlineData("restriction r { for ‹a + b› }")]
    [InlineData("hold ‹a + b› from 2026-05-01 for 2 days because \"x\"")]
    public void ASetTakesNoPlus(string blocks) =>
        Assert.Contains(Expect.Errors(
            Expect.Read((Expect.Garden + blocks).Replace("‹", "", StringComparison.Ordinal).Replace("›", "", StringComparison.Ordinal))), finding =>
            finding.Rule.Slug is "contradiction" or "syntax");

    [Fact]
    public void SeveralSuppliesAndControllersAreToBeNamed()
    {
        var supplies = Expect.Errors(Expect.Read(Expect.Garden + "supply other { flow 5 L/min }"));
        Assert.Equal(["missing", "missing"], supplies.Select(finding => finding.Rule.Slug));
        var controllers = Expect.Errors(Expect.Read(Expect.Garden + "controller other { outputs 5 }"));
        Assert.Equal(["missing", "missing"], controllers.Select(finding => finding.Rule.Slug));
    }

    [Fact]
    public void AFileWithoutASiteSaysSo() => Assert.Equal("missing", Assert.Single(Expect.Errors(Expect.Read("zone a { output 1 }"))).Rule.Slug);

    [Fact]
    public void AMisspeltKindIsOneFinding() => Assert.Single(Expect.Errors(Expect.Read(Expect.Garden + "zoen c { output 3 }")));
}
