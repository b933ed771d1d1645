using WaterScript.Text;

namespace WaterScript.Timetables;

/// <summary>Why nothing is left of a pass, so that what starts after it does not run either.</summary>
/// <param name="By">What kind of cause.</param>
/// <param name="Origin">Where the cause is written.</param>
/// <param name="Because">The reason given there, or null.</param>
internal sealed record Silence(SkipCause By, Location Origin, string? Because)
{
    /// <summary>The hold, of a <see cref="SkipCause.Hold"/>: it may name the zones of what starts after, too.</summary>
    public Model.Hold? Hold { get; init; }
}
