using NodaTime;
using WaterScript.Model;
using Xunit;

namespace WaterScript.Tests.Binding;

/// <summary>What a schedule must and must not say.</summary>
public sealed class ScheduleRulesTests
{
    private const string Rest = "start at 06:00; steps { water a for 1 min }";

    [Theory]
    [InlineData("every day")]
    [InlineData("every 4 days; from 2026-05-01")]
    [InlineData("every 2 weeks on tue, thu")]
    [InlineData("on mon, wed to fri")]
    [InlineData("on sat to mon")]
    [InlineData("on odd days; except days 31 of month")]
    [InlineData("on days 1, 15 of month")]
    [InlineData("on first mon of month, last fri of month, last day of month")]
    [InlineData("on 2026-05-01, 25 dec, 2026-06-01 to 2026-06-10, 20 dec to 5 jan, last feb")]
    [InlineData("on 29 feb")]
    [InlineData("every day; from 1 apr to 30 sep")]
    [InlineData("every day; from 1 nov to last feb")]
    [InlineData("every day; from 2026-05-01 for 3 weeks")]
    [InlineData("every day; from 1 mar for 3 weeks")]
    [InlineData("every day; except every 2 weeks on fri")]
    [InlineData("on mon; on tue; except 25 dec; except 1 jan")]
    [InlineData("every day; repeat every 45 min for 4 passes")]
    [InlineData("every day; repeat every 8 min until sunset - 30 min")]
    [InlineData("every day; repeat every 1 h until 04:00 next day")]
    [InlineData("every day; repeat every 1 h until 24:00")]
    [InlineData("every day; start at sunrise - 30 min, sunset + 1 h 15 min")]
    [InlineData("every day; start at 05:00 on mon to fri")]
    [InlineData("every day; note \"x\"")]
    public void IsTaken(string lines) => Expect.Fine($"schedule s {{ {lines}; {Rest} }}");

    [Theory]
    [InlineData("every day; ‹on mon›", "contradiction")]
    [InlineData("every day; ‹every 2 days›", "stated-twice")]
    [InlineData("‹every 2 weeks›", "missing")]
    [InlineData("every ‹2 days on mon›", "contradiction")]
    [InlineData("every ‹0› days", "out-of-range")]
    [InlineData("every ‹1.5› days", "out-of-range")]
    [InlineData("every ‹999999999999› days", "out-of-range")]
    [InlineData("on days ‹0› of month", "out-of-range")]
    [InlineData("on days 1, ‹32› of month", "out-of-range")]
    [InlineData("on ‹2026-02-30›", "out-of-range")]
    [InlineData("on ‹31 jun›", "out-of-range")]
    [InlineData("on ‹30 feb›", "out-of-range")]
    [InlineData("on ‹2026-06-10 to 2026-06-01›", "*")]
    [InlineData("on ‹2026-06-10 to 20 jun›", "contradiction")]
    [InlineData("every day; from ‹2026-04-01 to 30 sep›", "contradiction")]
    [InlineData("every day; from ‹1 apr›", "*")]
    [InlineData("every day; from 2026-04-01 to 2026-09-01; ‹from 1 apr to 1 sep›", "stated-twice")]
    [InlineData("every day; from 2026-04-01 for ‹36 h›", "out-of-range")]
    [InlineData("every day; from 2026-04-01 for ‹20 mm›", "wrong-unit")]
    [InlineData("every day; from 1 mar for ‹60 weeks›", "out-of-range")]
    [InlineData("every day; from ‹1 mar + 2 weeks› to 1 jun", "*")]
    [InlineData("every day; repeat every ‹0 min› for 4 passes", "out-of-range")]
    [InlineData("every day; repeat every 45 min for ‹0› passes", "out-of-range")]
    [InlineData("every day; repeat every 45 min until ‹05:00›", "contradiction")]
    [InlineData("every day; repeat every 45 min until ‹25:00›", "out-of-range")]
    [InlineData("every day; start at ‹24:00›", "out-of-range")]
    [InlineData("every day; start at ‹06:60›", "out-of-range")]
    [InlineData("every day; start at sunrise + ‹0.5 s›", "out-of-range")]
    [InlineData("every day; start at sunrise + ‹30 L›", "wrong-unit")]
    public void IsAnswered(string lines, string slug)
    {
        if (slug != "*")
        {
            Expect.One(slug, $"schedule s {{ {lines}; {Rest} }}");
            return;
        }

        var text = $"{Expect.Garden}schedule s {{ {lines}; {Rest} }}";
        Expect.HoldPlace(text, Assert.Single(Expect.Errors(Expect.Read(text))));
    }

