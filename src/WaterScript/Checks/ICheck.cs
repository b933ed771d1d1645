using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>
/// A rule at work on one site. It sees the parts of the timetable that it asks for by implementing one of the interfaces
/// below, while all checks together walk over the horizon once, and then says what it found.
/// </summary>
internal interface ICheck
{
    /// <summary>What it found, one finding for each cause.</summary>
    IEnumerable<Finding> Findings();

    /// <summary>What it could not judge for want of a number, each as a few words: <c>wire drop of herbs (no wire given)</c>.</summary>
    IEnumerable<string> NotChecked() => [];
}

/// <summary>Sees every date of every schedule with a calendar, by date, then in order of the file.</summary>
internal interface ISeesDays : ICheck
{
    /// <summary>Sees the next date of a schedule.</summary>
    void See(in ScheduleDay day);
}

/// <summary>Sees all runs, in their order.</summary>
internal interface ISeesRuns : ICheck, IRunWatch;

/// <summary>Is shown runs as they come.</summary>
internal interface IRunWatch
{
    /// <summary>Whether runs of a zone can matter to it; others are not shown. Asked once, so that what a site does not have costs nothing.</summary>
    bool Wants(Zone zone) => true;

    /// <summary>Sees the next run.</summary>
    void See(in Run run);
}

/// <summary>Sees the openings of all outputs, in their order.</summary>
internal interface ISeesOpenings : ICheck
{
    /// <summary>Whether the site has anything that it looks at.</summary>
    bool WantsAny { get; }

    /// <summary>Sees the next opening.</summary>
    void See(in Opening opening);
}

/// <summary>Sees what each supply is asked for, stretch by stretch.</summary>
internal interface ISeesDemand : ICheck
{
    /// <summary>Whether it looks at a supply; stretches of others are not shown.</summary>
    bool Wants(Supply supply) => true;

    /// <summary>Sees the next stretch of a supply; those of one supply come in order.</summary>
    void See(in Stretch stretch);
}

/// <summary>Sees what the controllers do, in their order.</summary>
internal interface ISeesSwitchings : ICheck
{
    /// <summary>Whether it looks at a controller; what others do is not shown.</summary>
    bool Wants(Controller controller) => true;

    /// <summary>Sees the next switching.</summary>
    void See(in Switching switching);
}
