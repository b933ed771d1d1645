using WaterScript.Text;

namespace WaterScript.Tests.Linting.BruteForce;

/// <summary>Something that goes wrong once.</summary>
/// <param name="At">Its first second.</param>
/// <param name="Origin">What is broken: a place in the supply, controller, zone, line or schedule.</param>
/// <param name="Other">The other schedule, where there are two.</param>
internal readonly record struct Conflict(long At, Location Origin, Location? Other = null);
