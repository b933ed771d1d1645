using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Documents.Writers;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff;

/// <summary>What changes in the garden between two versions of a site, whatever changed in the text.</summary>
/// <param name="Old">The site as it was.</param>
/// <param name="New">The site as it is.</param>
/// <param name="Horizon">The dates that were compared.</param>
/// <param name="Schedules">Schedules that are not what they were.</param>
/// <param name="Zones">Zones that do not get what they got.</param>
/// <param name="Appeared">Findings that were not there before.</param>
/// <param name="Gone">Findings that are not there any more.</param>
internal sealed record WateringChanges(
    Site Old,
    Site New,
    Horizon Horizon,
    ImmutableArray<ScheduleChange> Schedules,
    ImmutableArray<ZoneChange> Zones,
    ImmutableArray<Finding> Appeared,
    ImmutableArray<Finding> Gone)
{
    /// <summary>Whether any zone is watered at another time, or gets another amount of water.</summary>
    public bool IsChanged { get; private init; }

    /// <summary>Whether what the site is made of, or how its rules are written, is another.</summary>
    public bool IsDescriptionChanged { get; private init; }

    /// <summary>Where the comparison ended before its last date; null where it did not.</summary>
    public ComparedInPart? InPart { get; private init; }

    /// <summary>Compares two versions.</summary>
    /// <param name="old">The old one, read without an error.</param>
    /// <param name="new">The new one, read without an error.</param>
    /// <param name="horizon">The dates to compare.</param>
    public static WateringChanges Of(CheckedSite old, CheckedSite @new, Horizon horizon)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        var (oldSite, newSite) = (old.Reading.Site!, @new.Reading.Site!);
        using var compared = new WateringComparison(oldSite, newSite, horizon);
        var schedules = ScheduleChanges.Between(oldSite, newSite, compared).ToImmutableArray();
        var zones = ZoneChange.Between(oldSite, compared.Old, newSite, compared.New, DaysOf(compared, horizon, newSite)).ToImmutableArray();
        return new WateringChanges(oldSite, newSite, horizon, schedules, zones, FindingChanges.Without(@new.Findings, old.Findings),
            FindingChanges.Without(old.Findings, @new.Findings))
        {
            IsChanged = !zones.IsEmpty || compared.IsChanged || HasManual(schedules),
            IsDescriptionChanged = SiteHash.Of(oldSite) != SiteHash.Of(newSite),
            InPart = compared.InPart,
        };
    }

    /// <summary>
    /// Compares a timetable that is deployed with a site, over the dates that it covers. What was found of the old site is not in it, and how its
    /// schedules were written.
    /// </summary>
    /// <param name="old">The timetable, of which no run was read yet; it is read to its end, and verified.</param>
    /// <param name="new">The site, read without an error.</param>
    /// <exception cref="DeployedException">The timetable is not as it was compiled.</exception>
    public static WateringChanges Of(DeployedTimetable old, Site @new)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        using var compared = new WateringComparison(old, @new);
        old.Finish();
        var schedules = ScheduleChanges.Between(old.Site, @new, compared).ToImmutableArray();
        var zones = ZoneChange.Between(old.Site, compared.Old, @new, compared.New, DaysOf(compared, old.Horizon, @new), Measure.Rounded).ToImmutableArray();
        return new WateringChanges(old.Site, @new, old.Horizon, schedules, zones, [], [])
        {
            IsChanged = !zones.IsEmpty || compared.IsChanged || HasManual(schedules),
            IsDescriptionChanged = old.SiteHash != SiteHash.Of(@new),
            InPart = compared.InPart,
        };
    }

    /// <summary>The dates that two versions are compared over: those that a check of either looks at.</summary>
    public static Horizon HorizonOf(Site old, Site @new)
    {
        var (before, after) = (CheckHorizon.Of(old), CheckHorizon.Of(@new));
        return new Horizon(LocalDate.Min(before.From, after.From), LocalDate.Max(before.Until, after.Until));
    }

    private static bool HasManual(ImmutableArray<ScheduleChange> schedules) =>
        schedules.Any(change => change.Kind != ScheduleChangeKind.Renamed && (change.Old?.IsManual == true || change.New?.IsManual == true));

    private static decimal DaysOf(WateringComparison compared, Horizon horizon, Site site)
    {
        if (compared.InPart is not { } part) return Period.DaysBetween(horizon.From, horizon.Until);
        var from = new ZoneClock(site.TimeZone).StartOfDay(CivilDate.DayNumberOf(horizon.From));
        return Math.Max(1, part.Until - from) / (decimal)ZoneClock.SecondsInDay;
    }
}
