namespace WaterScript.Simulation.Water;

/// <summary>
/// Adds up what the refill of a tank brings on each local date, in what <see cref="TankLevel"/> calculates in. It closes as the tank is full, and then
/// gives what is drawn and the rain does not bring: what runs over is rain.
/// </summary>
/// <param name="context">The site's clock, and who counts the work.</param>
internal sealed class DayRefill(SimulationContext context)
{
    private const int WorkOfDay = 20;

    private readonly Dictionary<int, decimal> _days = [];
    private int _day;
    private long _end = long.MinValue;

    /// <summary>By date, in days since 1970-01-01, in litres.</summary>
    public IEnumerable<(int Day, decimal Litres)> Days =>
        _days.OrderBy(day => day.Key).Select(day => (day.Key, day.Value / TankLevel.PerLitre));

    /// <summary>The second with which the local date of an instant ends. What is added next belongs to that date.</summary>
    public long EndOfDay(long instant)
    {
        if (instant < _end) return _end;
        context.Spend(WorkOfDay);
        _day = context.DayOf(instant);
        return _end = Math.Max(context.WallClock.StartOfDay(_day + 1), instant + 1);
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
        if (brought > 0) _days[_day] = _days.GetValueOrDefault(_day) + brought;
    }
}
