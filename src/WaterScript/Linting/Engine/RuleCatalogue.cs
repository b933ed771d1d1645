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

/// <summary>The catalogue of all that can be found, listed one by one so that nothing has to be found at run time.</summary>
internal static class RuleCatalogue
{
    /// <summary>All rules, in the order in which the documentation lists them: those about reading the file, then those about what it does.</summary>
    public static ImmutableArray<Rule> Rules => field.IsDefault ? field = AllRules() : field;

    private static Dictionary<string, Rule> BySlug => field ??= Rules.ToDictionary(rule => rule.Slug, StringComparer.Ordinal);

    /// <summary>The rules of passes that need one thing at once: what the calendar is searched for beyond the dates that are looked at.</summary>
    public static ImmutableArray<Rule> Collisions { get; } = [ZoneTwice.Rule, SchedulesOverlap.Rule, PassOverlap.Rule];

    /// <summary>The rules that look at what a site would do.</summary>
    internal static ImmutableArray<RuleRegistration> Checks => field.IsDefault ? field = AllChecks() : field;

    /// <summary>The rule of that slug, or null.</summary>
    public static Rule? Find(string slug) => BySlug.GetValueOrDefault(slug);

    private static ImmutableArray<Rule> AllRules() =>
    [
        .. Diagnostics.Reading.ReadingRules.All,
        UnusedAccept.Rule,
        .. Checks.Select(kind => kind.Rule).Except(Diagnostics.Reading.ReadingRules.All).Distinct(),
    ];

