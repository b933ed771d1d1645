namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>What a finding is about, told from where its labels lie.</summary>
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
        new("change-too-close", About.Supply, TimeConflicts.ChangeTooClose),
        new("rest-too-short", About.Zone, TimeConflicts.RestTooShort) { Counts = true },
        new("longer-than-longest", About.Zone, TimeConflicts.LongerThanLongest) { Counts = true },
        new("outside-hours", About.Restriction, RestrictionConflicts.OutsideHours) { Instead = "night-too-short" },
        new("forbidden-day", About.Restriction, RestrictionConflicts.ForbiddenDay) { Counts = true },
        new("too-many-days", About.RestrictionLine, RestrictionConflicts.TooManyDays) { Counts = true },
        new("too-long-a-day", About.RestrictionLine, RestrictionConflicts.TooLongADay) { Counts = true },
        new("too-deep-a-day", About.RestrictionLine, RestrictionConflicts.TooDeepADay) { Counts = true },
        new("zones-at-a-time", About.RestrictionLine, RestrictionConflicts.ZonesAtATime),
        new("flow-over-supply", About.Supply, WaterConflicts.FlowOverSupply) { Counts = true, HasCauses = true },
        new("flow-under-minimum", About.Supply, WaterConflicts.FlowUnderMinimum) { Counts = true, HasCauses = true },
        new("daily-volume", About.Supply, WaterConflicts.DailyVolume) { Counts = true, OfDates = true },
        new("tank-runs-dry", About.Supply, WaterConflicts.TankRunsDry),
        new("motor-starts", About.Device, WaterConflicts.MotorStarts),
        new("hammer", About.Supply, WaterConflicts.Hammer) { Counts = true, HasCauses = true },
        new("pump-alone", About.Device, WaterConflicts.PumpAlone) { Counts = true },
        new("too-long-dry", About.Zone, TimeConflicts.TooLongDry) { Counts = true },
        new("vacuum-breaker-hours", About.Zone, WaterConflicts.VacuumBreakerHours) { Counts = true },
        new("pulse-too-soon", About.Controller, PowerConflicts.PulseTooSoon) { Counts = true, HasCauses = true },
        new("too-many-at-once", About.Controller, PowerConflicts.TooManyAtOnce) { Counts = true, HasCauses = true },
        new("holding-over", About.Controller, PowerConflicts.HoldingOver) { Counts = true, HasCauses = true },
        new("inrush-over", About.Controller, PowerConflicts.InrushOver) { Counts = true, HasCauses = true },
        new("switched-late", About.Controller, PowerConflicts.SwitchedLate) { Counts = true },
    ];
}
