using System.Collections.Immutable;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts.Years;

/// <summary>What holds over days of a year.</summary>
/// <param name="site">The site.</param>
/// <param name="clock">Its clock.</param>
/// <param name="first">The first day, since 1970-01-01.</param>
/// <param name="days">How many.</param>
internal sealed class YearNotes(Site site, ZoneClock clock, int first, int days)
{
    private readonly ImmutableArray<DayPattern> _closed =
        [.. site.ClosedSeasons.Select(season => DayPattern.Of([season.Days], season: null, except: [], site.Effective))];

    /// <summary>Whether a day is in a closed season.</summary>
    public bool IsClosed(int day) => _closed.Any(pattern => pattern.IsDue(day + first));

    /// <summary>Holds, closed seasons and seasons of restrictions, by their first day.</summary>
    public IEnumerable<YearNote> All() => HoldNotes().Concat(ClosedNotes()).Concat(RestrictionNotes()).OrderBy(note => note.From).ThenBy(note => note.Until);

    /// <summary>Days on which the clock changes.</summary>
    public IEnumerable<YearNote> Changes()
    {
        for (var day = 0; day < days; day++)
        {
            var (start, end) = (clock.StartOfDay(first + day), clock.StartOfDay(first + day + 1));
            var change = clock.OffsetAt(end) - clock.OffsetAt(start);
            if (change != 0) yield return new YearNote(day, day + 1, $"clocks {(change > 0 ? "forward" : "back")} {DateOf(day)}");
        }
    }

    private IEnumerable<YearNote> HoldNotes()
    {
        foreach (var (hold, from, until) in Holds.Of(site, clock).All)
        {
            var start = clock.At(from).Day - first;
            var end = until == long.MaxValue ? days : clock.At(until - 1).Day + 1 - first;
            if (end <= 0 || start >= days) continue;
            var dates = until == long.MaxValue ? $"from {DateOf(start)}" : end - start == 1 ? DateOf(start) : $"{DateOf(start)} to {DateOf(end - 1)}";
            yield return new YearNote(Math.Max(0, start), Math.Min(days, end), $"hold {dates}: {hold.Because}");
        }
    }

    private IEnumerable<YearNote> ClosedNotes()
    {
        foreach (var (season, pattern) in site.ClosedSeasons.Zip(_closed))
        {
            foreach (var (from, until) in Spans(pattern))
            {
                var words = from == 0 ? $"closed to {DateOf(until - 1)}"
                    : until == days ? $"closed from {DateOf(from)}"
                    : $"closed {DateOf(from)} to {DateOf(until - 1)}";
                yield return new YearNote(from, until, $"{words}: {season.Because}");
            }
        }
    }

    private IEnumerable<YearNote> RestrictionNotes()
    {
        foreach (var restriction in site.Restrictions)
        {
            if (restriction.Season is not { } season) continue;
            foreach (var (from, until) in Spans(DayPattern.Of([season.Span], season: null, except: [], site.Effective)))
                yield return new YearNote(from, until, $"{restriction.DisplayName}: {DateOf(from)} to {DateOf(until - 1)}");
        }
    }

    /// <summary>The days of a pattern, in a row.</summary>
    private IEnumerable<(int From, int Until)> Spans(DayPattern pattern)
    {
        int? since = null;
        for (var day = 0; day < days; day++)
        {
            if (pattern.IsDue(first + day)) since ??= day;
            else if (since is { } from)
            {
                yield return (from, day);
                since = null;
            }
        }

        if (since is { } open) yield return (open, days);
    }

    /// <summary><c>8 Jun</c></summary>
    private string DateOf(int day)
    {
        var words = MomentWords.Date(CivilDate.FromDayNumber(first + day).ToLocalDate());
        return words[4..^5];
    }
}
