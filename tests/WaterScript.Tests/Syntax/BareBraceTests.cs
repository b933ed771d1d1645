using WaterScript.Diagnostics.Reading;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Syntax;

/// <summary>Braces before which no statement has a block: one error, at the brace, and what stands in them is still read.</summary>
public sealed class BareBraceTests
{
    private const string Hold = "hold from 2026-07-01 for 3 days because \"roof is tarred\"";

    [Theory]
    [InlineData("‹{› " + Hold + " }")]
    [InlineData("let x = 5 min\n‹{›\n  " + Hold + "\n}")]
    [InlineData("zone c { output 3 } ‹{› " + Hold + " }")]
    [InlineData("‹{›{ " + Hold + " }}")]
    [InlineData("‹{› }")]
    [InlineData("‹{› output 3; valve ac24; flow 10 L/min }")]
    [InlineData("‹{› every day; start at 06:00; steps { water a for 5 min } }")]
    [InlineData("‹{› water a for 5 min; watr b }")]
    [InlineData("zone c { output 3 ‹{› flow 5 L/min } }")]
    [InlineData("zone c { ‹{› output 3 } }")]
    [InlineData("zone c { output 3; flow 5 L/min; method drip\n ‹{›\n area 5 m2 } }")]
    [InlineData("schedule s { every day; start at 07:00; ‹{› water a for 5 min } }")]
    [InlineData("schedule s { ‹{› every day; start at 07:00 }; steps { water a for 5 min } }")]
    [InlineData("schedule s { every day; start at 07:00 ‹{› steps { water a for 5 min } } }")]
    [InlineData("schedule s { every day; start at 07:00; steps { ‹{› water a for 5 min } } }")]
    [InlineData("schedule s { every day; start at 07:00; steps { water a for 5 min ‹{› water b for 5 min } } }")]
    [InlineData("schedule s { every day; start at 07:00; steps { repeat 2 times { water a for 5 min } ‹{› water b for 5 min } } }")]
    [InlineData("restriction r { ‹{› allow on odd days } }")]
    public void Bare_braces_are_one_error_at_their_brace(string text)
    {
        var finding = Expect.One("syntax", text);
        Assert.Equal("braces without a statement before them", finding.Heading);
        Assert.Contains("Delete the { and its }.", finding.Help, StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void What_stands_in_bare_braces_is_read()
    {
        var reading = Expect.Read(Expect.Garden + "{ " + Hold
            + "\n zone a { output 3 } }\nschedule s { every day; { start at 25:00 }\n steps { { water a for 5 min } } }\n");
        Assert.Single(reading.Site!.Holds);
        Assert.Single(reading.Site.Schedules.Single(schedule => schedule.Name == "s").Steps);
        Assert.Equal(["syntax", "duplicate-name", "syntax", "out-of-range", "syntax"], Expect.Errors(reading).Select(error => error.Rule.Slug));
    }

    [Fact]
    public void A_block_inside_a_block_has_no_name_and_no_label() =>
        Expect.One("syntax", Expect.Garden.Replace("outputs 8 }", "outputs 8; power ‹big \"Power\"› { continuous 500 mA at 5 V } }", StringComparison.Ordinal),
            before: "");

    [Fact]
    public void A_second_label_is_stated_twice() => Expect.One("stated-twice", "zone c \"C\" ‹\"D\"› { output 3 }");

    [Fact]
    public void Each_power_after_the_first_is_stated_twice()
    {
        var reading = Expect.Read(Expect.Garden + "controller c2 { outputs 2; power { }; power { }; power { } }");
        Assert.Equal(2, Expect.Errors(reading).Count(error => error.Rule == ReadingRules.StatedTwice));
    }
}