    [Theory]
    [InlineData("schedule ‹s› { start at 06:00; steps { water a for 1 min } }", "missing")]
    [InlineData("schedule ‹s› { every day; steps { water a for 1 min } }", "missing")]
    [InlineData("schedule ‹s› { every day; start at 06:00 }", "missing")]
    [InlineData("schedule s { every day; start at 06:00; ‹steps { }› }", "missing")]
    [InlineData("schedule s { every day; finish by 06:00; repeat every 1 h until ‹20:00›; steps { water a for 1 min } }", "contradiction")]
    [InlineData("schedule s { start after ‹m›; steps { water a for 1 min } }\nschedule m { manual; steps { water b for 1 min } }", "contradiction")]
    public void AsAWholeItIsAnswered(string schedule, string slug)
    {
        var text = Expect.Garden + schedule;
        var finding = Assert.Single(Expect.Errors(Expect.Read(text)));
        Assert.Equal(slug, finding.Rule.Slug);
    }

    [Theory]
    [InlineData("start after main")]
    [InlineData("start after main + 10 min; on mon")]
    [InlineData("finish by 06:30 on mon to fri; finish by 08:30 on sat, sun; every day")]
    public void OtherStartsAreTaken(string lines) => Expect.Fine($"schedule s {{ {lines}; steps {{ water a for 1 min }} }}");

    [Theory]
    [InlineData("water a for ‹0 min›", "out-of-range")]
    [InlineData("water a for ‹1.5 s›", "out-of-range")]
    [InlineData("water a for ‹500 ms›", "out-of-range")]
    [InlineData("water a for ‹10 L›", "wrong-unit")]
    [InlineData("water a for ‹10›", "wrong-unit")]
    [InlineData("water a for ‹30 min 1 h›", "*")]
    [InlineData("water a for ‹10 min 5 min›", "*")]
    [InlineData("water a for ‹1.5 h 10 min›", "*")]
    [InlineData("water a for ‹99999999999999999999999999999 h›", "out-of-range")]
    [InlineData("water a for ‹99999 weeks›", "*")]
    [InlineData("pause ‹5 m›", "wrong-unit")]
    [InlineData("repeat ‹0› times { water a for 1 min }", "out-of-range")]
    [InlineData("repeat ‹2.5› times { water a for 1 min }", "out-of-range")]
    [InlineData("‹repeat 1000000 times› { repeat 1000000 times { water a for 1 s } }", "over-limit")]
    [InlineData("‹repeat 1000000 times› { repeat 1000000 times { pause 1 s } }", "over-limit")]
    [InlineData("‹repeat 99999999999999999999 times› { water a for 1 s }", "*")]
    public void StepsAreAnswered(string step, string slug)
    {
        var text = $"{Expect.Garden}schedule s {{\nmanual\nsteps {{\n{step}\n}}\n}}";
        var findings = Expect.Errors(Expect.Read(text));
        var finding = slug == "over-limit" ? findings[0] : Assert.Single(findings);
        if (slug != "*") Assert.Equal(slug, finding.Rule.Slug);
        if (slug != "over-limit") Expect.HoldPlace(text, finding);
    }

    [Fact]
    public void RepeatedSequencesAreCountedBeforeTheyAreUnrolled()
    {
        var sequences = "sequence s0 { water a for 1 s }\n"
            + string.Join('\n', Enumerable.Range(1, 30).Select(i => $"sequence s{i} {{ repeat 9 times {{ run s{i - 1} }} }}"));
        var reading = Expect.Read(Expect.Garden + sequences + "\nschedule s { manual; steps { run s30 } }");
        Assert.Contains(Expect.Errors(reading), finding => finding.Rule.Slug == "over-limit");
    }

    [Theory]
    [InlineData("schedule ‹s› { manual; steps { repeat 1000 times { pause 5 days } } }")]
    [InlineData("schedule ‹s› { manual; steps { water a for 53 weeks } }")]
    [InlineData("schedule s { every day; start at 06:00; ‹repeat every 2 weeks for 100 passes›; steps { water a for 1 min } }")]
    public void WhatGoesOnForYearsIsNoWatering(string schedule) => Expect.One("over-limit", schedule);

    [Fact]
    public void EverySecondOfADayIsTooManyPasses() =>
        Expect.One("over-limit", "schedule s { every day; start at 00:00; ‹repeat every 1 s until 24:00›; steps { water a for 1 s } }");

