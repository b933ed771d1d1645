using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Simulation.Restrictions;

/// <summary>A schedule that breaks a line of a restriction: one cause, however often.</summary>
/// <param name="kind">How.</param>
/// <param name="restriction">The restriction.</param>
/// <param name="line">The line that is broken.</param>
/// <param name="first">What breaks it first.</param>
internal sealed class Breach(BreachKind kind, Restriction restriction, Location line, WateredPiece first)
{
    private readonly SortedSet<int> _zones = [];

    /// <summary>How it is broken.</summary>
    public BreachKind Kind => kind;

    /// <summary>The restriction.</summary>
    public Restriction Restriction => restriction;

    /// <summary>The line that is broken.</summary>
    public Location Line => line;

    /// <summary>The line itself, of a volume; null of all else.</summary>
    public AtMost? Limit { get; init; }

    /// <summary>What breaks it first.</summary>
    public WateredPiece First => first;

    /// <summary>When it does.</summary>
    public OccurrenceCounter OccurrenceCounter { get; } = new();

    /// <summary>Indexes of the zones with which it does, in order of the file.</summary>
    public IReadOnlyCollection<int> Zones => _zones;

    /// <summary>When it first breaks it, in Unix seconds.</summary>
    public long Moment => OccurrenceCounter.First;

    /// <summary>The most that it comes to.</summary>
    public decimal Worst => OccurrenceCounter.Worst;

    /// <summary>Whether it comes to less at other times.</summary>
    public bool IsVaried { get; private set; }

    /// <summary>What is allowed then.</summary>
    public decimal Allowed { get; private set; }

    /// <summary>The date of the pass in which it comes to the most, in days since 1970-01-01.</summary>
    public int WorstDay { get; private set; }

    /// <summary>The zone with which it comes to the most.</summary>
    public int WorstZone { get; private set; }

    /// <summary>Counts one time.</summary>
    public void Add(long moment, in WateredPiece piece)
    {
        OccurrenceCounter.Add(moment, piece.Day);
        _zones.Add(piece.Zone);
    }

    /// <summary>Takes in what it comes to.</summary>
    public void Reach(decimal amount, in WateredPiece piece, decimal allowed)
    {
        _zones.Add(piece.Zone);
        IsVaried |= Worst > 0 && amount != Worst;
        if (OccurrenceCounter.Reach(amount)) (Allowed, WorstDay, WorstZone) = (allowed, piece.PassDay, piece.Zone);
    }
}
