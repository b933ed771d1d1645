using WaterScript.Answers.Audit.Water;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Answers.Audit;

/// <summary>
/// Finds for each watering of a zone that was meant the one that the log has of: first by the beginning, then by any time in common. Both lists are in
/// order, so one place in each is enough, however long they are.
/// </summary>
internal sealed class WateringMatch
{
    /// <summary>A remark that somebody opens by hand stands this near to the opening, in seconds.</summary>
    public const int HandWithin = 300;

    private readonly Zone _zone;
    private readonly List<Meant> _meant;
    private readonly List<Actual> _actual;
    private readonly AuditGround _ground;
    private readonly int[] _found;
    private readonly bool[] _isUsed;
    private readonly bool[] _isByHand;
    private readonly Dictionary<int, long?> _joined = [];
    private readonly Dictionary<int, long> _unknown = [];

    /// <param name="zone">The zone.</param>
    /// <param name="meant">What was meant, in order.</param>
    /// <param name="actual">What the log says, in order; none begins before another ends.</param>
    /// <param name="ground">What they are judged by.</param>
    public WateringMatch(Zone zone, List<Meant> meant, List<Actual> actual, AuditGround ground)
    {
        (_zone, _meant, _actual, _ground) = (zone, meant, actual, ground);
        _found = new int[meant.Count];
        Array.Fill(_found, -1);
        _isUsed = new bool[actual.Count];
        _isByHand = [.. actual.Select(IsByHand)];
    }

    private long Tolerance => _ground.Tolerance;

    /// <summary>What became of each that was meant, in order, then what else there was.</summary>
    public IEnumerable<AuditEntry> Judge()
    {
        FindByBeginning();
        FindByTimeInCommon();
        for (var index = 0; index < _meant.Count; index++) yield return Judge(_meant[index], _found[index]);
        for (var index = 0; index < _actual.Count; index++)
        {
            if (_isUsed[index]) continue;
            var (actual, from) = (_actual[index], (long)_actual[index].From);
            var kind = _isByHand[index] ? ClassByVolume(AuditClass.ByHand, index) : AuditClass.Unplanned;
            yield return new AuditEntry(kind, _zone, null, _ground.Clock.At(from).Day, from, 0, from, LengthOf(index), null, actual.Place)
            {
                Volume = VolumeOf(index),
            };
        }
    }

    private void FindByBeginning()
    {
        var next = 0;
        for (var index = 0; index < _meant.Count; index++)
        {
            while (next < _actual.Count && (_isByHand[next] || _actual[next].From < _meant[index].From - Tolerance)) next++;
            if (next < _actual.Count && _actual[next].From <= _meant[index].From + Tolerance) Use(index, next++);
        }
    }

    private void FindByTimeInCommon()
    {
        var next = 0;
        for (var index = 0; index < _meant.Count; index++)
        {
            if (_found[index] >= 0) continue;
            while (next < _actual.Count && (_isUsed[next] || _isByHand[next] || _actual[next].To < _meant[index].From - Tolerance)) next++;
            if (next < _actual.Count && _actual[next].From <= _meant[index].To) Use(index, next++);
        }
    }

    private void Use(int meant, int actual) => (_found[meant], _isUsed[actual]) = (actual, true);

    private bool IsByHand(Actual actual) =>
        string.Equals(actual.Why, "hand", StringComparison.OrdinalIgnoreCase)
        || string.Equals(actual.Why, "manual", StringComparison.OrdinalIgnoreCase)
        || _ground.Knowledge.HasRemark(LogKind.Hand, _zone.Index, actual.From - HandWithin, actual.From + HandWithin);

    private AuditEntry Judge(Meant meant, int found)
    {
        var (from, to) = (meant.From - Tolerance, meant.To + Tolerance);
        var actual = found < 0 ? null : _actual[found];
        var knowledge = _ground.Knowledge;
        AuditEntry Of(AuditClass kind, string? why = null, LogPlace? place = null) => new(
            kind, _zone, meant.Schedule < 0 ? null : _ground.Site.Schedules[meant.Schedule], meant.Day, meant.From, meant.To - meant.From, (long?)actual?.From,
                actual is null ? null : LengthOf(found), why, place ?? actual?.Place)
        {
            Volume = actual is null ? null : VolumeOf(found),
            NotKnownSeconds = actual is null ? 0 : NotKnownOf(found, meant.To),
        };
        if (knowledge.Remark(LogKind.Fault, _zone.Index, from, to) is { } fault) return Of(AuditClass.Fault, fault.Why, fault.Place);
        if (actual is not null) return Of(ClassByVolume(ClassOf(meant, found), found));
        var skip = knowledge.Remark(LogKind.Skip, _zone.Index, from, to) ?? knowledge.Remark(LogKind.Skip, LogEvent.NoZone, meant.PassStart - Tolerance, to);
        if (skip is not null) return Of(AuditClass.Skipped, skip.Why, skip.Place);
        return Of(knowledge.IsKnown(_zone, from, to) ? AuditClass.Missed : AuditClass.NotKnown);
    }