    [Fact]
    public void AUntilBeforeTheStartOffersTheNextDay() =>
        Assert.Contains("next day",
            Assert.Single(Expect.One("contradiction", $"schedule s {{ every day; repeat every 1 h until ‹04:00›; {Rest} }}").Fix!.Edits).Replacement,
            StringComparison.Ordinal);

    [Fact]
    public void EveryCalendarLineOfAManualScheduleIsAnswered() =>
        Assert.Equal(["every day", "start at 06:00"],
            Expect.Errors(Expect.Read($"{Expect.Garden}schedule s {{ every day; manual; {Rest} }}")).Select(finding => finding.Primary.Location.Text));

    [Fact]
    public void SunTimesNeedALocation()
    {
        const string site = "site g { timezone Etc/UTC; effective 2026-01-01 }\nzone a { output 1 }\n";
        Expect.One("missing", "schedule s { every day; start at ‹sunset›; steps { water a for 1 min } }", site);
    }

    [Fact]
    public void StartsAreNumberedInWrittenOrder()
    {
        var schedule = Only("every day; start at 05:00, sunset + 1 h; finish by 23:00; start after main + 10 min; steps { water a for 1 min }");
        Assert.Equal([1, 2, 3, 4], schedule.Starts.Select(start => start.Number));
        Assert.Equal(5 * 3600, Assert.IsType<ClockMoment>(Assert.IsType<StartAt>(schedule.Starts[0]).Moment).SecondOfDay);
        Assert.Equal(Duration.FromHours(1), Assert.IsType<SunMoment>(Assert.IsType<StartAt>(schedule.Starts[1]).Moment).Offset);
        Assert.Equal(("main", Duration.FromMinutes(10)), (((StartAfter)schedule.Starts[3]).Other, ((StartAfter)schedule.Starts[3]).Delay));
    }

    [Fact]
    public void DatesAreCalculated()
    {
        var schedule = Only("every day; from sown + 2 weeks for 2 weeks; start at 06:00; steps { water a for 1 min }", "let sown = 2026-09-09\n");
        Assert.Equal(new DateRange(new LocalDate(2026, 9, 23), new LocalDate(2026, 10, 6)), schedule.Season!.Span);
    }

    [Theory]
    [InlineData("let x = 5 min\nschedule s { manual; steps { water a with ‹x› } }", "wrong-unit")]
    [InlineData("let x = 5 min\nlet y = ‹x›\nschedule s { manual; steps { water a for x } }", "*")]
    [InlineData("let x = 5 min\nschedule s { every day; from ‹x› to 2026-06-01; start at 06:00; steps { water a for 1 min } }", "*")]
    [InlineData("let x = 2026-05-01\nschedule s { manual; steps { water a for ‹x› } }", "*")]
    [InlineData("let x = 2026-05-01\nlet y = x + ‹36 h›\nschedule s { every day; from x to y; start at 06:00; steps { water a for 1 min } }", "out-of-range")]
    [InlineData("let x = ‹2026-05-32›", "out-of-range")]
    [InlineData("let x = ‹25 dec›", "*")]
    public void LetsAreChecked(string blocks, string slug)
    {
        var text = Expect.Garden + blocks;
        var finding = Assert.Single(Expect.Errors(Expect.Read(text)));
        if (slug != "*") Assert.Equal(slug, finding.Rule.Slug);
        Expect.HoldPlace(text, finding);
    }

    [Theory]
    [InlineData("hold from 2026-05-01 for 2 days because \"x\"")]
    [InlineData("restriction r { for a\nfrom 1 jun to 30 sep\nallow on odd days\nexcept days 31 of month\nallow between 20:00 and 09:00\n"
        + "at most 3 days a week\nat most 15 min a day per zone\nat most 19 mm a day per zone\nat most 1 zone at a time\nexempt b\n"
        + "exempt a from 2026-05-01 for 30 days\nweek starts sun\n}")]
    [InlineData("hold a from 2026-05-01 06:00 to 2026-05-03 07:00 because \"x\"")]
    [InlineData("hold a, b from 2026-05-01 until lifted because \"x\"")]
    [InlineData("closed from 20 oct to 5 apr because \"x\"")]
    [InlineData("extra 2026-07-18 21:00 because \"x\" { water a for 10 min }")]
    [InlineData("schedule s { every day; start at 06:00; cut off at 07:45; scale 80 %; steps { water a for 1 min } }")]
    public void WhatStandsOutsideTheCalendarIsTaken(string blocks) => Expect.Fine(blocks);

