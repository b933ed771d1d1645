using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Simulation.Water;

/// <summary>
/// The level of a tank while zones draw from it and water flows in, calculated in sixtieths of a litre: what a flow of 1 L/min
/// brings in a second, so that nothing has to be rounded.
/// </summary>
internal sealed class TankLevel
{
    /// <summary>Of what it is calculated in, to the litre.</summary>
    public const int PerLitre = 60;

    private readonly TankInflow _inflow;
    private readonly RefillSwitch? _refill;
    private readonly Action<long, decimal>? _corner;
    private readonly DayRefill? _refilled;
    private long _now = long.MinValue;
    private long? _reading;

    private TankLevel(SimulationContext context, Supply supply, Action<long, decimal>? corner, DayRefill? refilled)
    {
        Supply = supply;
        (_inflow, _corner, _refilled) = (new TankInflow(supply, context), corner, refilled);
        _refill = RefillSwitch.Of(supply, _inflow.Refill, context);
        _reading = context.Manual is null ? ReadingOf(context.Site, supply) : null;
        Full = Level = supply.Tank!.Value.InBase * PerLitre;
        Least = (supply.Reserve?.InBase ?? 0) * PerLitre;
    }

    /// <summary>The supply with the tank.</summary>
    public Supply Supply { get; }

    /// <summary>When it is full.</summary>
    public decimal Full { get; }

    /// <summary>The reserve, under which it must not fall.</summary>
    public decimal Least { get; }

    /// <summary>The level.</summary>
    public decimal Level { get; private set; }

    /// <summary>Since when zones draw without a break, in Unix seconds.</summary>
    public long DrawnSince { get; private set; }

    /// <summary>Whether the date on which its level is known has been reached.</summary>
    public bool IsRead { get; private set; }

    /// <summary>The level of a supply's tank, full at first; null without a tank, or where it cannot be followed.</summary>
    /// <param name="context">The site, and the dates that are looked at.</param>
    /// <param name="supply">One of its supplies.</param>
    /// <param name="corner">Called with the moments between which the level changes evenly, in order; two of one moment where it jumps.</param>
    /// <param name="refilled">Adds up what the refill brings; null where nobody asks.</param>
    public static TankLevel? Of(SimulationContext context, Supply supply, Action<long, decimal>? corner = null, DayRefill? refilled = null) =>
        supply.Tank is null || FillsAnother(context.Site, supply) || TankInflow.LacksFor(supply, context.Site) is not null
            ? null
            : new TankLevel(context, supply, corner, refilled);

    /// <summary>Whether another tank is fed from it, so that its level cannot be followed.</summary>
    public static bool FillsAnother(Site site, Supply supply) =>
        site.Supplies.Any(other => other.Tank is not null && Demand.Above(other.FedBy).Contains(supply));

    /// <summary>Zones draw; until then nobody has.</summary>
    /// <returns>
    /// The parts in which as much flows in, as they are gone through: the level at the beginning of each, and what it would be at its end if
    /// the tank had no bottom.
    /// </returns>
    public IEnumerable<(DemandInterval Part, decimal Before, decimal After)> Draw(DemandInterval interval)
    {
        RestUntil(interval.From);
        while (_now < interval.To)
        {
            if (_reading <= _now) Read();
            var (rain, refill) = InflowAt(interval.Flow - interval.Returned, out var until);
            if (_reading is { } reading) until = Math.Min(until, reading);
            var others = rain + interval.Returned;
            var part = interval with { From = _now, To = Math.Min(until, interval.To) };
            var before = Level;
            var after = before + ((others + refill - part.Flow) * part.Seconds);
            _refilled?.Add(refill, others - part.Flow, Full - before, part.Seconds);
            MoveTo(Math.Clamp(after, Math.Min(before, Least), Full), after - before, part.To);
            yield return (part, before, after);
        }

        // Zones that only give back do not draw.
        if (interval.Contributions.Count == 0) DrawnSince = 0;
    }

    /// <summary>Nothing is drawn until then: the tank fills up. A known level counts from its date on.</summary>
    public void RestUntil(long until)
    {
        if (_now == long.MinValue) Begin(Math.Min(until, _reading ?? until));
        if (_reading is { } reading && reading <= until)
        {
            FillUntil(reading);
            Read();
        }

        if (until > _now || DrawnSince == 0) DrawnSince = until;
        FillUntil(until);
    }

    /// <summary>What flows in now, but for what zones give back, in L/min, and the second from which on that may be another.</summary>
    private (decimal Rain, decimal Refill) InflowAt(decimal drawn, out long until)
    {
        var rain = _inflow.RainAt(_now, out until);
        if (_refilled is not null) until = Math.Min(until, _refilled.EndOfPiece(_now));
        return (rain, _refill is null ? _inflow.Refill : _refill.At(_now, Level, rain - drawn, ref until));
    }

    private void Begin(long at)
    {
        _now = at;
        _corner?.Invoke(at, Level);
    }

    private void FillUntil(long until)
    {
        while (_now < until)
        {
            var (rain, refill) = InflowAt(drawn: 0, out var next);
            var to = Math.Min(next, until);
            var change = (rain + refill) * (to - _now);
            _refilled?.Add(refill, rain, Full - Level, to - _now);
            MoveTo(Math.Min(Full, Level + change), change, to);
        }
    }

    /// <summary>Goes to a level; where the change would lead further, the level stays from when it is reached.</summary>
    private void MoveTo(decimal level, decimal change, long until)
    {
        if (_corner is not null && change != 0 && Math.Abs(level - Level) < Math.Abs(change))
            _corner(_now + (long)((until - _now) * (level - Level) / change), level);
        (Level, _now) = (level, until);
        _corner?.Invoke(until, level);
    }

    private void Read()
    {
        Level = Supply.Contains!.Value.InBase * PerLitre;
        (_reading, IsRead) = (null, true);
        _refill?.TurnOff();
        _corner?.Invoke(_now, Level);
    }

    /// <summary>The start of the date on which the level is known, in Unix seconds.</summary>
    private static long? ReadingOf(Site site, Supply supply) => supply.ContainsOn is { } date
        ? site.TimeZone.AtStartOfDay(date).ToInstant().ToUnixTimeSeconds()
        : null;
}
