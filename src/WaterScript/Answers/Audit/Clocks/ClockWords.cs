using System.Globalization;
using WaterScript.Wording;

namespace WaterScript.Answers.Audit.Clocks;

/// <summary>How a report says that the clock of a log is off.</summary>
internal static class ClockWords
{
    /// <summary>What is wrong, then what was measured each week where that differs.</summary>
    public static IEnumerable<string> Of(LogClock clock, SiteWords words)
    {
        if (clock.Season != 0)
            yield return clock.IsSummerOff ? "the log is kept in winter time: 1 h behind in summer" : "the log is kept in summer time: 1 h ahead in winter";
        if (clock.IsStepped) yield return "the clock of the log was set meanwhile";
        else if (clock.PerWeek != 0)
            yield return $"the clock of the log {(clock.PerWeek > 0 ? "gains" : "loses")} {Phrases.Length((long)Math.Round(Math.Abs(clock.PerWeek)))} a week";
        else if (Math.Round(clock.Base) != 0) yield return $"the clock of the log is {Ahead(clock.Base)}";
        if (clock.IsStepped || clock.PerWeek != 0)
        {
            foreach (var week in clock.Weeks.Take(AuditReport.MostListed))
                yield return string.Create(CultureInfo.InvariantCulture, $"from {words.Moment((long)week.From)}: {Ahead(week.Ahead)}");
        }

        yield return "all times here are corrected by that";
    }

    private static string Ahead(decimal seconds) =>
        Math.Round(seconds) == 0 ? "right" : $"{Phrases.Length((long)Math.Round(Math.Abs(seconds)))} {(seconds > 0 ? "ahead" : "behind")}";
}
