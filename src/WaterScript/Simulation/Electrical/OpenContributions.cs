using WaterScript.Timetables.Switchings;

namespace WaterScript.Simulation.Electrical;

/// <summary>The outputs that a controller has on, with what each adds to a sum.</summary>
internal sealed class OpenContributions
{
    private readonly List<long> _openings = [];

    /// <summary>What is on.</summary>
    public List<Contribution> Contributions { get; } = [];

    /// <summary>The latest switching: since then nothing has changed.</summary>
    public Switching Since { get; set; }

    /// <summary>The sum of what is on.</summary>
    public decimal Sum { get; private set; }

    /// <summary>An output goes on.</summary>
    public void Open(in Switching switching, in Contribution contribution)
    {
        _openings.Add(switching.Opening);
        Contributions.Add(contribution);
        Sum += contribution.Amount;
    }

    /// <summary>An output goes off.</summary>
    public void Close(in Switching switching)
    {
        var index = _openings.IndexOf(switching.Opening);
        if (index < 0) return;
        Sum -= Contributions[index].Amount;
        _openings.RemoveAt(index);
        Contributions.RemoveAt(index);
    }
}
