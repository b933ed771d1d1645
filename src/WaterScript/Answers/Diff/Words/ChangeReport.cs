using System.Collections.Immutable;
using WaterScript.Answers.Diff.Devices;
using WaterScript.Documents.Verdicts;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Words;

/// <summary>What changes between two versions in words, whatever form the report has.</summary>
internal sealed class ChangeReport
{
    private const int MostOutputs = 6;

    private readonly SiteWords _words;

    public ChangeReport(WateringChanges changes)
    {
        ArgumentNullException.ThrowIfNull(changes);
        (Changes, _words) = (changes, new SiteWords(changes.New));
        Rows = RowsOf(changes);
    }

    /// <summary>What changes.</summary>
    public WateringChanges Changes { get; }

    /// <summary>What is written otherwise and what schedules do otherwise, in order of the new files; what is gone comes last.</summary>
    public ImmutableArray<ChangeRow> Rows { get; }

    /// <summary>Whether anything changes, as a clause.</summary>
    public string Verdict => Changes switch
    {
        { Sides: DiffSides.New } => "a new site",
        { Sides: DiffSides.Gone } => "the site is gone",
        { Sides: DiffSides.OldUnreadable } => "the old version has errors and cannot be read, so all of the new one is shown",
        { Scope: DiffScope.Devices } => Changes.Devices.IsChanged ? "devices do otherwise" : $"devices do the same{AsFar}",
        { Scope: DiffScope.Findings } => Changes.Findings.Any ? "findings change" : "no finding changes",
        { IsChanged: true } => "the watering changes",
        { Devices.IsChanged: true } => $"no change in the watering{AsFar}; devices do otherwise",
        { Findings.Any: true } => $"no change in the watering{AsFar}; findings change",
        { Costs.IsChanged: true } => $"no change in the watering{AsFar}; costs change",
        { IsDescriptionChanged: true } => $"no change in the watering{AsFar}; the description changes",
        _ => $"no change in the watering{AsFar}",
    };

    /// <summary>How many findings come and go, as a sentence; empty where none does.</summary>
    public string Findings => FindingWords.Counts(Changes.Findings) is { Length: > 0 } counts ? counts + "." : "";

    /// <summary>Which dates were compared, and when the first change is, as a sentence.</summary>
    public string Dates
    {
        get
        {
            var last = Changes.InPart is { } part ? _words.DateAt(part.Until) : Changes.Horizon.Until.PlusDays(-1);
            var dates = $"Compared {VerdictWords.Date(Changes.Horizon.From)} to {VerdictWords.Date(last)}";
            return Changes.First is { } first ? $"{dates}; first change {MomentWords.Date(first)}." : dates + ".";
        }
    }

    /// <summary>Which time-zone data is another, and what its rules move; null where it is the same.</summary>
    public string? TimeZones => Changes.TimeZoneData is { } data ? $"data {data.Old} → {data.New}{Moved}" : null;

    /// <summary>Where the comparison ended; null where it did not.</summary>
    public string? Limit => Changes.InPart?.Words(_words);

    /// <summary>Zones and what they get in a week.</summary>
    public WeekWords Week => new(new WaterWords(Changes.New));

    /// <summary>What zones get in a week, and of what time that is the mean.</summary>
    public IEnumerable<string> WaterAWeek => Changes.IsOfSeason ? Week.Words(Changes.Zones).Prepend("in season") : Week.Words(Changes.Zones);

    /// <summary>What devices do otherwise where that is more than other watering; null where there is nothing to say.</summary>
    public string? Devices
    {
        get
        {
            var devices = Changes.Devices;
            if (Changes.Sides != DiffSides.Both || (!devices.IsWiringChanged && (Changes.IsChanged || !devices.IsChanged))) return null;
            if (devices.First is not { } first) return "the openings stay the same, outputs or how they are switched do not";
            return $"other openings of {OutputsOf(devices)}; first {_words.Moment(first)}";
        }
    }

    private string Moved => Changes is { Shift: { } seconds, First: { } first }
        ? $"; {Changes.New.TimeZone.Id}: from {MomentWords.Date(first)} all starts {Phrases.Length(Math.Abs(seconds))} "
            + $"{(seconds < 0 ? "earlier" : "later")} in UTC"
        : "";

    private string AsFar => Changes.InPart is null ? "" : " as far as it was compared";

    private static string OutputsOf(DeviceChanges devices)
    {
        var isOfZone = devices.Outputs.Keys.ToLookup(name => name.StartsWith("zone ", StringComparison.Ordinal));
        return Phrases.Names([.. isOfZone[false], .. isOfZone[true]], MostOutputs);
    }

    private static ImmutableArray<ChangeRow> RowsOf(WateringChanges changes)
    {
        var rows = CauseRows.Of(changes.Causes, [.. changes.New.Schedules.SelectMany(schedule => schedule.Starts)])
            .Concat(Alike(changes.Schedules.Select(change => (ScheduleRow.Of(change), change.Place)))).ToList();
        var sources = rows.Select(row => row.Stands.Source).Distinct().ToList();
        return [.. rows.OrderBy(row => sources.IndexOf(row.Stands.Source)).ThenBy(row => row.Stands.Span.Start)];
    }

    /// <summary>Schedules that change alike because of something else are one row.</summary>
    private static IEnumerable<ChangeRow> Alike(IEnumerable<(ChangeRow Row, Location Place)> rows)
    {
        foreach (var alike in rows.GroupBy(row => row.Row.Place is null ? string.Join("; ", row.Row.Texts) : row.Row.Label).Select(group => group.ToList()))
        {
            var (row, place) = alike[0];
            yield return alike.Count == 1
                ? row with { Anchor = place }
                : row with { Label = Phrases.Names([.. alike.Select(each => each.Row.Label)], most: 4), Anchor = place };
        }
    }
}
