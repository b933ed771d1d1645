using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;

namespace WaterScript.Documents.Charts;

/// <summary>The days that a chart shows: each begins at noon and ends at the next, so that a night stays whole.</summary>
/// <param name="First">The date at whose noon it begins.</param>
/// <param name="Days">How many: 1 to <see cref="Diagnostics.Limits.ChartDays"/>, or those of a year.</param>
internal sealed record ChartSpan(LocalDate First, int Days)
{
    private const int Noon = ZoneClock.SecondsInDay / 2;

    /// <summary>So many days from the first noon after which there is water; null where a site has none on the dates that the checks look at.</summary>
    /// <exception cref="WorkUsedUpException">There is too much to look through.</exception>
    public static ChartSpan? FromFirstWater(Site site, int days)
    {
        ArgumentNullException.ThrowIfNull(site);
        foreach (var run in Timetable.Of(site, CheckHorizon.Of(site), new WorkBudget(Limits.CheckWorkOf(site.SourceLength))).Runs())
        {
            var at = new ZoneClock(site.TimeZone).At(run.Start);
            return new ChartSpan(CivilDate.FromDayNumber(at.SecondOfDay < Noon ? at.Day - 1 : at.Day).ToLocalDate(), days);
        }

        return null;
    }

    /// <summary>The dates that it touches.</summary>
    public Horizon Dates => new(First, First.PlusDays(Days + 1));

    /// <summary>The noon of a date, in Unix seconds.</summary>
    internal static long NoonOf(LocalDate date, ZoneClock clock) => clock.Read(CivilDate.DayNumberOf(date), Noon).Instant;
}
