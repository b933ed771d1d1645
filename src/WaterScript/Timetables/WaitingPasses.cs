namespace WaterScript.Timetables;

/// <summary>
/// Passes that wait until no other can come before them, in order of start. Those of the next date mostly come behind all that wait, and then nothing moves.
/// </summary>
internal sealed class WaitingPasses
{
    private const int LeastRoom = 64;

    private Pass[] _passes = new Pass[LeastRoom];
    private int _front;
    private int _end;

    /// <summary>How many there are.</summary>
    public int Count => _end - _front;

    /// <summary>The first; to be asked only where there is one.</summary>
    public ref readonly Pass First => ref _passes[_front];

    /// <summary>The first leaves.</summary>
    public Pass Take() => _passes[_front++];

    /// <summary>Takes in passes that are in order; of those that start together, what waits already goes first.</summary>
    public void Add(ReadOnlySpan<Pass> later)
    {
        if (_end + later.Length > _passes.Length) MakeRoom(later.Length);
        var (i, place) = (_end - 1, _end + later.Length - 1);
        for (var j = later.Length - 1; j >= 0; place--)
        {
            if (i >= _front && _passes[i].Start > later[j].Start) _passes[place] = _passes[i--];
            else _passes[place] = later[j--];
        }

        _end += later.Length;
    }

    /// <summary>Moves all to the beginning, into a larger array where they are many.</summary>
    private void MakeRoom(int more)
    {
        var count = Count;
        var room = 2 * (count + more) > _passes.Length ? new Pass[Math.Max(LeastRoom, 4 * (count + more))] : _passes;
        Array.Copy(_passes, _front, room, 0, count);
        _passes = room;
        (_front, _end) = (0, count);
    }
}
