using WaterScript.Model;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Documents.Timetables;

/// <summary>What the outputs say of a switching, in the forms in which all of them say it. Holds one switching at a time.</summary>
internal sealed class SwitchingFields(Site site, SwitchedOutputs outputs, bool isForDevice)
{
    private readonly SwitchingContract _contract = new(site, isForDevice);
    private UsedOutput? _output;

    /// <summary>The switching.</summary>
    public Switching Switching { get; private set; }

    /// <summary>Its controller.</summary>
    public Controller Controller => site.Controllers[Switching.Controller];

    /// <summary>What is done.</summary>
    public string Do => Switching.IsOpen ? "open" : "close";

    /// <summary>Which way the current flows in the pulse of a latching output; null for another one.</summary>
    public string? Polarity => !_output!.Wired.IsLatching ? null : Switching.IsOpen ? "positive" : "negative";

    /// <summary>Length of that pulse; null where it is not stated.</summary>
    public decimal? PulseMilliseconds => _output!.PulseMilliseconds;

    /// <summary>A device closes the output by itself when it has been on for so long.</summary>
    public long? MaxOnSeconds => _output!.MaxOnSeconds;

    /// <summary>Takes up the next switching.</summary>
    /// <exception cref="SwitchingContractException">It breaks the contract with the device.</exception>
    public void Take(in Switching switching)
    {
        Switching = switching;
        _output = outputs.Of(switching);
        _contract.Admit(switching, _output);
    }

    /// <summary>There is no other.</summary>
    /// <exception cref="SwitchingContractException">Something is left open.</exception>
    public void End() => _contract.End();
}
