using System.Collections.Immutable;
using WaterScript.Diagnostics;

namespace WaterScript.Checks;

/// <summary>The catalogue of all that can be found, listed by hand so that nothing has to be found at run time.</summary>
public static class Catalogue
{
    /// <summary>All rules, in the order in which the documentation lists them: those about reading the file, then those about what it does.</summary>
    public static ImmutableArray<Rule> Rules =>
    [
        .. Diagnostics.Rules.All,
        AcceptUnused.Rule,
        .. Checks.Select(kind => kind.Rule).Except(Diagnostics.Rules.All).Distinct(),
    ];

    /// <summary>The rules that look at what a site would do.</summary>
    internal static ImmutableArray<CheckKind> Checks =>
    [
        // what is described
        new(LooksLikeWrongUnit.Rule, survey => new LooksLikeWrongUnit(survey)),
        new(Unused.Rule, survey => new Unused(survey)),
        new(NeverWatered.Rule, survey => new NeverWatered(survey)),

        // calendar
        new(SkippedTime.Rule, survey => new SkippedTime(survey)),
        new(DoubledTime.Rule, survey => new DoubledTime(survey)),
        new(NoSunEvent.Rule, survey => new NoSunEvent(survey)),
        new(NeverDue.Rule, survey => new NeverDue(survey)),
        new(SameMoment.Rule, survey => new SameMoment(survey)),
        new(NoPass.Rule, survey => new NoPass(survey)),

        // time
        new(ZoneTwice.Rule, survey => new ZoneTwice(survey)),
        new(PassOverlap.Rule, survey => new PassOverlap(survey)),
        new(SchedulesOverlap.Rule, survey => new SchedulesOverlap(survey)),
        new(ChangeTooClose.Rule, survey => new ChangeTooClose(survey)),

        new(RestTooShort.Rule, survey => new RestTooShort(survey)),
        new(TooLongDry.Rule, survey => new TooLongDry(survey)),
        new(LongerThanLongest.Rule, survey => new LongerThanLongest(survey)),
        new(DaysInARow.Rule, survey => new DaysInARow(survey)),
        new(ShortRun.Rule, survey => new ShortRun(survey)),
        new(MiddayWatering.Rule, survey => new MiddayWatering(survey)),
        new(EndsLate.Rule, survey => new EndsLate(survey)),
        new(OutputShared.Rule, survey => new OutputShared(survey)),
        new(OutputMissing.Rule, survey => new OutputMissing(survey)),
        new(ClocksApart.Rule, survey => new ClocksApart(survey)),

        // restrictions
        new(OutsideHours.Rule, survey => new OutsideHours(survey)),
        new(NightTooShort.Rule, survey => new NightTooShort(survey)),
        new(ForbiddenDay.Rule, survey => new ForbiddenDay(survey)),
        new(TooManyDays.Rule, survey => new TooManyDays(survey)),
        new(TooLongADay.Rule, survey => new TooLongADay(survey)),
        new(TooDeepADay.Rule, survey => new TooDeepADay(survey)),
        new(ZonesAtATime.Rule, survey => new ZonesAtATime(survey)),

        // what is taken away
        new(Diagnostics.Rules.Contradiction, survey => new ExtraTaken(survey)),
        new(CutShort.Rule, survey => new CutShort(survey)),
        new(CutByHold.Rule, survey => new CutByHold(survey)),
        new(ShorterThanShortest.Rule, survey => new ShorterThanShortest(survey)),

        // water
        new(FlowOverSupply.Rule, survey => new FlowOverSupply(survey)) { SeesManual = true },
        new(FlowUnderMinimum.Rule, survey => new FlowUnderMinimum(survey)) { SeesManual = true },
        new(DailyVolume.Rule, survey => new DailyVolume(survey)) { SeesManual = true },
        new(PumpAlone.Rule, survey => new PumpAlone(survey)) { SeesManual = true },
        new(InjectorAlone.Rule, survey => new InjectorAlone(survey)) { SeesManual = true },
        new(MotorStarts.Rule, survey => new MotorStarts(survey)) { SeesManual = true, SeesOutputs = true },
        new(TankRunsDry.Rule, survey => new TankRunsDry(survey)) { SeesManual = true },
        new(Hammer.Rule, survey => new Hammer(survey)) { SeesManual = true, SeesOutputs = true },
        new(VacuumBreakerHours.Rule, survey => new VacuumBreakerHours(survey)) { SeesManual = true, SeesOutputs = true },

        // plants and soil
        new(RunsOff.Rule, survey => new RunsOff(survey)),
        new(SoakCut.Rule, survey => new SoakCut(survey)),
        new(UnderWatered.Rule, survey => new UnderWatered(survey)),
        new(OverWatered.Rule, survey => new OverWatered(survey)),
        new(BelowRoots.Rule, survey => new BelowRoots(survey)),
        new(UnevenTogether.Rule, survey => new UnevenTogether(survey)),
        new(FrostMonths.Rule, survey => new FrostMonths(survey)),

        // power
        new(TooManyAtOnce.Rule, survey => new TooManyAtOnce(survey)) { SeesManual = true, SeesOutputs = true },
        new(HoldingOver.Rule, survey => new HoldingOver(survey)) { SeesManual = true, SeesOutputs = true },
        new(InrushOver.Rule, survey => new InrushOver(survey)) { SeesManual = true, SeesOutputs = true },
        new(StoreTooSmall.Rule, survey => new StoreTooSmall(survey)),
        new(PulseTooSoon.Rule, survey => new PulseTooSoon(survey)) { SeesManual = true, SeesOutputs = true },
        new(CannotCloseAll.Rule, survey => new CannotCloseAll(survey)),
        new(WireDrop.Rule, survey => new WireDrop(survey)),
        new(SwitchedLate.Rule, survey => new SwitchedLate(survey)) { SeesManual = true, SeesOutputs = true },
    ];

    /// <summary>The rule of that slug, or null.</summary>
    public static Rule? Find(string slug) => Rules.FirstOrDefault(rule => rule.Slug == slug);
}