    private AuditClass ClassOf(Meant meant, int found)
    {
        var actual = _actual[found];
        if (TakePieces(meant, found) || actual.End == ActualEnd.Boot) return AuditClass.Interrupted;
        // Where the log ends before it was to close, nothing is wrong with it, as far as anybody knows.
        if (actual.End == ActualEnd.NotSeen) return _ground.Knowledge.Last < meant.To + Tolerance ? AuditClass.NotKnown : AuditClass.CloseNotSeen;
        var (late, longer) = (actual.From - meant.From, actual.Seconds - (meant.To - meant.From));
        if (longer > Tolerance && !_ground.Knowledge.IsKnown(_zone, actual.From, actual.To)) return AuditClass.CloseNotSeen;
        if (Math.Abs(longer) > Tolerance) return longer > 0 ? AuditClass.Long : AuditClass.Short;
        if (Math.Abs(late) > Tolerance) return late > 0 ? AuditClass.Late : AuditClass.Early;
        return AuditClass.Done;
    }

    /// <summary>Whether what began as meant goes on in pieces, whose lengths it then has in sum.</summary>
    private bool TakePieces(Meant meant, int found)
    {
        var (hasPieces, length, unknown) = (false, LengthOf(found), NotKnownOf(found, meant.To));
        for (var index = found + 1; index < _actual.Count && _actual[index].From < meant.To; index++)
        {
            if (_isUsed[index] || _isByHand[index] || _actual[index].From == _actual[found].From) continue;
            _isUsed[index] = hasPieces = true;
            length = length is null ? LengthOf(index) : length + (LengthOf(index) ?? 0);
            unknown += NotKnownOf(index, meant.To);
            _actual[found].Volume.Add(_actual[index].Volume);
        }

        if (hasPieces) (_joined[found], _unknown[found]) = (length, unknown);
        return hasPieces;
    }

    /// <summary>What was switched as it should be may still have had no water, or too little, or too much.</summary>
    private AuditClass ClassByVolume(AuditClass kind, int index)
    {
        if (VolumeOf(index) is not { } volume) return kind;
        var isWhole = kind is AuditClass.Done or AuditClass.Late or AuditClass.Early or AuditClass.ByHand;
        if (volume.Litres <= 0 && (isWhole || kind is AuditClass.Short or AuditClass.Long) && volume.IsWorthWater) return AuditClass.NoWater;
        if (!isWhole || volume.Expected is not { } expected || Math.Abs(volume.Litres - expected) < MeteredWatering.LeastLitres) return kind;
        if (volume.Litres < expected * (1 - _ground.VolumeTolerance)) return AuditClass.TooLittle;
        return volume.Litres > expected * (1 + _ground.VolumeTolerance) ? AuditClass.TooMuch : kind;
    }

    private MeteredWatering? VolumeOf(int index)
    {
        if (LengthOf(index) is not { } length || _actual[index].Volume is not { Litres: { } litres } volume) return null;
        var seconds = volume.SecondsOf(length);
        return new MeteredWatering(litres, seconds, _zone.LitresPerMinute * seconds / 60);
    }

    /// <summary>Of the time that was meant, the seconds in which nobody knows whether the valve was open, because the device started anew after them.</summary>
    private long NotKnownOf(int index, long meantTo)
    {
        if (_unknown.TryGetValue(index, out var joined)) return joined;
        var actual = _actual[index];
        return (long)Math.Max(0, Math.Round(Math.Min(actual.MayBeTo, meantTo) - actual.To, MidpointRounding.AwayFromZero));
    }

    /// <summary>How long the valve was open, in all pieces; null where a closing is not seen.</summary>
    private long? LengthOf(int index)
    {
        if (_joined.TryGetValue(index, out var joined)) return joined;
        return _actual[index].End == ActualEnd.NotSeen ? null : _actual[index].Seconds;
    }
}

/// <summary>What waterings of a log are judged by.</summary>
internal sealed record AuditGround(Site Site, long Tolerance, LogKnowledge Knowledge, ZoneClock Clock, WaterMeter Meter, decimal VolumeTolerance);
