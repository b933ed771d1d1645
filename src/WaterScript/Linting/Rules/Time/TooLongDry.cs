using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Time;

/// <summary>A zone that stays dry longer than it may.</summary>
internal sealed class TooLongDry : IRule, IRunObserver
{
    public static Rule Rule { get; } = new("too-long-dry", Severity.Warning, "a zone that stays dry longer than it may")
    {
        Category = RuleCategory.DaysAndTimes,
        CanBeAccepted = true,
        Finds = """
            A zone stays without water for longer than its `never-dry-for`: between two waterings, before the first or after the last. Only days in a season of a schedule that names it count, whatever scale and trim leave of it, and none of a closed season: a
            bed that rests in winter is not dry, and a day that does not count begins the time anew. A schedule that starts after others is in season when one of these is. Each time that is too long counts once, when it becomes so.
            """,
        Matters = """
            Seedlings, pots and cuttings do not come back from drying out once.
            """,
        Fires = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; never-dry-for 26 h }
            schedule morning {
              every day
              start at 06:00
              except sun
              steps { water beds for 10 min }
            }
            """,
        Fixed = """
            site plot {
              timezone   Europe/Lisbon
              effective  2026-03-01
            }
            zone beds { output 1; never-dry-for 26 h }
            schedule morning {
              every day
              start at 06:00
              steps { water beds for 10 min }
            }
            """,
        KnownLimits = """
            Rain is not counted. A zone that no schedule with a calendar waters is for `never-watered`.
            """,
    };

    private readonly LintContext _context;
    private readonly long[] _wetUntil;
    private readonly Found?[] _found;
    private readonly DayPattern?[] _seasons;
    private readonly int[]?[] _followed;
    private readonly HashSet<int>[] _zonesOf;
    private readonly (int Day, bool Is)[] _inSeason;
    private readonly DayPattern[] _closed;

    public TooLongDry(LintContext context)
    {
        _context = context;
        var site = context.Site;
        _wetUntil = new long[site.Zones.Length];
        _found = new Found?[site.Zones.Length];
        _seasons = [.. site.Schedules.Select(
            schedule => schedule.Season is null ? null : DayPattern.Of(days: [], schedule.Season, except: [], site.Effective))];
        _followed = [.. site.Schedules.Select(schedule => FollowedBy(schedule, site))];
        _zonesOf = [.. site.Schedules.Select(
            schedule => schedule.IsManual || schedule.IsExtra ? [] : Waterings.ZonesIn(schedule.Steps).Select(zone => zone.Index).ToHashSet())];
        _inSeason = [.. site.Schedules.Select(_ => (int.MinValue, false))];
        _closed = [.. site.ClosedSeasons.Select(closed => DayPattern.Of([closed.Days], season: null, except: [], site.Effective))];
        Array.Fill(_wetUntil, context.WallClock.StartOfDay(CivilDate.DayNumberOf(context.Horizon.From)));
    }

    public bool Observes(Zone zone) => zone.NeverDryFor is not null;

    public void Visit(in Run run)
    {
        JudgeGap(run.Zone, run.Start);
        _wetUntil[run.Zone] = Math.Max(_wetUntil[run.Zone], run.End + run.Overlap);
    }

    public IEnumerable<Finding> Findings()
    {
        var end = _context.WallClock.StartOfDay(CivilDate.DayNumberOf(_context.Horizon.Until));
        foreach (var zone in _context.Site.Zones.Where(zone => zone.NeverDryFor is not null)) JudgeGap(zone.Index, end);
        return _context.Site.Zones.Where(zone => _found[zone.Index] is not null).Select(zone => FindingFor(zone, _found[zone.Index]!));
    }

    /// <summary>Looks at a stretch without water; days out of season begin it anew.</summary>
    private void JudgeGap(int zone, long until)
    {
        var from = _wetUntil[zone];
        var most = _context.Site.Zones[zone].NeverDryFor!.Value.WholeSeconds();
        if (until - from <= most) return;
        var last = _context.DayOf(until - 1);
        for (var day = _context.DayOf(from); day <= last; day++)
        {
            if (Counts(zone, day)) continue;
            Judge(zone, from, Math.Min(until, _context.WallClock.StartOfDay(day)), most);
            from = Math.Max(from, _context.WallClock.StartOfDay(day + 1));
        }

        Judge(zone, from, until, most);
    }

    private void Judge(int zone, long from, long until, long most)
    {
        if (until - from <= most) return;
        var found = _found[zone] ??= new Found();
        found.OccurrenceCounter.Add(from + most, _context);
        if (found.OccurrenceCounter.Reach(until - from)) found.From = from;
    }

    private bool Counts(int zone, int day)
    {
        if (_closed.Any(closed => closed.IsDue(day))) return false;
        foreach (var schedule in _context.Site.Schedules)
        {
            if (_zonesOf[schedule.Index].Contains(zone) && IsInSeason(schedule.Index, day)) return true;
        }

        return false;
    }

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

    private Finding FindingFor(Zone zone, Found found) =>
        Finding.At(Rule, zone.NeverDryFor!.Value.Place, $"{zone.Name} stays dry for up to {Phrases.Length((long)found.OccurrenceCounter.Worst)}",
            $"never dry for more than {Phrases.Length(zone.NeverDryFor!.Value.WholeSeconds())}") with
        {
            Happens = found.OccurrenceCounter.Happens(_context),
            Details = $"The longest time without water begins {_context.Moment(found.From)}.",
            Help = "Water it more often, or change its `never-dry-for`.",
        };

    private sealed class Found
    {
        /// <summary>When it has been dry for too long; the worst is the longest, in seconds.</summary>
        public OccurrenceCounter OccurrenceCounter { get; } = new();

        /// <summary>Where the longest begins.</summary>
        public long From { get; set; }
    }
}
