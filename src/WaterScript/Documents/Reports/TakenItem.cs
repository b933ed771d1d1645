using System.ComponentModel;
using WaterScript.Calendars;
using WaterScript.Documents.Writers;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Documents.Reports;

/// <summary>A watering that is due and does not come, or the part of it that does not.</summary>
[Description("A watering that is due and does not come, or the part of it that does not."), Shape(Of = "taken")]
internal sealed class TakenItem(HeldRun run, Timetable timetable, ZoneClock clock)
{
    [Shape(Of = ShapeAttribute.Moment)]
    public string From => Timestamps.Text(clock, run.Start);

    [Shape(Of = ShapeAttribute.Moment)]
    public string To => Timestamps.Text(clock, run.End);

    [Shape(Of = ShapeAttribute.Name)]
    public string Zone => timetable.Site.Zones[run.Planned.Zone].Name;

    [Shape(Of = ShapeAttribute.Name)]
    public string Schedule => timetable.Site.Schedules[run.Pass.Schedule].Name;

    [Description("The path of its step, as in a timetable.")]
    public string Step => timetable.StepPath(run.Pass.Schedule, run.Planned.Step);

    [Description("Where its step is written.")]
    public PlaceItem StepAt => new(timetable.StepOf(run.Pass.Schedule, run.Planned.Step).Origin);

    [Description("What takes it: a hold, a closed season, a `cut off at` line, or a restriction that is kept to."),
        Shape(Words = ["hold", "closed", "cut", "restriction"])]
    public string By => run.Cause.By switch
    {
        SkipCause.Hold => "hold",
        SkipCause.ClosedSeason => "closed",
        SkipCause.Restriction => "restriction",
        _ => "cut",
    };

    [Description("The reason given there.")]
    public string? Because => run.Cause.Because;

    [Description("Where that is written.")]
    public PlaceItem Place => new(run.Cause.Origin);
}

/// <summary>When the sun rises and sets on a date.</summary>
[Description("When the sun rises and sets on a date."), Shape(Of = "sun")]
internal sealed class SunItem(int day, SunTimes sun, ZoneClock clock)
{
    [Shape(Of = ShapeAttribute.Date)]
    public string Day => Timestamps.DateText(day);

    [Description("Left out where it does not rise."), Shape(Of = ShapeAttribute.Moment)]
    public string? Sunrise => Say(SunEvent.Sunrise);

    [Description("Left out where it does not set."), Shape(Of = ShapeAttribute.Moment)]
    public string? Sunset => Say(SunEvent.Sunset);

    private string? Say(SunEvent what) => sun.EventOn(day, what) is { } instant ? Timestamps.Text(clock, instant) : null;
}
