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

    private const int DaysInYear = 366;
    private readonly DateTimeZone _zone;
    private readonly List<Onset> _onsets;
    private readonly (RecurrenceRule? First, RecurrenceRule? Second) _rules;

    private CalendarZone(DateTimeZone zone, List<Onset> onsets, int bounded)
    {
        _zone = zone;
        _onsets = onsets;
        IsEndless = onsets.Count == 1;
        if (!IsEndless && RuleFrom(0) is { } first && RuleFrom(1) is { } second)
        {
            _rules = (first, second);
            IsEndless = true;
        }

        if (!IsEndless) _onsets = onsets[..Math.Max(1, bounded)];
    }

    /// <summary>
    /// For each clock change, from the first instant of interest on, what the clock shows right before and after it, in seconds from 1970-01-01
    /// 00:00.
    /// </summary>
    public IEnumerable<(long Before, long After)> Changes =>
        _onsets.Skip(1).Select(onset => (onset.Instant!.Value + onset.From, onset.Instant.Value + onset.To));

    /// <summary>Whether it holds for ever; else for the dates that it was made for.</summary>
    public bool IsEndless { get; }

    /// <summary>A zone from an instant on.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="from">The first instant of interest, in Unix seconds.</param>
    /// <param name="until">The last one, where the zone has no rule.</param>
    public static CalendarZone Of(DateTimeZone zone, long from, long until)
    {
        var start = Instant.FromUnixTimeSeconds(from);
        var interval = zone.GetZoneInterval(start);
        var onsets = new List<Onset>();
        var end = Instant.Min(start + NodaTime.Duration.FromDays(Years * DaysInYear),
            NodaConstants.UnixEpoch + NodaTime.Duration.FromDays(CivilDate.DayNumberOf(9_000, 1, 1)));
        foreach (var next in zone.GetZoneIntervals(First(zone, interval), end))
        {
            var before = next.HasStart ? zone.GetZoneInterval(next.Start - NodaTime.Duration.Epsilon).WallOffset : next.WallOffset;
            if (onsets.Count > 0 && before == next.WallOffset) continue;
            onsets.Add(new Onset(next.HasStart ? next.Start.ToUnixTimeSeconds() : null, before.Seconds, next.WallOffset.Seconds, next.HasEnd, next.Name));
        }

        return new CalendarZone(zone, onsets, onsets.Count(onset => onset.Instant is null || onset.Instant <= until));
    }

    /// <summary>Writes it.</summary>
    public void Write(ContentLines lines)
    {
        lines.Line("BEGIN:VTIMEZONE");
        lines.Line($"TZID:{_zone.Id}");
        var count = _rules.First is null ? _onsets.Count : 2;
        for (var i = 0; i < count; i++) Write(_onsets[i], i == 0 ? _rules.First : _rules.Second, lines);
        lines.Line("END:VTIMEZONE");
    }

    /// <summary>Where the stretch that holds an instant begins; one before it belongs to it when the clock shows no difference.</summary>
    private static Instant First(DateTimeZone zone, ZoneInterval interval)
    {
        while (interval.HasStart)
        {
            var before = zone.GetZoneInterval(interval.Start - NodaTime.Duration.Epsilon);
            if (before.WallOffset != interval.WallOffset) return interval.Start;
            interval = before;
        }

        return Instant.MinValue;
    }

    private static void Write(Onset onset, RecurrenceRule? rule, ContentLines lines)
    {
        var kind = onset.To > onset.From && onset.Ends ? "DAYLIGHT" : "STANDARD";
        lines.Line($"BEGIN:{kind}");
        lines.Line($"DTSTART:{(onset.LocalSeconds is { } local ? CalendarTime.Local(local) : "19700101T000000")}");
        if (rule is not null) lines.Line($"RRULE:{rule.Text().Replace("FREQ=MONTHLY", "FREQ=YEARLY", StringComparison.Ordinal)}");
        lines.Line($"TZOFFSETFROM:{CalendarTime.Offset(onset.From)}");
        lines.Line($"TZOFFSETTO:{CalendarTime.Offset(onset.To)}");
        lines.Text("TZNAME", onset.Name);
        lines.Line($"END:{kind}");
    }

    /// <summary>The rule that every second onset from one on follows to the end, or null.</summary>
    private RecurrenceRule? RuleFrom(int index)
    {
        var first = _onsets[index];
        if (first.LocalSeconds is not { } local || _onsets.Count < 2 * (Years - 1)) return null;
        var (firstDay, second) = ((int)Math.DivRem(local, ZoneClock.SecondsInDay, out var rest), rest);
        var date = CivilDate.FromDayNumber(firstDay);
        return ((int[])[-1, 1, 2, 3, 4])
            .Select(nth => RecurrenceRule.OnNth(nth, CivilDate.WeekdayOf(firstDay)) with { Months = 1 << date.Month })
            .FirstOrDefault(rule => Follows(rule, index, second, date.Year));
    }

    private bool Follows(RecurrenceRule rule, int index, long second, int year)
    {
        var first = _onsets[index];
        for (var i = index; i < _onsets.Count; i += 2, year++)
        {
            var onset = _onsets[i];
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
