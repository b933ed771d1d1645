namespace WaterScript.Simulation;

/// <summary>What one open output adds to a sum.</summary>
/// <param name="Origin">Who asked for it.</param>
/// <param name="Zone">Index among the site's zones; -1 for a device.</param>
/// <param name="Device">Index among the site's devices; -1 for a zone.</param>
/// <param name="Amount">What it adds, in the unit of the sum.</param>
internal readonly record struct Contribution(StepOrigin Origin, int Zone, int Device, decimal Amount);
