using System.Globalization;
using NodaTime;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>A run as a chart says it.</summary>
/// <param name="Number">Place among the runs of the chart, from 1.</param>
/// <param name="Run">The run.</param>
/// <param name="Zone">Its zone.</param>
/// <param name="Schedule">Its schedule.</param>
/// <param name="Step">The path of its step.</param>
/// <param name="From">Its start, by the clocks of the site.</param>
/// <param name="To">Its end, by the clocks of the site.</param>
/// <param name="Place">Where its step is written.</param>
/// <param name="Source">Number of the step as it is written: all rounds of a repetition are one.</param>
internal sealed record ChartRun(
    int Number, Run Run, Zone Zone, Schedule Schedule, string Step, ZonedDateTime From, ZonedDateTime To, Location Place, int Source)
{
    /// <summary>When it starts: <c>06:00</c>.</summary>
    public string Clock => MomentWords.Time(From.TimeOfDay);

    /// <summary>When it ends: <c>06:15</c>.</summary>
    public string ClockOfEnd => MomentWords.Time(To.TimeOfDay);

    /// <summary>How long it lasts: <c>15 min</c>.</summary>
    public string Length => Phrases.Length(Run.Seconds);

    /// <summary>Water in litres, or null where the flow is not known.</summary>
    public decimal? Litres => Zone.LitresPerMinute * Run.Seconds / 60;

    /// <summary>Which pass of which start: <c>1</c>, or <c>2 of start 3</c> where the schedule has several.</summary>
    public string Pass => Schedule.Starts.Length > 1
        ? string.Create(CultureInfo.InvariantCulture, $"{Run.Pass} of start {Run.StartNumber}")
        : string.Create(CultureInfo.InvariantCulture, $"{Run.Pass}");
}
