using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Linting.Engine;

/// <summary>Why a question about a site has no answer: how far the work came before its budget was used up, and the schedule that makes most of it.</summary>
internal static class AnswerCut
{
    /// <summary>One sentence without a full stop.</summary>
    /// <param name="site">The site.</param>
    /// <param name="cause">What the answer ended with.</param>
    public static string Words(Site site, WorkUsedUpException cause)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(cause);
        var came = cause.ReachedDay is { } day
            ? $"the work came to {MomentWords.Date(CivilDate.FromDayNumber(day).ToLocalDate())}"
            : "the work came to no date";
        return $"this site needs more work than an answer may take [{ReadingRules.OverLimit.Slug}]: {came}{Most(site, cause)}; "
            + "repeat less often, name nearer dates, or write fewer schedules into one site";
    }

    private static string Most(Site site, WorkUsedUpException cause)
    {
        if (cause.Greatest is not { } most || most.Source >= site.Schedules.Length) return "";
        var schedule = site.Schedules[most.Source];
        var place = TooMuchWork.PlaceIn(schedule);
        return string.Create(CultureInfo.InvariantCulture, $", and {TooMuchWork.Label(schedule, most.Share)} ({place.Source.Path}:{place.Start.Line})");
    }
}
