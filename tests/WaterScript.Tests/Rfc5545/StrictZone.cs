using NodaTime;

namespace WaterScript.Tests.Rfc5545;

/// <summary>A VTIMEZONE (RFC 5545, 3.6.5), read for itself: no zone data but the file's are asked.</summary>
internal sealed class StrictZone
{
    /// <summary>Up to here the onsets of rules without an end are worked out, or for so many years where they begin later.</summary>
    private const int LastYear = 2100;

    private const int LeastYears = 75;

    private readonly List<(Instant At, int Offset)> _onsets;

    private StrictZone(Component zone, List<(Instant At, int Offset)> onsets)
    {
        Name = zone.Text("TZID")!;
        Line = zone.Line;
        _onsets = onsets;
    }

    public string Name { get; }

    public int Line { get; }

    /// <summary>Before it the file says nothing.</summary>
    public Instant FirstOnset => _onsets[0].At;

    public static StrictZone Of(Component zone)
    {
        Cardinality.Check(zone);
        if (zone.Parts.Count == 0) throw new Malformed(zone.Line, "a VTIMEZONE without an observance");
        var onsets = zone.Parts.SelectMany(OnsetsOf).OrderBy(onset => onset.At).ToList();
        for (var i = 1; i < onsets.Count; i++)
        {
            if (onsets[i].At == onsets[i - 1].At) throw new Malformed(zone.Line, $"two onsets at {onsets[i].At}");
            if (onsets[i].From != onsets[i - 1].To) throw new Malformed(zone.Line, $"the onset at {onsets[i].At} does not go on from the one before");
        }

        return new StrictZone(zone, [.. onsets.Select(onset => (onset.At, onset.To))]);
    }

    /// <summary>The offset from UTC at an instant, in seconds; null before the first onset.</summary>
    public int? OffsetAt(Instant at)
    {
        var index = _onsets.FindLastIndex(onset => onset.At <= at);
        return index < 0 ? null : _onsets[index].Offset;
    }

    /// <summary>The instants at which its clocks show a time.</summary>
    public IReadOnlyList<Instant> Instants(LocalDateTime wall) =>
        [.. _onsets.Select(onset => onset.Offset).Distinct()
            .Select(offset => (Offset: offset, At: wall.InUtc().ToInstant() - Duration.FromSeconds(offset)))
            .Where(candidate => OffsetAt(candidate.At) == candidate.Offset)
            .Select(candidate => candidate.At)
            .Order()];

    private static IEnumerable<(Instant At, int From, int To)> OnsetsOf(Component observance)
    {
        if (observance.Name is not ("STANDARD" or "DAYLIGHT")) throw new Malformed(observance.Line, $"{observance.Name} is no observance");
        Cardinality.Check(observance);
        var start = observance.The("DTSTART");
        var (wall, isUtc) = Values.Time(start.Number, start.Value);
        if (isUtc || start.Parameters.Count > 0) throw new Malformed(start.Number, "an onset is a local time");
        var from = Values.Offset(observance.The("TZOFFSETFROM"));
        var to = Values.Offset(observance.The("TZOFFSETTO"));
        if (observance.Find("RRULE") is not { } line) return [(InstantOf(wall, from), from, to)];

        var rule = RecurrenceRule.Of(line);
        if (rule.Frequency != "YEARLY" || !rule.Has(wall.Date) || rule.Names.Contains("COUNT")
            || rule.Names.Contains("INTERVAL")) throw new Malformed(line.Number, "is no yearly rule of its own onset");
        var last = rule.Until is null ? Instant.MaxValue : Until(line, rule.Until);
        var end = Math.Max(LastYear, wall.Year + LeastYears);
        // A yearly onset without a day of its own comes on that of its first.
        var days = rule.Names.Any(name => name.StartsWith("BY", StringComparison.Ordinal))
            ? Enumerable.Range(0, Period.DaysBetween(wall.Date, new LocalDate(end, 1, 1))).Select(wall.Date.PlusDays).Where(rule.Has)
            : Enumerable.Range(0, end - wall.Year).Select(wall.Date.PlusYears);
        return days.Select(day => InstantOf(day + wall.TimeOfDay, from)).TakeWhile(at => at <= last).Select(at => (at, from, to));
    }

    private static Instant Until(ContentLine line, string until)
    {
        var (wall, isUtc) = Values.Time(line.Number, until);
        return isUtc ? wall.InUtc().ToInstant() : throw new Malformed(line.Number, "UNTIL of an onset is in UTC (3.6.5)");
    }

    private static Instant InstantOf(LocalDateTime wall, int from) => wall.InUtc().ToInstant() - Duration.FromSeconds(from);
}
