using System.Collections.Immutable;
using NodaTime;
using WaterScript.Answers.Diff.Costs;
using WaterScript.Answers.Diff.Devices;
using WaterScript.Answers.Diff.Written;
using WaterScript.Binding;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Documents.Writers;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>What changes in the garden between two versions of a site, whatever changed in the text.</summary>
/// <param name="Old">The site as it was.</param>
/// <param name="New">The site as it is.</param>
/// <param name="Horizon">The dates that were compared.</param>
/// <param name="Schedules">Schedules that are not what they were.</param>
/// <param name="Zones">Zones that do not get what they got.</param>
/// <param name="Findings">What is found otherwise.</param>
internal sealed record WateringChanges(
    Site Old,
    Site New,
    Horizon Horizon,
    ImmutableArray<ScheduleChange> Schedules,
    ImmutableArray<ZoneChange> Zones,
    FindingChanges Findings)
{
    /// <summary>What was compared.</summary>
    public DiffScope Scope { get; private init; }

    /// <summary>Whether there was anything to compare with.</summary>
    public DiffSides Sides { get; init; }

    /// <summary>What is written otherwise, apart from schedules.</summary>
    public ImmutableArray<WrittenChange> Causes { get; private init; } = [];

    /// <summary>What devices do otherwise.</summary>
    public DeviceChanges Devices { get; private init; } = DeviceChanges.None;

    /// <summary>What is paid otherwise, and what of allowances is used otherwise.</summary>
    public CostChanges Costs { get; private init; } = CostChanges.None;

    /// <summary>What of the old version has another name in the new one.</summary>
    public Renames Renames { get; private init; } = Renames.None;

    /// <summary>Versions of the time-zone data that clock times were and are read with; null where they are the same, or not known.</summary>
    public (string Old, string New)? TimeZoneData { get; private init; }

    /// <summary>By how much later all waterings are that differ, in seconds; null where it is not the same for all, or not known.</summary>
    public long? Shift { get; private init; }

    /// <summary>Whether weeks are those of a season, and not of the whole year.</summary>
    public bool IsOfSeason { get; private init; }

    /// <summary>The first date on which any zone is watered otherwise; null where none is.</summary>
    public LocalDate? First { get; private init; }

    /// <summary>Whether any zone is watered at another time, or gets another amount of water.</summary>
    public bool IsChanged { get; private init; }

    /// <summary>Whether what the site is made of, or how its rules are written, is another.</summary>
    public bool IsDescriptionChanged { get; private init; }

    /// <summary>Whether anything changes: what is watered, what devices do, what is found, or what is paid.</summary>
    public bool IsAnythingChanged => Sides != DiffSides.Both || IsChanged || Devices.IsChanged || Findings.Any || Costs.IsChanged;

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
        var (oldThings, newThings) = (WrittenSite.Of(old.Reading.Files, hasRules: true), WrittenSite.Of(@new.Reading.Files, hasRules: true));
        var renames = Renames.Of(oldSite, oldThings, newSite, newThings);
        var written = WrittenChanges.Between(oldThings, newThings, renames);
        using var compared = new WateringComparison(oldSite, newSite, horizon, renames);
        var schedules = ScheduleChanges.Between(oldSite, newSite, compared, written).ToImmutableArray();
        var devices = compared.InPart is null ? DeviceChanges.Of(oldSite, newSite, horizon, renames) : DeviceChanges.None;
        var causes = CausesOf(written, schedules, isSameSite: SiteHash.Of(oldSite) == SiteHash.Of(newSite));
        return Of(oldSite, newSite, horizon, compared, schedules) with
        {
            Findings = FindingChanges.Between(old, @new, renames),
            Causes = causes,
            Devices = devices,
            Costs = compared.InPart is null ? CostChanges.Of(oldSite, newSite, horizon, renames, written) : CostChanges.None,
            Renames = renames,
            IsDescriptionChanged = !causes.IsEmpty || SiteHash.Of(oldSite) != SiteHash.Of(newSite),
            InPart = compared.InPart ?? devices.InPart,
        };
    }

    /// <summary>
    /// Compares a timetable that is deployed with a site, over the dates that it covers. What was found of the old site is not in it, and how its
    /// schedules were written.
    /// </summary>
    /// <param name="old">The timetable, of which no run was read yet; it is read to its end, and verified.</param>
    /// <param name="new">The site, read without an error.</param>
    /// <param name="timeZoneData">Version of the time-zone data that it was read with; null where nobody asks.</param>
    /// <exception cref="DeployedException">The timetable is not as it was compiled.</exception>
    public static WateringChanges Of(DeployedTimetable old, Site @new, string? timeZoneData = null)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        using var compared = new WateringComparison(old, @new);
        old.Finish();
        var schedules = ScheduleChanges.Between(old.Site, @new, compared, []).ToImmutableArray();
        return Of(old.Site, @new, old.Horizon, compared, schedules, Measure.Rounded) with
        {
            IsDescriptionChanged = old.SiteHash != SiteHash.Of(@new),
            Shift = compared.Shift,
            TimeZoneData = old.TimeZoneData is { } was && timeZoneData is not null && was != timeZoneData ? (was, timeZoneData) : null,
        };
    }

    /// <summary>All of a site that was not there before, or is not there any more.</summary>
    /// <param name="site">The site, read without an error.</param>
    /// <param name="sides">Which of the two.</param>
    /// <param name="horizon">The dates to show.</param>
    public static WateringChanges OfWhole(CheckedSite site, DiffSides sides, Horizon horizon)
    {
        ArgumentNullException.ThrowIfNull(site);
        var nothing = new CheckedSite(site.Path, new SiteReading(WithNothing(site.Reading.Site!), [], []), Lint: null);
        return (sides == DiffSides.Gone ? Of(site, nothing, horizon) : Of(nothing, site, horizon)) with { Sides = sides };
    }

    /// <summary>The same without what is not to be compared.</summary>
    public WateringChanges Only(DiffScope scope) => Narrowed(scope) is { IsAnythingChanged: false } same && scope != DiffScope.All
        ? same with { Causes = [] } : Narrowed(scope);

    private WateringChanges Narrowed(DiffScope scope) => scope == DiffScope.All ? this : this with
    {
        Scope = scope,
        Costs = CostChanges.None,
        Findings = scope == DiffScope.Findings ? Findings : FindingChanges.None,
        Devices = scope == DiffScope.Devices ? Devices : DeviceChanges.None,
        Schedules = scope == DiffScope.Water ? Schedules : [],
        Zones = scope == DiffScope.Water ? Zones : [],
        IsChanged = scope == DiffScope.Water && IsChanged,
        First = scope == DiffScope.Water ? First : null,
    };

    private static Site WithNothing(Site site) => site with
    {
        Tariffs = [],
        Supplies = [],
        Valves = [],
        Devices = [],
        Zones = [],
        Soils = [],
        Plants = [],
        Climate = null,
        Scales = [],
        Scale = null,
        Restrictions = [],
        Holds = [],
        ClosedSeasons = [],
        Sequences = [],
        Schedules = [],
        Unused = [],
        Acceptances = [],
    };

    /// <summary>The dates that two versions are compared over: those that a check of either looks at.</summary>
    public static Horizon HorizonOf(Site old, Site @new)
    {
        var (before, after) = (CheckHorizon.Of(old), CheckHorizon.Of(@new));
        return new Horizon(LocalDate.Min(before.From, after.From), LocalDate.Max(before.Until, after.Until));
    }

    private static WateringChanges Of(
        Site old, Site @new, Horizon horizon, WateringComparison compared, ImmutableArray<ScheduleChange> schedules, Func<decimal?, decimal?>? flow = null)
    {
        var days = new SeasonDays(old, @new, HorizonOf(compared, horizon, @new), compared.Renames);
        var zones = ZoneChange.Between(old, compared.Old, @new, compared.New, days, compared.Renames.OfZone, flow).ToImmutableArray();
        return new WateringChanges(old, @new, horizon, schedules, zones, FindingChanges.None)
        {
            IsChanged = !zones.IsEmpty || compared.IsChanged || HasManual(schedules),
            IsOfSeason = zones.Any(zone => days.IsOfSeason(zone.Name)),
            First = compared.FirstChange is { } first ? new SiteWords(@new).DateAt(first) : null,
            InPart = compared.InPart,
        };
    }

    /// <summary>
    /// What is written otherwise and may matter: of a schedule that waters otherwise only what its own changes leave out, and where both sites are understood
    /// as the same only what their description leaves out.
    /// </summary>
    private static ImmutableArray<WrittenChange> CausesOf(
        ImmutableArray<WrittenChange> written, ImmutableArray<ScheduleChange> schedules, bool isSameSite) =>
    [
        .. written.Where(change => change.Thing != "include")
            .Where(change => change.Thing != WrittenSite.Schedule || change.What is "label" or "note" or "accept"
                || (change.What.Length > 0 && !schedules.Any(schedule => schedule.Name == change.Name)))
            .Where(change => !isSameSite || change.Thing is "restriction" or "accept" || change.What == "accept"),
    ];

    private static bool HasManual(ImmutableArray<ScheduleChange> schedules) => schedules.Any(change =>
        (change.Kind != ScheduleChangeKind.Renamed || !change.Turns.IsEmpty) && (change.Old?.IsManual == true || change.New?.IsManual == true));

    /// <summary>The dates that were compared.</summary>
    private static Horizon HorizonOf(WateringComparison compared, Horizon horizon, Site site)
    {
        if (compared.InPart is not { } part) return horizon;
        var until = new SiteWords(site).DateAt(part.Until);
        return new Horizon(horizon.From, LocalDate.Max(until, horizon.From.PlusDays(1)));
    }
}