    private static ImmutableArray<RuleRegistration> AllChecks() =>
    [
        // what is described
        new(UnlikelyValue.Rule, context => new UnlikelyValue(context)),
        new(NumbersClash.Rule, context => new NumbersClash(context)),
        new(SpareWatered.Rule, context => new SpareWatered(context)) { VisitsManual = true },
        new(Unused.Rule, context => new Unused(context)),
        new(ManualOnly.Rule, context => new ManualOnly(context)),

        // calendar
        new(SkippedTime.Rule, context => new SkippedTime(context)),
        new(DoubledTime.Rule, context => new DoubledTime(context)),
        new(NoSunEvent.Rule, context => new NoSunEvent(context)),
        new(ClockFarFromSun.Rule, context => new ClockFarFromSun(context)),
        new(NeverDue.Rule, context => new NeverDue(context)),
        new(DuplicateStart.Rule, context => new DuplicateStart(context)),
        new(NoPass.Rule, context => new NoPass(context)),
        new(BeforeEffective.Rule, context => new BeforeEffective(context)),
        new(TakesNothing.Rule, context => new TakesNothing(context)),
        new(SkipWithoutPass.Rule, context => new SkipWithoutPass(context)),

        // time
        new(ZoneTwice.Rule, context => new ZoneTwice(context)),
        new(PassOverlap.Rule, context => new PassOverlap(context)),
        new(SchedulesOverlap.Rule, context => new SchedulesOverlap(context)),
        new(ChangeOverTooShort.Rule, context => new ChangeOverTooShort(context)),

        new(RestTooShort.Rule, context => new RestTooShort(context)),
        new(DryTooLong.Rule, context => new DryTooLong(context)),
        new(LongerThanLongest.Rule, context => new LongerThanLongest(context)),
        new(OverScaled.Rule, context => new OverScaled(context)),
        new(ScaledDose.Rule, context => new ScaledDose(context)),
        new(ConsecutiveDays.Rule, context => new ConsecutiveDays(context)),
        new(ShortRun.Rule, context => new ShortRun(context)),
        new(MiddayWatering.Rule, context => new MiddayWatering(context)),
        new(EndsLate.Rule, context => new EndsLate(context)),
        new(OutputShared.Rule, context => new OutputShared(context)),
        new(NoSuchOutput.Rule, context => new NoSuchOutput(context)),
        new(ClocksApart.Rule, context => new ClocksApart(context)),

        // restrictions
        new(OutsideHours.Rule, context => new OutsideHours(context)),
        new(WindowTooShort.Rule, context => new WindowTooShort(context)),
        new(ForbiddenDay.Rule, context => new ForbiddenDay(context)),
        new(WateringDaysLimit.Rule, context => new WateringDaysLimit(context)),
        new(DailyTimeLimit.Rule, context => new DailyTimeLimit(context)),
        new(DailyDepthLimit.Rule, context => new DailyDepthLimit(context)),
        new(VolumeLimit.Rule, context => new VolumeLimit(context)),
        new(ZonesAtATime.Rule, context => new ZonesAtATime(context)),

        // what is taken away
        new(Diagnostics.Reading.ReadingRules.Contradiction, context => new ExtraPassSkipped(context)),
        new(CutShort.Rule, context => new CutShort(context)),
        new(CutByHold.Rule, context => new CutByHold(context)),
        new(CutByRestriction.Rule, context => new CutByRestriction(context)),
        new(ShorterThanShortest.Rule, context => new ShorterThanShortest(context)),

        // water
        new(FlowOverSupply.Rule, context => new FlowOverSupply(context)) { VisitsManual = true },
        new(FlowOverPump.Rule, context => new FlowOverPump(context)) { VisitsManual = true },
        new(FlowUnderMinimum.Rule, context => new FlowUnderMinimum(context)) { VisitsManual = true },
        new(DailyVolume.Rule, context => new DailyVolume(context)) { VisitsManual = true },
        new(PumpWithoutFlow.Rule, context => new PumpWithoutFlow(context)) { VisitsManual = true },
        new(PumpBeforeMaster.Rule, context => new PumpBeforeMaster(context)),
        new(PumpClock.Rule, context => new PumpClock(context)),
        new(ZoneWithoutPump.Rule, context => new ZoneWithoutPump(context)),
        new(PumpNeverRuns.Rule, context => new PumpNeverRuns(context)) { VisitsManual = true },
        new(LessThanAsked.Rule, context => new LessThanAsked(context)) { VisitsManual = true },
        new(InjectorBackflow.Rule, context => new InjectorBackflow(context)),
        new(DoseWithoutFlow.Rule, context => new DoseWithoutFlow(context)) { VisitsManual = true },
        new(PumpStarts.Rule, context => new PumpStarts(context)) { VisitsManual = true, VisitsOutputs = true },
        new(TankRunsDry.Rule, context => new TankRunsDry(context)) { VisitsManual = true },
        new(WaterHammer.Rule, context => new WaterHammer(context)) { VisitsManual = true, VisitsOutputs = true },
        new(VacuumBreakerHours.Rule, context => new VacuumBreakerHours(context)) { VisitsManual = true, VisitsOutputs = true },

        // plants and soil
        new(Runoff.Rule, context => new Runoff(context)),
        new(SoakTooShort.Rule, context => new SoakTooShort(context)),
        new(UnderWatered.Rule, context => new UnderWatered(context)),
        new(OverWatered.Rule, context => new OverWatered(context)),
        new(BelowRoots.Rule, context => new BelowRoots(context)),
        new(UnevenTogether.Rule, context => new UnevenTogether(context)),
        new(FrostMonths.Rule, context => new FrostMonths(context)),

        // power
        new(TooManyZones.Rule, context => new TooManyZones(context)) { VisitsManual = true, VisitsOutputs = true },
        new(HoldingCurrent.Rule, context => new HoldingCurrent(context)) { VisitsManual = true, VisitsOutputs = true },
        new(InrushCurrent.Rule, context => new InrushCurrent(context)) { VisitsManual = true, VisitsOutputs = true },
        new(CapacitorTooSmall.Rule, context => new CapacitorTooSmall(context)),
        new(CapacitorNotRecharged.Rule, context => new CapacitorNotRecharged(context)) { VisitsManual = true, VisitsOutputs = true },
        new(ValvesLeftOpen.Rule, context => new ValvesLeftOpen(context)),
        new(OutputsTied.Rule, context => new OutputsTied(context)),
        new(VoltageDrop.Rule, context => new VoltageDrop(context)) { VisitsManual = true, VisitsOutputs = true },
        new(SwitchedLate.Rule, context => new SwitchedLate(context)) { VisitsManual = true, VisitsOutputs = true },
        new(BatteryRunsFlat.Rule, context => new BatteryRunsFlat(context)) { VisitsOutputs = true },
        new(AutonomyTooShort.Rule, context => new AutonomyTooShort(context)) { VisitsOutputs = true },
    ];
}
