using NodaTime;
using NodaTime.TimeZones;
using WaterScript.Calendars;

namespace WaterScript.Documents.ICalendar;

/// <summary>
/// A time zone as a calendar states it (VTIMEZONE): a pair of rules where its clock changes are the same every year from now on, else
/// one onset after the other.
/// </summary>
internal sealed class CalendarZone
{
    /// <summary>Years over which clock changes have to follow a rule for it to be one: the calendar repeats after them.</summary>
    private const int Years = 400;

    private const int FirstYear = 1970;

    private const int DaysInYear = 366;

    /// <summary>Onsets before the rules of today that stand one by one.</summary>
    private const int MostAhead = 3;

    private readonly DateTimeZone _zone;
    private readonly List<Onset> _onsets;
    private readonly (RecurrenceRule First, RecurrenceRule Second)? _rules;

    /// <summary>How many onsets stand one by one, before those of the rules.</summary>
    private readonly int _single;

    /// <param name="zone">The zone.</param>
    /// <param name="onsets">The beginnings of its stretches without a clock change.</param>
    /// <param name="bounded">How many of them there are up to the last instant of interest.</param>
    private CalendarZone(DateTimeZone zone, List<Onset> onsets, int bounded)
    {
        _zone = zone;
        _single = onsets.Count;
        IsEndless = onsets.Count == 1;
        for (var ahead = 0; ahead <= MostAhead && ahead + 1 < onsets.Count && !IsEndless; ahead++)
        {
            if (RuleFrom(onsets, ahead) is not { } first || RuleFrom(onsets, ahead + 1) is not { } second) continue;
            _rules = (first, second);
            _single = ahead;
            IsEndless = true;
        }

        _onsets = IsEndless ? onsets : onsets[..Math.Max(1, bounded)];
        _single = Math.Min(_single, _onsets.Count);
    }

    /// <summary>
    /// For each clock change, from the first instant of interest on, what the clock shows right before and after it, in seconds from 1970-01-01
    /// 00:00.
    /// </summary>
    public IEnumerable<(long Before, long After)> Changes =>
        _onsets.Skip(1).Select(onset => (onset.Instant!.Value + onset.From, onset.Instant.Value + onset.To));

    /// <summary>Whether it holds for ever; else for the dates that it was made for.</summary>
    public bool IsEndless { get; }

    /// <summary>
    /// A zone from an instant on. Where the clocks change, the onsets of summer time and of standard time begin a year before it, because some
    /// readers fail where one of them comes after the first event.
    /// </summary>
    /// <param name="zone">The zone.</param>
    /// <param name="from">The first instant of interest, in Unix seconds.</param>
    /// <param name="until">The last one, where the zone has no rule.</param>
    public static CalendarZone Of(DateTimeZone zone, long from, long until)
    {
        var start = Instant.FromUnixTimeSeconds(from);
        var yearBefore = start - NodaTime.Duration.FromDays(DaysInYear);
        var onsets = OnsetsFrom(zone, start);
        if (onsets.Count > 1)
        {
            var (first, isFirst) = First(zone, zone.GetZoneInterval(yearBefore));
            onsets = OnsetsFrom(zone, isFirst || first < NodaConstants.UnixEpoch ? yearBefore : first - NodaTime.Duration.Epsilon);
        }

        var isOld = onsets.Count > 1 ? onsets[0].Instant < 0
            : onsets[0].Instant is not { } onset || onset < 0 || onset > yearBefore.ToUnixTimeSeconds();
        if (isOld)
        {
            // It may hold since a time when clocks went by the sun; the events need no more than the offset of their own time.
            var since = CivilDate.DayNumberOf(Math.Min(FirstYear, yearBefore.InUtc().Year), 1, 1) * (long)ZoneClock.SecondsInDay;
            onsets[0] = onsets[0] with { Instant = since - onsets[0].To, From = onsets[0].To };
        }

        return new CalendarZone(zone, onsets, onsets.Count(onset => onset.Instant is null || onset.Instant <= until));
    }

