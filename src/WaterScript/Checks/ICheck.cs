using WaterScript.Diagnostics;

namespace WaterScript.Checks;

/// <summary>A rule about what a site would do, in a file of its own.</summary>
internal interface ICheck
{
    /// <summary>What it finds, one finding for each cause.</summary>
    IEnumerable<Finding> Find(ScheduleSurvey survey);
}
