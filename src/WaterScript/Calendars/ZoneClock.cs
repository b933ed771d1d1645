using NodaTime;
using NodaTime.TimeZones;

namespace WaterScript.Calendars;

/// <summary>
/// The wall clock of a time zone, in day numbers and Unix seconds. It remembers the stretch between two clock changes that
/// it was last asked about, so that a row of dates costs an addition each. It may be used from several threads.
/// </summary>
internal sealed class ZoneClock
{
    /// <summary>Seconds in a day of the calendar without a clock change.</summary>
    public const int SecondsInDay = 86_400;

    /// <summary>No clock is further ahead of UTC (NodaTime's own bound for an offset).</summary>
    private const int LargestOffset = 18 * 3_600;

    private Stretch _lastByInstant;
    private Stretch _lastByWall;

    /// <summary>The wall clock of a zone.</summary>
    public ZoneClock(DateTimeZone zone)
    {
        Zone = zone;
        _lastByInstant = _lastByWall = StretchFrom(zone.GetZoneInterval(NodaConstants.UnixEpoch));
    }

    /// <summary>The zone.</summary>
    public DateTimeZone Zone { get; }

    /// <summary>
    /// The instant at which the clock shows a time of a date. A time that a change skips is read with the offset before the
    /// change, of one that occurs twice the first is taken (RFC 5545, 3.3.5); the note says so.
    /// </summary>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    /// <param name="secondOfDay">0 to 86,400; 86,400 is the next date's midnight.</param>
    public MomentReading Read(int day, int secondOfDay)
    {
        var wall = ((long)day * SecondsInDay) + secondOfDay;
        var last = _lastByWall;
        return wall >= last.SingleFrom && wall < last.SingleUntil
            ? new(wall - last.Offset, MomentNote.None)
            : ReadAnew(wall);
    }

    /// <summary>
    /// The first instant of a date, in Unix seconds: midnight, or the change that skips it. A date skipped whole has none of its own and starts where
    /// the next does.
    /// </summary>
    public long StartOfDay(int day)
    {
        var midnight = Read(day, 0);
        return midnight.Note == MomentNote.Skipped ? StretchAt(midnight.Instant).Start : midnight.Instant;
    }

    /// <summary>What the clock shows at an instant.</summary>
    /// <param name="instant">In Unix seconds.</param>
    public WallTime At(long instant)
    {
        var offset = StretchAt(instant).Offset;
        var (day, second) = Math.DivRem(instant + offset, SecondsInDay);
        return second < 0 ? new((int)day - 1, (int)second + SecondsInDay, offset) : new((int)day, (int)second, offset);
    }

    /// <summary>Seconds that the clock is ahead of UTC at an instant.</summary>
    /// <param name="instant">In Unix seconds.</param>
    public int OffsetAt(long instant) => StretchAt(instant).Offset;

    /// <summary>Goes through the stretches that could show the time, from the earliest on.</summary>
    private MomentReading ReadAnew(long wall)
    {
        var stretch = Find(wall - LargestOffset);
        while (wall >= stretch.WallEnd)
        {
            var next = Find(stretch.End);
            if (wall < next.WallStart)
                return new(wall - stretch.Offset, MomentNote.Skipped);
            stretch = next;
        }
        _lastByWall = stretch;
        var isDoubled = wall >= stretch.SingleUntil;
        return new(wall - stretch.Offset, isDoubled ? MomentNote.Doubled : MomentNote.None);
    }

    private Stretch StretchAt(long instant)
    {
        var last = _lastByInstant;
        if (instant < last.Start || instant >= last.End)
            _lastByInstant = last = Find(instant);
        return last;
    }

    private Stretch Find(long instant) => StretchFrom(Zone.GetZoneInterval(Instant.FromUnixTimeSeconds(instant)));

    private Stretch StretchFrom(ZoneInterval interval)
    {
        var offset = interval.WallOffset.Seconds;
        var stretch = new Stretch(long.MinValue, long.MaxValue, offset, long.MinValue, long.MaxValue);
        if (interval.HasStart)
        {
            var start = interval.Start.ToUnixTimeSeconds();
            var before = Zone.GetZoneInterval(interval.Start - Duration.Epsilon).WallOffset.Seconds;
            stretch = stretch with { Start = start, SingleFrom = start + Math.Max(before, offset) };
        }
        if (interval.HasEnd)
        {
            var end = interval.End.ToUnixTimeSeconds();
            var after = Zone.GetZoneInterval(interval.End).WallOffset.Seconds;
            stretch = stretch with { End = end, SingleUntil = end + Math.Min(after, offset) };
        }
        return stretch;
    }

    /// <summary>A stretch of time without a clock change.</summary>
    /// <param name="Start">First instant, in Unix seconds.</param>
    /// <param name="End">First instant after it.</param>
    /// <param name="Offset">Seconds ahead of UTC.</param>
    /// <param name="SingleFrom">First second on the clock that the stretch before does not show too; seconds from 1970-01-01 00:00 on the clock.</param>
    /// <param name="SingleUntil">First second on the clock that the stretch after shows too, or that comes after it.</param>
    private sealed record Stretch(long Start, long End, int Offset, long SingleFrom, long SingleUntil)
    {
        public long WallStart => Start == long.MinValue ? long.MinValue : Start + Offset;

        public long WallEnd => End == long.MaxValue ? long.MaxValue : End + Offset;
    }
}
