using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Simulation.Water;

/// <summary>How long each zone with plants is watered on each date. Of others nothing is kept: no rule can say what they need.</summary>
internal sealed class PlantWater(Site site) : IRunObserver
{
    private readonly WaterLedger _ledger = new(site);

    /// <inheritdoc/>
    public bool Observes(Zone zone) => zone.Plants is not null;

    /// <inheritdoc/>
    public void Visit(in Run run) => _ledger.Add(run);

    /// <summary>The dates on which a zone is watered, in order.</summary>
    public IReadOnlyList<WateredDay> DaysOf(Zone zone) => _ledger.DaysOf(zone);

    /// <summary>The first run of a zone, or null.</summary>
    public Run? FirstOf(Zone zone) => _ledger.FirstOf(zone);
}
