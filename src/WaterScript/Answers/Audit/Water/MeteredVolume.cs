namespace WaterScript.Answers.Audit.Water;

/// <summary>What meters have of one watering, as far as the log was read.</summary>
internal sealed class MeteredVolume
{
    private decimal? _own;
    private decimal? _shared;
    private decimal _seconds;

    /// <summary>Whether the log says itself what the watering took.</summary>
    public bool IsOwn => _own is not null;

    /// <summary>Litres, by the row of the watering, else by the meter of all; null where neither says.</summary>
    public decimal? Litres => _own ?? _shared;

    /// <summary>Takes in what a row of the watering says that it took.</summary>
    public void AddOwn(decimal litres) => _own = (_own ?? 0) + litres;

    /// <summary>Takes in its share of what a meter of all went on by.</summary>
    /// <param name="litres">The share.</param>
    /// <param name="seconds">How long the valve was open meanwhile.</param>
    public void AddShare(decimal litres, decimal seconds) => (_shared, _seconds) = ((_shared ?? 0) + litres, _seconds + seconds);

    /// <summary>Seconds of a watering of a length that the litres are of.</summary>
    public decimal SecondsOf(decimal length) => IsOwn ? length : _seconds;

    /// <summary>Takes in what another has, of a later piece of the same watering.</summary>
    public void Add(MeteredVolume other)
    {
        if (other._own is { } own) AddOwn(own);
        if (other._shared is { } shared) AddShare(shared, other._seconds);
    }
}
