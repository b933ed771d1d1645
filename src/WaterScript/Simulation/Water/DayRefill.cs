namespace WaterScript.Simulation.Water;

/// <summary>
/// Adds up what the refill of a tank brings on each local date, and before and after each moment that somebody asks for, in what <see cref="TankLevel"/>
/// calculates in. It closes as the tank is full, and then gives what is drawn and the rain does not bring: what runs over is rain.
/// </summary>
/// <param name="context">The site's clock, and who counts the work.</param>
/// <param name="moments">The moments, in order, in Unix seconds.</param>
internal sealed class DayRefill(SimulationContext context, long[] moments)
{
    private const int WorkOfDay = 20;

    private readonly List<(long From, int Day, decimal Sixtieths)> _pieces = [];
    private (long From, int Day) _piece;
    private bool _isCounted;
    private long _end = long.MinValue;

    /// <summary>Stretches in which it brings anything, none over a midnight or one of the moments: where they begin, their date, and litres.</summary>
    public IEnumerable<(long From, int Day, decimal Litres)> Pieces => _pieces.Select(piece => (piece.From, piece.Day, piece.Sixtieths / TankLevel.PerLitre));

    /// <summary>The second with which the local date of an instant ends, or a moment comes. What is added next belongs before that.</summary>
    public long EndOfPiece(long instant)
    {
        if (instant < _end) return _end;
        context.Spend(WorkOfDay);
        _piece = (instant, context.DayOf(instant));
        _isCounted = false;
        var next = Array.BinarySearch(moments, instant + 1);
        var moment = next >= 0 ? moments[next] : ~next < moments.Length ? moments[~next] : long.MaxValue;
        return _end = Math.Min(moment, Math.Max(context.WallClock.StartOfDay(_piece.Day + 1), instant + 1));
    }

    /// <summary>Adds what it brings in some seconds of one date.</summary>
    /// <param name="refill">What it gives while it is open, in L/min.</param>
    /// <param name="others">What else flows in, less what is drawn, in L/min.</param>
    /// <param name="room">What the tank lacks at first.</param>
    /// <param name="seconds">How many seconds.</param>
    public void Add(decimal refill, decimal others, decimal room, long seconds)
    {
        if (refill <= 0 || seconds <= 0) return;
        var brought = (refill + others) * seconds <= room ? refill * seconds
            : others <= 0 ? room - (others * seconds)
            : refill * room / (refill + others);
        if (brought <= 0) return;
        var before = _isCounted ? _pieces[^1].Sixtieths : 0;
        if (_isCounted) _pieces.RemoveAt(_pieces.Count - 1);
        _pieces.Add((_piece.From, _piece.Day, before + brought));
        _isCounted = true;
    }
}
