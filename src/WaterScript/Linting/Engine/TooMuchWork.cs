using System.Globalization;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Linting.Engine;

/// <summary>Says that a site is too large to look at all of its dates, how far the check came, and what makes it so large.</summary>
internal static class TooMuchWork
{
    private const double LeastShare = 0.01;

    /// <summary>The finding.</summary>
    /// <param name="site">The site.</param>
    /// <param name="asked">The dates to look at.</param>
    /// <param name="checkedDates">Those that were looked at; may be none.</param>
    /// <param name="greatest">The schedule that made most of the work, and its share; null where that is not known.</param>
    public static Finding FindingFor(Site site, Horizon asked, Horizon checkedDates, (int Source, double Share)? greatest)
    {
        var isNone = checkedDates.Until <= checkedDates.From;
        var schedule = greatest is { } most && most.Source < site.Schedules.Length ? site.Schedules[most.Source] : null;
        return Finding.At(
            ReadingRules.OverLimit,
            schedule is null ? site.Origin : PlaceIn(schedule),
            isNone
                ? "no date can be checked: one is more than the limit of work"
                : $"the check ends after {MomentWords.Date(checkedDates.Until.PlusDays(-1))}, at its limit of work",
            schedule is null ? "" : Label(schedule, greatest!.Value.Share)) with
        {
            Details = $"Nothing was checked from {MomentWords.Date(checkedDates.Until)} on; a check of all dates goes to " +
                $"{MomentWords.Date(asked.Until.PlusDays(-1))}.",
            Help = "Repeat less often, name nearer dates, or write fewer schedules into one site.",
        };
    }

    /// <summary>What a schedule has to do with it.</summary>
    public static string Label(Schedule schedule, double share) => share < LeastShare
        ? $"schedule {schedule.Name} makes most of the work"
        : string.Create(CultureInfo.InvariantCulture, $"schedule {schedule.Name} makes {share:P0} of the work");

    /// <summary>The statement that multiplies most: the repeat of the passes, or one in the steps.</summary>
    public static Location PlaceIn(Schedule schedule)
    {
        var (origin, times) = (schedule.Origin, 1L);
        if (schedule.Repeat is { } repeat) (origin, times) = (repeat.Origin, PassesOf(repeat));
        foreach (var step in All(schedule.Steps).OfType<RepeatStep>())
        {
            if (step.Times > times) (origin, times) = (step.Origin, step.Times);
        }

        return origin;
    }

    private static long PassesOf(Repeat repeat) =>
        repeat is RepeatTimes times ? times.Passes : NodaConstants.SecondsPerDay / Math.Max(1, (long)repeat.Every.TotalSeconds);

    private static IEnumerable<Step> All(IEnumerable<Step> steps) =>
        steps.SelectMany(step => step is RepeatStep repeat ? All(repeat.Steps).Prepend(step) : [step]);
}
