using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Linting.Rules.Calendar;
using WaterScript.Linting.Rules.Description;
using WaterScript.Linting.Rules.Electrical;
using WaterScript.Linting.Rules.Plants;
using WaterScript.Linting.Rules.Restrictions;
using WaterScript.Linting.Rules.Time;
using WaterScript.Linting.Rules.Water;

namespace WaterScript.Linting.Engine;

/// <summary>The catalogue of all that can be found, listed by hand so that nothing has to be found at run time.</summary>
internal static class RuleCatalogue
{
    /// <summary>All rules, in the order in which the documentation lists them: those about reading the file, then those about what it does.</summary>
    public static ImmutableArray<Rule> Rules =>
    [
        .. Diagnostics.Reading.ReadingRules.All,
        AcceptUnused.Rule,
        .. Checks.Select(kind => kind.Rule).Except(Diagnostics.Reading.ReadingRules.All).Distinct(),
    ];

    /// <summary>The rules that look at what a site would do.</summary>
    internal static ImmutableArray<RuleRegistration> Checks =>
    [
        // what is described
        new(LooksLikeWrongUnit.Rule, context => new LooksLikeWrongUnit(context)),
        new(Unused.Rule, context => new Unused(context)),
        new(NeverWatered.Rule, context => new NeverWatered(context)),

        // calendar
        new(SkippedTime.Rule, context => new SkippedTime(context)),
        new(DoubledTime.Rule, context => new DoubledTime(context)),
        new(NoSunEvent.Rule, context => new NoSunEvent(context)),
        new(NeverDue.Rule, context => new NeverDue(context)),
        new(SameMoment.Rule, context => new SameMoment(context)),
        new(NoPass.Rule, context => new NoPass(context)),

        // time
        new(ZoneTwice.Rule, context => new ZoneTwice(context)),
        new(PassOverlap.Rule, context => new PassOverlap(context)),
        new(SchedulesOverlap.Rule, context => new SchedulesOverlap(context)),
        new(ChangeTooClose.Rule, context => new ChangeTooClose(context)),

        new(RestTooShort.Rule, context => new RestTooShort(context)),
        new(TooLongDry.Rule, context => new TooLongDry(context)),
        new(LongerThanLongest.Rule, context => new LongerThanLongest(context)),
        new(DaysInARow.Rule, context => new DaysInARow(context)),
        new(ShortRun.Rule, context => new ShortRun(context)),
        new(MiddayWatering.Rule, context => new MiddayWatering(context)),
        new(EndsLate.Rule, context => new EndsLate(context)),
        new(OutputShared.Rule, context => new OutputShared(context)),
        new(OutputMissing.Rule, context => new OutputMissing(context)),
        new(ClocksApart.Rule, context => new ClocksApart(context)),

        // restrictions
        new(OutsideHours.Rule, context => new OutsideHours(context)),
        new(NightTooShort.Rule, context => new NightTooShort(context)),
        new(ForbiddenDay.Rule, context => new ForbiddenDay(context)),
        new(TooManyDays.Rule, context => new TooManyDays(context)),
        new(TooLongADay.Rule, context => new TooLongADay(context)),
        new(TooDeepADay.Rule, context => new TooDeepADay(context)),
        new(ZonesAtATime.Rule, context => new ZonesAtATime(context)),

        // what is taken away
        new(Diagnostics.Reading.ReadingRules.Contradiction, context => new ExtraPassSkipped(context)),
        new(CutShort.Rule, context => new CutShort(context)),
        new(CutByHold.Rule, context => new CutByHold(context)),
        new(ShorterThanShortest.Rule, context => new ShorterThanShortest(context)),

        // water
        new(FlowOverSupply.Rule, context => new FlowOverSupply(context)) { VisitsManual = true },
        new(FlowUnderMinimum.Rule, context => new FlowUnderMinimum(context)) { VisitsManual = true },
        new(DailyVolume.Rule, context => new DailyVolume(context)) { VisitsManual = true },
        new(PumpAlone.Rule, context => new PumpAlone(context)) { VisitsManual = true },
        new(InjectorAlone.Rule, context => new InjectorAlone(context)) { VisitsManual = true },
        new(MotorStarts.Rule, context => new MotorStarts(context)) { VisitsManual = true, VisitsOutputs = true },
        new(TankRunsDry.Rule, context => new TankRunsDry(context)) { VisitsManual = true },
        new(Hammer.Rule, context => new Hammer(context)) { VisitsManual = true, VisitsOutputs = true },
        new(VacuumBreakerHours.Rule, context => new VacuumBreakerHours(context)) { VisitsManual = true, VisitsOutputs = true },

        // plants and soil
        new(RunsOff.Rule, context => new RunsOff(context)),
        new(SoakCut.Rule, context => new SoakCut(context)),
        new(UnderWatered.Rule, context => new UnderWatered(context)),
        new(OverWatered.Rule, context => new OverWatered(context)),
        new(BelowRoots.Rule, context => new BelowRoots(context)),
        new(UnevenTogether.Rule, context => new UnevenTogether(context)),
        new(FrostMonths.Rule, context => new FrostMonths(context)),

        // power
        new(TooManyAtOnce.Rule, context => new TooManyAtOnce(context)) { VisitsManual = true, VisitsOutputs = true },
        new(HoldingOver.Rule, context => new HoldingOver(context)) { VisitsManual = true, VisitsOutputs = true },
        new(InrushOver.Rule, context => new InrushOver(context)) { VisitsManual = true, VisitsOutputs = true },
        new(StoreTooSmall.Rule, context => new StoreTooSmall(context)),
        new(PulseTooSoon.Rule, context => new PulseTooSoon(context)) { VisitsManual = true, VisitsOutputs = true },
        new(CannotCloseAll.Rule, context => new CannotCloseAll(context)),
        new(WireDrop.Rule, context => new WireDrop(context)),
        new(SwitchedLate.Rule, context => new SwitchedLate(context)) { VisitsManual = true, VisitsOutputs = true },
    ];

    /// <summary>The rule of that slug, or null.</summary>
    public static Rule? Find(string slug) => Rules.FirstOrDefault(rule => rule.Slug == slug);
}
