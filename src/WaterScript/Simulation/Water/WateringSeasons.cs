using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Simulation.Water;

/// <summary>The days on which some schedule that waters a zone is in season and nothing is closed.</summary>
internal sealed class WateringSeasons
{
    private readonly Site _site;
    private readonly DayPattern?[] _seasons;
    private readonly int[]?[] _followed;
    private readonly HashSet<int>[] _zonesOf;
    private readonly (int Day, bool Is)[] _inSeason;
    private readonly DayPattern[] _closed;

    /// <summary>Those of a site.</summary>
    public WateringSeasons(Site site)
    {
        _site = site;
        _seasons = [.. site.Schedules.Select(
            schedule => schedule.Season is null ? null : DayPattern.Of(days: [], schedule.Season, except: [], site.Effective))];
        _followed = [.. site.Schedules.Select(schedule => FollowedBy(schedule, site))];
        _zonesOf = [.. site.Schedules.Select(
            schedule => schedule.IsManual || schedule.IsExtra ? [] : Waterings.ZonesIn(schedule.Steps).Select(zone => zone.Index).ToHashSet())];
        _inSeason = [.. site.Schedules.Select(_ => (int.MinValue, false))];
        _closed = [.. site.ClosedSeasons.Select(closed => DayPattern.Of([closed.Days], season: null, except: [], site.Effective))];
    }

    /// <summary>Whether a day is in a season of a zone.</summary>
    public bool Include(Zone zone, int day) =>
        !Array.Exists(_closed, closed => closed.IsDue(day))
        && _site.Schedules.Any(schedule => _zonesOf[schedule.Index].Contains(zone.Index) && IsInSeason(schedule.Index, day));

    /// <summary>The binder has refused schedules that follow each other in a circle, or in too long a chain.</summary>
    private bool IsInSeason(int schedule, int day)
    {
        if (_inSeason[schedule].Day != day)
            _inSeason[schedule] =
                (day, _seasons[schedule]?.IsDue(day) != false
                && (_followed[schedule] is not { } others || Array.Exists(others, other => IsInSeason(other, day))));
        return _inSeason[schedule].Is;
    }

    /// <summary>The schedules that one starts after; null where it has a start of its own.</summary>
    private static int[]? FollowedBy(Schedule schedule, Site site) => schedule.Starts.All(start => start is StartAfter)
        ? [.. schedule.Starts.OfType<StartAfter>().Select(start => site.Schedules.First(other => other.Name == start.Other).Index)]
        : null;
}