    [Theory]
    [InlineData("zone c { output 3; soil loam }", "flow 9 L/min; area 45 m2")]
    [InlineData("zone c { output 3; rate 40 mm/h }", "soil loam")]
    [InlineData("soil made { holds 150 mm/m; ponds 5 mm }\nzone c { output 3; rate 40 mm/h; soil made }", "intake 10 mm/h")]
    [InlineData("soil made { intake 10 mm/h }\nzone c { output 3; rate 40 mm/h; soil made }", "ponds 5 mm")]
    public void ACycleWithoutLengthsNeedsSoilAndRate(string zone, string help)
    {
        var finding = Expect.One("missing", $"{zone}\nschedule s {{ manual; steps {{ ‹cycle auto {{ water c for 12 min }}› }} }}");
        Assert.Contains(help, finding.Help, StringComparison.Ordinal);
        Assert.Equal("c", Assert.Single(finding.Others).Location.Text);
    }

    [Fact]
    public void NoCycleHelpsWhereNothingMayStand() => Expect.One(
        "out-of-range",
        "soil rock { intake 1 mm/h; ponds 0 mm }\nzone c { output 3; rate 40 mm/h; soil rock }\n"
            + "schedule s { manual; steps { ‹cycle auto { water c for 12 min }› } }");

    [Theory]
    [InlineData("zone c { output 3; rate 40 mm/h; soil loam }")]
    [InlineData("zone c { output 3; method drip }")]
    [InlineData("soil loam { intake 12 mm/h }\nzone c { output 3; rate 40 mm/h; soil loam; slope 9 % }")]
    public void ACycleWithoutLengthsIsComputed(string zone) => Expect.Fine($"{zone}\nschedule s {{ manual; steps {{ cycle auto {{ water c for 12 min }} }} }}");

    [Theory]
    [InlineData("scale ‹w› { by climate }\nschedule s { every day; start at 06:00; scale w; steps { water a for 1 min } }")]
    [InlineData("scale w { by climate }\n‹climate› { jan et 1 mm/day }\nschedule s { every day; start at 06:00; scale w; steps { water a for 1 min } }")]
    [InlineData("scale w { by climate }\n‹climate› { jul rain 30 mm }\n"
        + "schedule s { every day; from 1 jul to 31 jul; start at 06:00; scale w; steps { water a for 1 min } }")]
    [InlineData("climate { jul ‹humidity 45 % to 85 %, rain 3 mm› }")]
    public void AScaleByClimateNeedsAClimate(string blocks) => Expect.One("missing", blocks);

    [Theory]
    [InlineData("climate { apr et 3 mm/day; may et 4 mm/day }\nscale w { by climate }\n"
        + "schedule s { every day; from 15 apr to 20 may; start at 06:00; scale w; steps { water a for 1 min } }")]
    [InlineData("climate { dec et 1 mm/day; jan et 1 mm/day }\nscale w { by climate }\n"
        + "schedule s { every day; from 15 dec for 3 weeks; start at 06:00; scale w; steps { water a for 1 min } }")]
    [InlineData("climate { apr et 3 mm/day }\nscale w { by climate }\n"
        + "schedule s { every day; from 2026-04-03 to 2026-04-20; start at 06:00; scale w; steps { water a for 1 min } }")]
    [InlineData("scale w { by climate }")]
    public void OnlyMonthsThatAreWateredNeedAClimate(string blocks) => Expect.Fine(blocks);

    [Theory]
    [InlineData("pump p { output 8; supply tap }")]
    [InlineData("master m { output 8; supply tap; starts 3 s before zones; bridges gaps up to 60 s }")]
    [InlineData("injector i { output 8; zones a; after 1 min; rinse 2 min }\nschedule s { manual; steps { water a for 10 min through i } }")]
    public void WhatFollowsTheZonesIsComputed(string blocks) => Assert.Empty(Expect.Fine(blocks).Findings);

    [Theory]
    [InlineData("water c with 12 mm")]
    [InlineData("water c with 0.5 in")]
    [InlineData("water a, b + c with 4 L")]
    [InlineData("cycle 6 min soak 30 min { water a, c for 12 min; water c with 12 mm; run round }")]
    public void AmountsAndCyclesAreComputed(string steps) =>
        Expect.Fine($"zone c {{ output 3; flow 9 L/min; area 45 m2 }}\nsequence round {{ water a for 2 min }}\nschedule s {{ manual; steps {{ {steps} }} }}");

