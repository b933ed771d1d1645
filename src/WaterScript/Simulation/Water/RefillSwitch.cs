using WaterScript.Model;

namespace WaterScript.Simulation.Water;

/// <summary>
/// What fills a tank between two levels: it begins in the last whole second in which the tank would not fall below the lower, and ends in the first in
/// which it has the upper. Levels are in what <see cref="TankLevel"/> calculates in: a flow of 1 L/min brings one of it in a second.
/// </summary>
internal sealed class RefillSwitch
{
    private const int WorkOfTurn = 20;

    private readonly decimal _flow;
    private readonly decimal _lower;
    private readonly decimal _upper;
    private readonly SimulationContext _context;
    private bool _isOn;

    private RefillSwitch(decimal flow, decimal lower, decimal upper, SimulationContext context) =>
        (_flow, _lower, _upper, _context) = (flow, lower, upper, context);

    /// <summary>That of a supply, which is off; null where its refill flows at all hours.</summary>
    /// <param name="supply">The supply.</param>
    /// <param name="flow">What it gives while it is on, in L/min.</param>
    /// <param name="context">Counts the work.</param>
    public static RefillSwitch? Of(Supply supply, decimal flow, SimulationContext context) => supply is { RefillFrom: { } from, RefillTo: { } to }
        ? new RefillSwitch(flow, from.InBase * TankLevel.PerLitre, to.InBase * TankLevel.PerLitre, context)
        : null;

    /// <summary>The level is read off anew: it is off, unless that is at or below the lower.</summary>
    public void TurnOff() => _isOn = false;

    /// <summary>What it gives, in L/min.</summary>
    /// <param name="now">In Unix seconds.</param>
    /// <param name="level">The level then.</param>
    /// <param name="others">What else flows in, less what is drawn, in L/min.</param>
    /// <param name="until">The second from which on the others may be other; made earlier where it turns on or off before.</param>
    public decimal At(long now, decimal level, decimal others, ref long until)
    {
        if (level >= _upper) _isOn = false;
        if (level <= _lower || level + others < _lower) _isOn = true;
        var change = _isOn ? _flow + others : others;
        if (_isOn ? change <= 0 : change >= 0) return _isOn ? _flow : 0;
        var seconds = Math.Max(1, _isOn ? Math.Ceiling((_upper - level) / change) : Math.Floor((level - _lower) / -change));
        if (seconds < (decimal)until - now)
        {
            until = now + (long)seconds;
            _context.Spend(WorkOfTurn);
        }

        return _isOn ? _flow : 0;
    }
}
