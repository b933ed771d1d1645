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

    /// <summary>What it could not judge for lack of a number, each as a few words: <c>wire drop of herbs (no wire given)</c>.</summary>
    IEnumerable<string> NotChecked() => [];
}
