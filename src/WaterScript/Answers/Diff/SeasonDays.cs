using WaterScript.Answers.Diff.Written;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Answers.Diff;

/// <summary>How many days the season of each zone has: those on which a schedule that waters it, old or new, is in season, and nothing is closed.</summary>
internal sealed class SeasonDays
{
    private readonly int _from;
    private readonly int _until;
    private readonly Dictionary<string, HashSet<Season?>> _seasons = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _counts = new(StringComparer.Ordinal);
    private readonly Dictionary<Season, bool[]> _days = [];
    private readonly bool[] _closed;

    /// <param name="old">The old version.</param>
    /// <param name="new">The new one.</param>
    /// <param name="horizon">The dates that are compared.</param>
    /// <param name="renames">What of the old one has another name.</param>
    public SeasonDays(Site old, Site @new, Horizon horizon, Renames renames)
    {
        (_from, _until) = (CivilDate.DayNumberOf(horizon.From), CivilDate.DayNumberOf(horizon.Until));
        Effective = @new.Effective < old.Effective ? @new.Effective : old.Effective;
        Add(old, renames.OfZone);
        Add(@new, name => name);
        var (before, after) = (ClosedDays(old), ClosedDays(@new));
        _closed = [.. before.Select((isClosed, index) => isClosed && after[index])];
    }

    private NodaTime.LocalDate Effective { get; }

    /// <summary>Whether the season of a zone is not all of the dates.</summary>
    public bool IsOfSeason(string zone) => Of(zone) < _until - _from;

    /// <summary>The days of the season of a zone, by its name in the new version; at least one.</summary>
    public int Of(string zone)
    {
        if (!_counts.TryGetValue(zone, out var count)) _counts[zone] = count = Count(_seasons.GetValueOrDefault(zone) ?? []);
        return count;
    }

    private void Add(Site site, Func<string, string> nameOf)
    {
        foreach (var schedule in site.Schedules.Where(schedule => !schedule.IsManual))
        {
            var season = SeasonOf(schedule, site);
            foreach (var zone in Waterings.ZonesIn(schedule.Steps).Select(zone => nameOf(zone.Name)))
            {
                if (!_seasons.TryGetValue(zone, out var seasons)) _seasons[zone] = seasons = [];
                seasons.Add(season);
            }
        }
    }

    /// <summary>The season of a schedule, or of the one whose days it takes.</summary>
    private static Season? SeasonOf(Schedule schedule, Site site)
    {
        for (var depth = 0; depth < Diagnostics.Limits.NameDepth && schedule.Season is null && schedule.DayLines.IsEmpty; depth++)
        {
            if (schedule.Starts is not [StartAfter after, ..]) return null;
            schedule = site.Schedules.First(other => other.Name == after.Other);
        }

        return schedule.Season;
    }

    private int Count(HashSet<Season?> seasons)
    {
        if (seasons.Count == 0 || seasons.Contains(null)) return Math.Max(1, _closed.Count(isClosed => !isClosed));
        var days = seasons.Select(season => DaysOf(season!)).ToList();
        return Math.Max(1, Enumerable.Range(0, _until - _from).Count(day => !_closed[day] && days.Exists(inSeason => inSeason[day])));
    }

    private bool[] DaysOf(Season season)
    {
        if (_days.TryGetValue(season, out var days)) return days;
        days = new bool[_until - _from];
        foreach (var day in DayPattern.Of([], season, [], Effective).DueDays(_from, _until)) days[day - _from] = true;
        return _days[season] = days;
    }

    private bool[] ClosedDays(Site site)
    {
        var days = new bool[_until - _from];
        foreach (var closed in site.ClosedSeasons)
        {
            foreach (var day in DayPattern.Of([closed.Days], season: null, [], Effective).DueDays(_from, _until)) days[day - _from] = true;
        }

        return days;
    }
}
