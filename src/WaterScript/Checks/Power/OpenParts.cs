using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>The outputs that a controller has on, with what each adds to a sum.</summary>
internal sealed class OpenParts
{
    private readonly List<long> _openings = [];

    /// <summary>What is on.</summary>
    public List<Part> Parts { get; } = [];

    /// <summary>The latest switching: since then nothing has changed.</summary>
    public Switching Since { get; set; }

    /// <summary>The sum of what is on.</summary>
    public decimal Sum { get; private set; }

    /// <summary>An output goes on.</summary>
    public void Open(in Switching switching, in Part part)
    {
        _openings.Add(switching.Opening);
        Parts.Add(part);
        Sum += part.Amount;
    }

    /// <summary>An output goes off.</summary>
    public void Close(in Switching switching)
    {
        var index = _openings.IndexOf(switching.Opening);
        if (index < 0) return;
        Sum -= Parts[index].Amount;
        _openings.RemoveAt(index);
        Parts.RemoveAt(index);
    }
}