    private static List<Onset> OnsetsFrom(DateTimeZone zone, Instant from)
    {
        var onsets = new List<Onset>();
        var end = Instant.Min(from + NodaTime.Duration.FromDays(Years * DaysInYear),
            NodaConstants.UnixEpoch + NodaTime.Duration.FromDays(CivilDate.DayNumberOf(9_000, 1, 1)));
        foreach (var next in zone.GetZoneIntervals(First(zone, zone.GetZoneInterval(from)).Start, end))
        {
            var before = next.HasStart ? zone.GetZoneInterval(next.Start - NodaTime.Duration.Epsilon).WallOffset : next.WallOffset;
            if (onsets.Count > 0 && before == next.WallOffset) onsets[^1] = onsets[^1] with { Ends = next.HasEnd };
            else onsets.Add(new Onset(next.HasStart ? next.Start.ToUnixTimeSeconds() : null, before.Seconds, next.WallOffset.Seconds, next.HasEnd, next.Name));
        }

        return onsets;
    }

    /// <summary>Writes it.</summary>
    public void Write(ContentLines lines)
    {
        lines.Line("BEGIN:VTIMEZONE");
        lines.Line($"TZID:{_zone.Id}");
        foreach (var onset in _onsets.Take(_single)) Write(onset, rule: null, lines);
        if (_rules is var (first, second))
        {
            Write(_onsets[_single], first, lines);
            Write(_onsets[_single + 1], second, lines);
        }

        lines.Line("END:VTIMEZONE");
    }

    /// <summary>Where the stretch that holds an instant begins; one before it belongs to it when the clock shows no difference.</summary>
    private static (Instant Start, bool IsFirst) First(DateTimeZone zone, ZoneInterval interval)
    {
        while (interval.HasStart)
        {
            var before = zone.GetZoneInterval(interval.Start - NodaTime.Duration.Epsilon);
            if (before.WallOffset != interval.WallOffset) return (interval.Start, IsFirst: false);
            interval = before;
        }

        return (Instant.MinValue, IsFirst: true);
    }

    private static void Write(Onset onset, RecurrenceRule? rule, ContentLines lines)
    {
        var kind = onset.To > onset.From && onset.Ends ? "DAYLIGHT" : "STANDARD";
        lines.Line($"BEGIN:{kind}");
        lines.Line($"DTSTART:{CalendarTime.Local(onset.LocalSeconds ?? 0)}");
        if (rule is not null) lines.Line($"RRULE:{rule.Text()}");
        lines.Line($"TZOFFSETFROM:{CalendarTime.Offset(onset.From)}");
        lines.Line($"TZOFFSETTO:{CalendarTime.Offset(onset.To)}");
        lines.Text("TZNAME", onset.Name);
        lines.Line($"END:{kind}");
    }

    /// <summary>The rule that every second onset from one on follows to the end, or null.</summary>
    private static RecurrenceRule? RuleFrom(List<Onset> onsets, int index)
    {
        var first = onsets[index];
        if (first.LocalSeconds is not { } local || onsets.Count < 2 * (Years - 1)) return null;
        var (firstDay, second) = ((int)Math.DivRem(local, ZoneClock.SecondsInDay, out var rest), rest);
        var date = CivilDate.FromDayNumber(firstDay);
        return ((int[])[-1, 1, 2, 3, 4])
            .Select(nth => RecurrenceRule.OnNth(nth, CivilDate.WeekdayOf(firstDay)).InMonths(1 << date.Month)!)
            .FirstOrDefault(rule => Follows(rule, onsets, index, second, date.Year));
    }

    private static bool Follows(RecurrenceRule rule, List<Onset> onsets, int index, long second, int year)
    {
        var first = onsets[index];
        for (var i = index; i < onsets.Count; i += 2, year++)
        {
            var onset = onsets[i];
            if ((onset.From, onset.To) != (first.From, first.To) || onset.LocalSeconds is not { } local) return false;
            var day = (int)Math.DivRem(local, ZoneClock.SecondsInDay, out var rest);
            if (rest != second || CivilDate.FromDayNumber(day).Year != year || !rule.Contains(day, day)) return false;
        }

        return true;
    }

    /// <summary>The beginning of a stretch without a clock change.</summary>
    private readonly record struct Onset(long? Instant, int From, int To, bool Ends, string Name)
    {
        /// <summary>On the clock as it was before, in seconds from 1970-01-01 00:00.</summary>
        public long? LocalSeconds => Instant + From;
    }
}
