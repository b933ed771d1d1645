namespace WaterScript.Simulation;

/// <summary>What one open output adds to a sum.</summary>
/// <param name="Origin">Who asked for it.</param>
/// <param name="Zone">Index among the site's zones; -1 for a device.</param>
/// <param name="Device">Index among the site's devices; -1 for a zone, and with a zone of -1 for the recharge of a capacitor.</param>
/// <param name="Amount">What it adds, in the unit of the sum.</param>
internal readonly record struct Contribution(StepOrigin Origin, int Zone, int Device, decimal Amount)
{
    /// <summary>Whether it is the pulse that closes a valve.</summary>
    public bool IsClosing { get; init; }

    /// <summary>Whether it is the recharge of a capacitor.</summary>
    public bool IsRecharge => Zone < 0 && Device < 0;
}
