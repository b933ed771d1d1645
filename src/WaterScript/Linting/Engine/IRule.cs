using WaterScript.Diagnostics;

namespace WaterScript.Linting.Engine;

/// <summary>
/// A rule at work on one site. It sees the parts of the timetable that it asks for by implementing interfaces of
/// observers, while all checks together walk over the horizon once, and then says what it found.
/// </summary>
internal interface IRule
{
    /// <summary>What it found, one finding for each cause.</summary>
    IEnumerable<Finding> Findings();

    /// <summary>What it could not judge, as a rule for lack of a number.</summary>
    IEnumerable<Gap> NotChecked() => [];
}
