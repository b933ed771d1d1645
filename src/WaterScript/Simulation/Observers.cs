using WaterScript.Model;
using WaterScript.Simulation.Water;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Simulation;

/// <summary>Whoever sees anything of a walk over a timetable, by the interfaces here that it has; in each, data only goes to it.</summary>
internal interface ITimelineObserver;

/// <summary>Sees every date of every schedule with a calendar, by date, then in order of the file.</summary>
internal interface IDayObserver : ITimelineObserver
{
    /// <summary>Sees the next date of a schedule.</summary>
    void Visit(in ScheduleDay day);
}

/// <summary>Is shown runs as they come.</summary>
internal interface IRunObserver : ITimelineObserver
{
    /// <summary>Whether runs of a zone can matter to it; others are not shown. Asked once, so that what a site does not have costs nothing.</summary>
    bool Observes(Zone zone) => true;

    /// <summary>Sees the next run.</summary>
    void Visit(in Run run);
}

/// <summary>Sees the openings of all outputs, in their order.</summary>
internal interface IOpeningObserver : ITimelineObserver
{
    /// <summary>Whether the site has anything that it looks at.</summary>
    bool ObservesAny { get; }

    /// <summary>Sees the next opening.</summary>
    void Visit(in Opening opening);
}

/// <summary>Sees what each supply is asked for, stretch by stretch.</summary>
internal interface IDemandObserver : ITimelineObserver
{
    /// <summary>Whether it looks at a supply; stretches of others are not shown.</summary>
    bool Observes(Supply supply) => true;

    /// <summary>Whether it also looks at stretches in which nothing is drawn, but something runs back.</summary>
    bool ObservesReturns => false;

    /// <summary>Sees the next stretch of a supply; those of one supply come in order.</summary>
    void Visit(in DemandInterval interval);
}

/// <summary>Sees what the controllers do, in their order.</summary>
internal interface ISwitchingObserver : ITimelineObserver
{
    /// <summary>Whether it looks at a controller; what others do is not shown.</summary>
    bool Observes(Controller controller) => true;

    /// <summary>Sees the next switching.</summary>
    void Visit(in Switching switching);
}
