using System.Collections.Immutable;
using System.Numerics;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Documents.ICalendar;

/// <summary>
/// The dates after a horizon on which a schedule is due, for ever. There is one only for a schedule that goes by the clock, and
/// that nothing dated changes any more.
/// </summary>
internal sealed class SteadyDays
{
    private readonly Site _site;
    private readonly Schedule _schedule;
    private readonly Dictionary<int, DayBits> _due = [];

    private SteadyDays(Site site, Schedule schedule, int until, long length, bool repeatsWithCalendar)
    {
        _site = site;
        _schedule = schedule;
        Until = until;
        Length = (int)length;
        RepeatsWithCalendar = repeatsWithCalendar;
    }

    /// <summary>The first date after the horizon.</summary>
    public int Until { get; }

    /// <summary>Dates from there on after which the pattern has come round: what holds for these holds for all.</summary>
    public int Length { get; }

    /// <summary>Whether the pattern comes round with the calendar, every 400 years.</summary>
    public bool RepeatsWithCalendar { get; }

    /// <summary>The dates of a schedule after a horizon, or null.</summary>
    public static SteadyDays? Of(Site site, Schedule schedule, LocalDate until)
    {
        if (!GoesByClock(schedule) || !site.Holds.All(hold => EndsBefore(hold, until)) || ScaleChangesAfter(site, schedule, until)) return null;
        DaySet[] sets = [.. schedule.Days, .. schedule.Except, .. schedule.Starts.SelectMany(start => start.On),
            .. site.ClosedSeasons.Select(closed => closed.Days)];
        var first = CivilDate.DayNumberOf(until);
        var anchors = sets.OfType<IntervalDays>().Select(interval => interval.Anchor).OfType<LocalDate>().Select(anchor => CivilDate.DayNumberOf(anchor));
        var dated = sets.Append(schedule.Season?.Span).OfType<DateRange>().Select(LastNamed).Concat(anchors).Append(first).Max();
        var period = PeriodOf(sets, schedule.Season?.Span, ScaleOf(site, schedule) is MonthlyScale or ClimateScale);
        var length = dated - first + period + 2;
        var isInCalendar = first + length < CivilDate.DayNumberOf(9_000, 1, 1);
        return isInCalendar ? new SteadyDays(site, schedule, first, length, CivilDate.DaysInCycle % period == 0) : null;
    }

    /// <summary>Whether something takes a part of passes day by day.</summary>
    public bool IsCutEachDay => _schedule.Cut is not null;

    /// <summary>Whether passes of a start are due on a date from <see cref="Until"/> on.</summary>
    /// <param name="startNumber">Number of the start; 0 for any.</param>
    /// <param name="date">In days since 1970-01-01.</param>
    public bool IsDue(int startNumber, int date)
    {
        if (!_due.TryGetValue(startNumber, out var bits)) _due[startNumber] = bits = Due(startNumber);
        return bits.Contains(date);
    }

    /// <summary>
    /// The parts of a year in which the schedule is due as its season, its exceptions and closed seasons have them: months of which all days are left
    /// together, the others one by one.
    /// </summary>
    public ImmutableArray<YearPart> YearParts()
    {
        const int DaysInLeapYear = 366;
        var year = CivilDate.FromDayNumber(Until).Year + 1;
        while (CivilDate.DaysInMonth(year, 2) < 29) year++;
        var first = CivilDate.DayNumberOf(year, 1, 1);
        var due = DayPattern.Of([], _schedule.Season, [.. _schedule.Except.Where(OfTheYear)], _site.Effective).Over(first, DaysInLeapYear);
        foreach (var closed in _site.ClosedSeasons)
            due.ExceptWith(DayPattern.Of([closed.Days], season: null, except: [], _site.Effective).Over(first, DaysInLeapYear));
        var sets = _schedule.Days.Concat(_schedule.Starts.SelectMany(start => start.On));
        var goesByMonthDays = sets.Any(set => set is OddEvenDays or MonthDays or LastDayOfMonth);
        var parts = ImmutableArray.CreateBuilder<YearPart>();
        var whole = 0;
        for (var month = 1; month <= 12; month++)
        {
            var (days, length) = (0u, CivilDate.DaysInMonth(year, month));
            for (var day = 1; day <= length; day++) days |= due.Contains(CivilDate.DayNumberOf(year, month, day)) ? 1u << day : 0;
            var isWhole = BitOperations.PopCount(days) == length;
            if (isWhole && !goesByMonthDays) whole |= 1 << month;
            else if (days != 0) parts.Add(new YearPart(1 << month, isWhole ? 0 : days));
        }

        if (whole != 0) parts.Insert(0, new YearPart(whole, MonthDays: 0));
        return parts.DrainToImmutable();
    }

