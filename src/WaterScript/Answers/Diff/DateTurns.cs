using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Documents.Verdicts;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>On how many dates a schedule waters, and which are lost or gained.</summary>
internal static class DateTurns
{
    /// <summary>Stretches of dates that are worth a word: more are other days of the week.</summary>
    private const int MostStretches = 8;

    /// <summary>Stretches of dates that are named.</summary>
    private const int MostNamed = 2;

    /// <summary>Days between two dates of one stretch; what is further apart lies in two seasons.</summary>
    private const int LongestGap = 31;

    /// <summary>How many dates there were and are; where only some are lost or gained, also which.</summary>
    public static Turn Between(ScheduleWaterings? old, ScheduleWaterings? @new) =>
        new(Turn.Dates, old is { Schedule.IsManual: false } ? Phrases.Count(old.Dates, "date") : "",
            @new is { Schedule.IsManual: false } ? Phrases.Count(@new.Dates, "date") : "")
        {
            Effect = old is { Schedule.IsManual: false } && @new is { Schedule.IsManual: false } ? Effect(old.Days, @new.Days) : "",
        };

    private static string Effect(SeenDays old, SeenDays @new)
    {
        var (lost, gained) = (old.Days.Count(day => !@new.Contains(day)), @new.Days.Count(day => !old.Contains(day)));
        var words = lost > 0 && gained == 0 ? Words(old, @new) : gained > 0 && lost == 0 ? Words(@new, old) : "";
        return words.Length == 0 ? "" : (lost > 0 ? "lost: " : "gained: ") + words;
    }

    /// <summary>The dates that only one has, each stretch of dates that it has one after the other as one.</summary>
    private static string Words(SeenDays all, SeenDays others)
    {
        var stretches = new List<(int First, int Last)>();
        var isOpen = false;
        foreach (var day in all.Days)
        {
            if (others.Contains(day)) isOpen = false;
            else if (isOpen && day - stretches[^1].Last <= LongestGap) stretches[^1] = (stretches[^1].First, day);
            else
            {
                stretches.Add((day, day));
                isOpen = true;
            }
        }

        if (stretches.Count > MostStretches) return "";
        var named = string.Join(", ", stretches.Take(MostNamed).Select(stretch => Words(stretch.First, stretch.Last)));
        return stretches.Count <= MostNamed ? named
            : string.Create(CultureInfo.InvariantCulture, $"{named}, and {stretches.Count - MostNamed} more");
    }

    /// <summary>A stretch, with its year once.</summary>
    private static string Words(int first, int last)
    {
        var (from, to) = (Date(first), Date(last));
        if (first == last) return to;
        return from[^4..] == to[^4..] ? $"{from[..^5]} to {to}" : $"{from} to {to}";
    }

    private static string Date(int day) => VerdictWords.Date(CivilDate.FromDayNumber(day).ToLocalDate());
}
