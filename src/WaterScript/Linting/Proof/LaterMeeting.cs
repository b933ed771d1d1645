using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Simulation;
using WaterScript.Wording;

namespace WaterScript.Linting.Proof;

/// <summary>Two passes that meet on a date after the horizon.</summary>
/// <param name="Earlier">The one under way, the first time.</param>
/// <param name="Later">The one that begins meanwhile.</param>
/// <param name="LastDay">The last date of the 400 years on which they do, in days since 1970-01-01; that of the first where it comes after them.</param>
/// <param name="Days">On how many dates of the 400 years.</param>
/// <param name="IsForEver">Whether it comes after the 400 years, which only arithmetic shows.</param>
internal sealed record LaterMeeting(Claim Earlier, Claim Later, int LastDay, int Days, bool IsForEver)
{
    /// <summary>What is found after the horizon is a warning: there is time to fix it.</summary>
    public static Severity Severity => Severity.Warning;

    /// <summary>Indexes of their schedules, in order of the file.</summary>
    public (int First, int Second) Pair => ZoneMeetings.PairOf(Earlier.Run.Schedule, Later.Run.Schedule);

    /// <summary>When they do.</summary>
    public Occurrences Happens(SimulationContext context)
    {
        var first = context.ClockAt(Later.From);
        var last = CivilDate.FromDayNumber(LastDay).ToLocalDate().At(first.TimeOfDay);
        return new Occurrences(first, LocalDateTime.Max(first, last), Days, Days) { Basis = IsForEver ? Basis.ForEver : Basis.WholeCycle };
    }

    /// <summary>What that rests on, as a sentence.</summary>
    public string RestsOn(SimulationContext context) => IsForEver
        ? "Their days are weekdays and intervals, so this holds for ever."
        : $"Calculated for the 400 years from {MomentWords.Date(context.Site.Effective)}, after which the calendar repeats.";
}
