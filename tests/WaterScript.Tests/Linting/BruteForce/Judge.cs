namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>What a finding is about, reported from where its labels lie.</summary>
internal enum About
{
    Supply,
    Controller,
    Device,
    Zone,
    Schedule,
    Restriction,

    /// <summary>One line of a restriction.</summary>
    RestrictionLine,
}

/// <summary>Decides about one rule from its page alone, without the rule.</summary>
/// <param name="Slug">The rule.</param>
/// <param name="About">What its findings are about.</param>
/// <param name="Conflicts">All conflicts of a site, in no order.</param>
internal sealed record Judge(string Slug, About About, Func<Evidence, IEnumerable<Conflict>> Conflicts)
{
    /// <summary>Whether the page says what one time is, so that times can be counted.</summary>
    public bool Counts { get; init; }

    /// <summary>Whether one stretch may have several causes, one after the other, each of which is counted with its own finding.</summary>
    public bool HasCauses { get; init; }

    /// <summary>The slug of a rule that tells some of the conflicts in place of this one, or null.</summary>
    public string? Instead { get; init; }

    /// <summary>Whether a conflict is one of a date, not of a moment.</summary>
    public bool OfDates { get; init; }

    public static Judge[] All =>
    [
        new("zone-twice", About.Schedule, TimeConflicts.ZoneTwice) { Counts = true },
        new("pass-overlap", About.Schedule, TimeConflicts.PassOverlap) { Counts = true },
        new("schedules-overlap", About.Schedule, TimeConflicts.SchedulesOverlap),
        new("change-over-too-short", About.Supply, TimeConflicts.ChangeOverTooShort),
        new("rest-too-short", About.Zone, TimeConflicts.RestTooShort) { Counts = true },
        new("longer-than-longest", About.Zone, TimeConflicts.LongerThanLongest) { Counts = true },
        new("outside-hours", About.Restriction, RestrictionConflicts.OutsideHours) { Instead = "window-too-short" },
        new("forbidden-day", About.Restriction, RestrictionConflicts.ForbiddenDay) { Counts = true },
        new("watering-days-limit", About.RestrictionLine, RestrictionConflicts.WateringDaysLimit) { Counts = true },
        new("daily-time-limit", About.RestrictionLine, RestrictionConflicts.DailyTimeLimit) { Counts = true },
        new("daily-depth-limit", About.RestrictionLine, RestrictionConflicts.DailyDepthLimit) { Counts = true },
        new("zones-at-a-time", About.RestrictionLine, RestrictionConflicts.ZonesAtATime),
        new("flow-over-supply", About.Supply, WaterConflicts.FlowOverSupply) { Counts = true, HasCauses = true },
        new("flow-over-pump", About.Device, WaterConflicts.FlowOverPump) { Counts = true, HasCauses = true },
        new("flow-under-minimum", About.Supply, WaterConflicts.FlowUnderMinimum) { Counts = true, HasCauses = true },
        new("daily-volume", About.Supply, WaterConflicts.DailyVolume) { Counts = true, OfDates = true },
        new("tank-runs-dry", About.Supply, WaterConflicts.TankRunsDry),
        new("pump-starts", About.Device, WaterConflicts.PumpStarts),
        new("water-hammer", About.Supply, WaterConflicts.WaterHammer) { Counts = true, HasCauses = true },
        new("pump-without-flow", About.Device, WaterConflicts.PumpWithoutFlow) { Counts = true },
        new("dry-too-long", About.Zone, TimeConflicts.DryTooLong) { Counts = true },
        new("vacuum-breaker-hours", About.Zone, WaterConflicts.VacuumBreakerHours) { Counts = true },
        new("capacitor-not-recharged", About.Controller, PowerConflicts.CapacitorNotRecharged) { Counts = true, HasCauses = true },
        new("too-many-zones", About.Controller, PowerConflicts.TooManyZones) { Counts = true, HasCauses = true },
        new("holding-current", About.Controller, PowerConflicts.HoldingCurrent) { Counts = true, HasCauses = true },
        new("inrush-current", About.Controller, PowerConflicts.InrushCurrent) { Counts = true, HasCauses = true },
        new("switched-late", About.Controller, PowerConflicts.SwitchedLate) { Counts = true },
    ];
}
