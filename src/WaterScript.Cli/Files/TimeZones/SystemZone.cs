using NodaTime;
using NodaTime.TimeZones;

namespace WaterScript.Cli.Files.TimeZones;

/// <summary>A time zone of the system: the changes that its file lists, and after the last of them its yearly rule.</summary>
internal sealed class SystemZone : DateTimeZone
{
    /// <summary>The last year around which changes are looked for; the calendar ends with 9999.</summary>
    private const int LastYear = 9_997;

    private readonly long[] _changes;
    private readonly ClockTime[] _times;
    private readonly ZoneRule? _rule;

    /// <param name="id">Its name.</param>
    /// <param name="changes">When the clocks change, in Unix seconds, in order.</param>
    /// <param name="times">What they show before the first change, and after each.</param>
    /// <param name="rule">What they do from then on; null where nothing changes any more.</param>
    public SystemZone(string id, long[] changes, ClockTime[] times, ZoneRule? rule)
        : base(id, changes.Length == 0 && rule?.Summer is null, Bound(times, rule, offsets => offsets.Min()), Bound(times, rule, offsets => offsets.Max())) =>
        (_changes, _times, _rule) = (changes, times, rule);

    /// <inheritdoc/>
    public override ZoneInterval GetZoneInterval(Instant instant)
    {
        var second = (long)Math.Floor((instant - NodaConstants.UnixEpoch).TotalSeconds);
        var index = Array.BinarySearch(_changes, second);
        var after = index < 0 ? ~index : index + 1;
        if (after == _changes.Length && _rule is not null) return ByRule(second);
        return Interval(after == 0 ? null : _changes[after - 1], after < _changes.Length ? _changes[after] : null, _times[after], StandardAt(after));
    }

    private static Offset Bound(ClockTime[] times, ZoneRule? rule, Func<IEnumerable<int>, int> which)
    {
        ClockTime?[] more = [rule?.Standard, rule?.Summer];
        return Offset.FromSeconds(which(times.Select(time => time.Offset).Concat(more.OfType<ClockTime>().Select(time => time.Offset))));
    }

    /// <summary>The stretch around a moment after the last change of the list, between two changes of the rule.</summary>
    private ZoneInterval ByRule(long second)
    {
        var year = Math.Clamp(Instant.FromUnixTimeSeconds(second).InUtc().Year, 2, LastYear);
        var listed = _changes.Length == 0 ? long.MinValue : _changes[^1];
        long? start = _changes.Length == 0 ? null : listed;
        var time = _times[^1];
        for (var of = year - 1; of <= year + 1; of++)
        {
            foreach (var (at, next) in _rule!.ChangesOf(of))
            {
                if (at <= listed || next == time) continue;
                if (at > second) return Interval(start, at, time, _rule.Standard.Offset);
                (start, time) = (at, next);
            }
        }

        return Interval(start, null, time, _rule!.Standard.Offset);
    }

    private static ZoneInterval Interval(long? from, long? until, ClockTime time, int standard)
    {
        Instant? start = from is { } first ? Instant.FromUnixTimeSeconds(first) : null;
        Instant? end = until is { } last ? Instant.FromUnixTimeSeconds(last) : null;
        return new ZoneInterval(time.Name, start, end, Offset.FromSeconds(time.Offset), Offset.FromSeconds(time.IsSummer ? time.Offset - standard : 0));
    }

    /// <summary>
    /// The offset of the standard time at a change of the list, as near as the list says it: of the last before it or the first after it, whichever is
    /// nearer, as a place may go over to the other side of the date line while it has summer time.
    /// </summary>
    private int StandardAt(int index)
    {
        var (last, next) = (Array.FindLastIndex(_times, index, time => !time.IsSummer), Array.FindIndex(_times, index, time => !time.IsSummer));
        int DistanceOf(int other) => other < 0 ? int.MaxValue : Math.Abs(_times[index].Offset - _times[other].Offset);
        var nearer = DistanceOf(next) < DistanceOf(last) ? next : last;
        return _times[nearer < 0 ? index : nearer].Offset;
    }
}
