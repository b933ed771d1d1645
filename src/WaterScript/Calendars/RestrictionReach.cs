using System.Collections.Immutable;
using WaterScript.Model;

namespace WaterScript.Calendars;

/// <summary>Whom a restriction binds, and when.</summary>
internal sealed class RestrictionReach
{
    private readonly bool[] _zones;
    private readonly DayPattern? _season;
    private readonly ImmutableArray<(bool[] Zones, DayPattern Dates)> _exempt;

    public RestrictionReach(Restriction restriction, Site site)
    {
        _zones = new bool[site.Zones.Length];
        if (restriction.Zones.IsEmpty) Array.Fill(_zones, true);
        foreach (var zone in restriction.Zones) _zones[zone.Index] = true;
        foreach (var zone in restriction.Exempt.Where(exemption => exemption.Dates is null).SelectMany(exemption => exemption.Zones))
            _zones[zone.Index] = false;
        _season = restriction.Season is { } season ? DatesOf(season, site) : null;
        _exempt = [.. restriction.Exempt.Where(exemption => exemption.Dates is not null)
            .Select(exemption => (Marked(exemption.Zones, site), DatesOf(exemption.Dates!, site)))];
    }

    /// <summary>Whether a zone may be bound on some date.</summary>
    public bool CanBind(int zone) => _zones[zone];

    /// <summary>Whether a zone is bound on a local date, in days since 1970-01-01.</summary>
    public bool Binds(int zone, int day)
    {
        if (!_zones[zone] || _season?.IsDue(day) == false) return false;
        foreach (var (zones, dates) in _exempt)
        {
            if (zones[zone] && dates.IsDue(day)) return false;
        }

        return true;
    }

    private static DayPattern DatesOf(Season season, Site site) => DayPattern.Of(days: [], season, except: [], site.Effective);

    private static bool[] Marked(ImmutableArray<Zone> zones, Site site)
    {
        var marked = new bool[site.Zones.Length];
        foreach (var zone in zones) marked[zone.Index] = true;
        return marked;
    }
}