    /// <summary>Seconds after the midnight of a date between which no clock change may fall, for passes to be as they always are.</summary>
    /// <param name="form">Their form.</param>
    /// <param name="passSeconds">How long a pass lasts, pauses included.</param>
    public (long From, long To) Window(in EventForm form, long passSeconds)
    {
        var (from, to) = (form.FromMidnight, form.FromMidnight + form.Seconds);
        foreach (var start in _schedule.Starts)
        {
            if (form.Key.StartNumber != 0 && start.Number != form.Key.StartNumber) continue;
            var second = SecondOf(start is FinishBy by ? by.Moment : ((StartAt)start).Moment);
            (from, to) = (Math.Min(from, second), Math.Max(to, second));
            if (start is FinishBy)
                from = Math.Min(from, second - passSeconds - (_schedule.Repeat is RepeatTimes times ? times.Every.WholeSeconds() * (times.Passes - 1) : 0));
        }

        if (_schedule.Repeat is RepeatUntil until) to = Math.Max(to, SecondOf(until.Until) + (until.NextDay ? ZoneClock.SecondsInDay : 0));
        if (_schedule.Cut is { } cut) to = Math.Max(to, SecondOf(cut.At) + (cut.NextDay ? ZoneClock.SecondsInDay : 0));
        return (from, to);
    }

    private static bool OfTheYear(DaySet set) => set is YearlyRange or YearlySpan or YearlyDay;

    private static int SecondOf(Moment moment) => ((ClockMoment)moment).SecondOfDay;

    private DayBits Due(int startNumber)
    {
        // Some days before, because an event may start on another local date than the one it belongs to.
        const int Margin = 400;
        var (first, length) = (Until - Margin, Length + (2 * Margin));
        var pattern = DayPattern.Of(_schedule, _site.Effective);
        if (startNumber != 0) pattern = pattern.NarrowedTo(_schedule.Starts.First(start => start.Number == startNumber).On);
        var due = pattern.Over(first, length);
        foreach (var closed in _site.ClosedSeasons) due.ExceptWith(DayPattern.Of([closed.Days], season: null, except: [], _site.Effective).Over(first, length));
        return due;
    }

    private static bool GoesByClock(Schedule schedule) =>
        !schedule.IsManual && !schedule.IsExtra && schedule.Keeps.IsEmpty
        && schedule.Repeat is null or RepeatTimes or RepeatUntil { Until: ClockMoment }
        && schedule.Cut is null or { At: ClockMoment }
        && schedule.Starts.All(start => start is StartAt { Moment: ClockMoment } or FinishBy { Moment: ClockMoment })
        && (schedule.Starts.Length == 1 || (
            schedule.Starts.All(start => start is StartAt)
            && schedule.Starts.Select(start => SecondOf(((StartAt)start).Moment)).Distinct().Count() == schedule.Starts.Length));

    private static bool EndsBefore(Hold hold, LocalDate until) => hold switch
    {
        { Until: { } end } => end.Date < until,
        { For: { } length } => hold.From.PlusSeconds(length.WholeSeconds()).Date.PlusDays(1) < until,
        _ => false,
    };

    private static bool ScaleChangesAfter(Site site, Schedule schedule, LocalDate until) => ScaleOf(site, schedule) switch
    {
        DatedScale dated => dated.Since.Any(since => since.From >= until),
        MonthlyScale or ClimateScale => schedule.Starts.Any(start => start is FinishBy),
        null => false,
        _ => true,
    };

    private static Scale? ScaleOf(Site site, Schedule schedule) =>
        (schedule.Scale ?? site.Scale)?.Name is { } name ? site.Scales.FirstOrDefault(scale => scale.Name == name) : null;

    /// <summary>The last date that a range changes anything; one without an end has only its first.</summary>
    private static int LastNamed(DateRange range) =>
        CivilDate.DayNumberOf(range.Last == LocalDate.MaxIsoValue ? range.First : range.Last);

    private static long PeriodOf(DaySet[] sets, DaySet? season, bool isScaledByMonth)
    {
        var isYearly = season is not (null or DateRange);
        var period = isYearly || isScaledByMonth || sets.Any(set => set is not (IntervalDays or WeekdayDays or DateRange)) ? CivilDate.DaysInCycle : 1L;
        if (sets.Any(set => set is WeekdayDays)) period = LeastMultiple(period, 7);
        foreach (var interval in sets.OfType<IntervalDays>().Where(interval => !isYearly || interval.Anchor is not null))
            period = LeastMultiple(period, interval.PeriodDays);
        return period;
    }

    private static long LeastMultiple(long first, long second)
    {
        var (a, b) = (first, second);
        while (b != 0) (a, b) = (b, a % b);
        return first / a * second;
    }
}

/// <summary>Some months of a year, or the same days of each.</summary>
/// <param name="Months">Bit 1 for January.</param>
/// <param name="MonthDays">Days of the month, bit by bit; 0 for all.</param>
internal readonly record struct YearPart(int Months, uint MonthDays)
{
    /// <summary>Whether a day lies in it.</summary>
    public bool Contains(int day)
    {
        var (_, month, ofMonth) = CivilDate.FromDayNumber(day);
        return (Months & (1 << month)) != 0 && (MonthDays == 0 || (MonthDays & (1u << ofMonth)) != 0);
    }
}