    [Theory]
    [InlineData("zone c { output 3; flow 9 L/min }", "water c with ‹12 mm›", "area 45 m2")]
    [InlineData("zone c { output 3; area 9 m2 }", "water c with ‹12 mm›", "flow 9 L/min")]
    [InlineData("zone c { output 3 }", "water c with ‹12 mm›", "rate 12 mm/h")]
    [InlineData("zone c { output 3; rate 12 mm/h }", "water c with ‹4 L›", "flow 9 L/min")]
    [InlineData("zone c { output 3 }", "cycle 6 min soak 30 min { water a + c with ‹4 L› }", "flow 9 L/min")]
    public void AnAmountNeedsWhatATimeIsCalculatedFrom(string zone, string step, string help)
    {
        var finding = Expect.One("missing", $"{zone}\nschedule s {{ manual; steps {{ {step} }} }}");
        Assert.Contains(help, finding.Help, StringComparison.Ordinal);
        Assert.Equal("c", Assert.Single(finding.Others).Location.Text);
    }

    [Fact]
    public void AZoneWithAMistakeIsNotAskedForMore() =>
        Expect.One("wrong-unit", "zone c { output 3; flow ‹9 mm›; area 45 m2 }\nschedule s { manual; steps { water c with 12 mm } }");

    [Fact]
    public void EachZoneThatLacksSomethingIsNamed() =>
        Assert.Equal(
            ["cannot work out a run time for zone a from 12 mm", "cannot work out a run time for zone b from 12 mm"],
            Expect.Errors(Expect.Read($"{Expect.Garden}schedule s {{ manual; steps {{ water a, b, a with 12 mm }} }}")).Select(finding => finding.Heading));

    [Theory]
    [InlineData("cycle 6 min soak 30 min { water a for 12 min; ‹pause 2 min› }")]
    [InlineData("cycle 6 min soak 30 min { ‹repeat 2 times { water a for 12 min }› }")]
    [InlineData("cycle 6 min soak 30 min { ‹run mixed› }")]
    [InlineData("cycle 6 min soak 30 min { ‹run outer› }")]
    [InlineData("cycle 6 min soak 30 min { ‹cycle 2 min soak 3 min { water a for 12 min }› }")]
    public void OnlyWateringsStandInACycle(string steps) =>
        Expect.One("contradiction",
            $"sequence mixed {{ water a for 2 min; pause 1 min }}\nsequence outer {{ run mixed }}\nschedule s {{ manual; steps {{ {steps} }} }}");

    [Theory]
    [InlineData("cycle 1 s soak 1 s { water a for 366 days }")]
    [InlineData("cycle 1 s soak 50 weeks { water a for 3 s }")]
    [InlineData("water c with 100000 m3")]
    public void WhatGoesOnTooLongIsRefused(string steps) =>
        Expect.One("over-limit", $"zone c {{ output 3; flow 0.001 L/min }}\nschedule ‹s› {{ manual; steps {{ {steps} }} }}");

    [Fact]
    public void AScaleThatNothingUsesIsFine() => Expect.Fine("scale year { jul 110 % }");

    [Fact]
    public void ARestrictionHoldsWhatItSays()
    {
        var restriction = Assert.Single(Expect.Fine(
            "restriction r { at most 3 days a week\nat most 15 min a day per zone\nat most 19 mm a day per zone\n"
                + "at most 1 zone at a time }").Site!.Restrictions);
        Assert.Equal(
            [(LimitKind.DaysAWeek, 3m, false), (LimitKind.TimeADay, 900m, true), (LimitKind.DepthADay, 19m, true), (LimitKind.ZonesAtATime, 1m, false)],
            restriction.AtMost.Select(line => (line.Kind, line.Amount, line.PerZone)));
    }

    [Theory]
    [InlineData("restriction r { ‹at most 3 m3 a season› }")]
    [InlineData("restriction r { from 2026-05-01; ‹at most 3 m3 a season› }")]
    public void AVolumeOfASeasonNeedsItsDates(string restriction) => Expect.One("missing", restriction);

    [Fact]
    public void AVolumeIsThatOfItsPeriod() => Assert.Equal(
        [(LimitPeriod.Month, 20_000m, false), (LimitPeriod.Season, 3m, true), (LimitPeriod.Year, 3_785.411784m, false)],
        Assert.Single(Expect.Fine("restriction r { from 1 may to 30 sep\nat most 20 m3 a month\nat most 3 L a season per zone\nat most 1000 gal a year }")
            .Site!.Restrictions).AtMost.Select(line => (line.Period, line.Amount, line.PerZone)));

    private static Schedule Only(string lines, string before = "") =>
        Expect.Fine($"{before}schedule s {{ {lines} }}").Site!.Schedules.Single(schedule => schedule.Name == "s");
}
