namespace WaterScript.Timetables;

/// <summary>
/// A queue for what comes nearly in order: each finds its place from the back, mostly at once, and leaves at the front.
/// </summary>
internal sealed class MostlySortedQueue<T>
{
    private const int LeastRoom = 16;

    private (StreamOrder Order, T Item)[] _entries = new (StreamOrder, T)[LeastRoom];
    private int _front;
    private int _end;

    /// <summary>How many are in it.</summary>
    public int Count => _end - _front;

    /// <summary>The first; to be asked only where there is one.</summary>
    public ref readonly T First => ref _entries[_front].Item;

    /// <summary>The place of the first.</summary>
    public ref readonly StreamOrder FirstOrder => ref _entries[_front].Order;

    /// <summary>Puts one in its place, behind those of the same order.</summary>
    public void Add(in T item, StreamOrder order)
    {
        if (_end == _entries.Length) MakeRoom();
        var place = _end++;
        for (; place > _front && order.CompareTo(_entries[place - 1].Order) < 0; place--) _entries[place] = _entries[place - 1];
        _entries[place] = (order, item);
    }

    /// <summary>The first leaves.</summary>
    public void RemoveFirst() => _entries[_front++] = default;

    /// <summary>Moves all to the beginning, where those that left have made room; where they are few, into a larger array.</summary>
    private void MakeRoom()
    {
        var count = Count;
        var room = count > _entries.Length / 2 ? new (StreamOrder, T)[2 * _entries.Length] : _entries;
        Array.Copy(_entries, _front, room, 0, count);
        if (room == _entries) Array.Clear(_entries, count, _end - count);
        _entries = room;
        (_front, _end) = (0, count);
    }
}
