namespace WaterScript.Timetables;

/// <summary>The place of something in a stream that is in order of time.</summary>
/// <param name="Time">In Unix seconds.</param>
/// <param name="Rank">Orders what comes at one time.</param>
/// <param name="Sequence">Orders what has one rank at one time: first come, first served.</param>
internal readonly record struct StreamOrder(long Time, long Rank, long Sequence) : IComparable<StreamOrder>
{
    public int CompareTo(StreamOrder other)
    {
        if (Time != other.Time) return Time < other.Time ? -1 : 1;
        return Rank != other.Rank ? Rank.CompareTo(other.Rank) : Sequence.CompareTo(other.Sequence);
    }
}
