using NodaTime;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>The runs of a site over a horizon. Nothing is expanded before it is asked for, and nothing is kept.</summary>
public sealed class Timetable
{
    private Timetable(Site site, Horizon horizon)
    {
        Site = site;
        Horizon = horizon;
    }

    /// <summary>The site.</summary>
    public Site Site { get; }

    /// <summary>The dates covered.</summary>
    public Horizon Horizon { get; }

    /// <summary>All schedules with a calendar, over a horizon.</summary>
    public static Timetable Of(Site site, Horizon horizon) => new(site, horizon);

    /// <summary>One pass of a schedule, manual or not, at a moment of the wall clock.</summary>
    public static Timetable OfOnePass(Site site, Schedule schedule, LocalDateTime at) => throw new NotImplementedException();

    /// <summary>The runs, in order of start, then controller, then output, then zone, then schedule; each enumeration expands anew.</summary>
    public IEnumerable<Run> Runs() => throw new NotImplementedException();

    /// <summary>The path of a run's step: <c>3.2</c>, or <c>3#2.1</c> inside a repetition.</summary>
    public string StepPath(in Run run) => throw new NotImplementedException();
}
