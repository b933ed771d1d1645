using System.Collections.Immutable;
using WaterScript.Calendars;

namespace WaterScript.Documents.ICalendar;

/// <summary>
/// Says days by rules. What a candidate would give is worked out day by day and compared with the days that are due, so that a rule
/// that is kept gives these days, its exceptions, and nothing else; what no rule says well is left over.
/// </summary>
/// <param name="candidates">Guesses.</param>
/// <param name="isTouched">Whether a clock change would touch an event on a day: no rule may ever give one.</param>
/// <param name="prefersMonths">Whether of rules that say the same one that names its months is better, because it may go on.</param>
internal sealed class SeriesFinder(RuleCandidates candidates, Func<int, bool> isTouched, bool prefersMonths)
{
    /// <summary>Fewer events than this are not worth a rule.</summary>
    private const int FewestEvents = 3;

    /// <summary>More days taken out one after the other are a reason to begin anew.</summary>
    private const int MostExceptInARow = 31;

    /// <summary>The series, in order of their first days, and the days left over.</summary>
    /// <param name="days">Local dates without one that is touched, in order.</param>
    /// <param name="leftOver">Days that no series says.</param>
    public List<Series> Find(ImmutableArray<int> days, out List<int> leftOver)
    {
        var found = new List<Series>();
        leftOver = [];
        while (!days.IsEmpty)
        {
            if (Best(days) is not { } best)
            {
                leftOver.Add(days[0]);
                days = days.RemoveAt(0);
                continue;
            }

            found.Add(best);
            days = [.. days.Where(day => !Says(best, day))];
        }

        return found;
    }

    private static bool Says(Series series, int day) =>
        day <= series.Last && series.Rule.Contains(day, series.First) && series.Except.BinarySearch(day) < 0;

    private Series? Best(ImmutableArray<int> days)
    {
        Series? best = null;
        var bestScore = 0;
        if (days.Length < FewestEvents) return null;
        foreach (var rule in candidates.For(days))
        {
            if (Follow(rule, days) is var (series, score) && (best is null || score > bestScore || (score == bestScore && IsPlainer(rule, best.Rule))))
                (best, bestScore) = (series, score);
        }

        return best;
    }

    /// <summary>Of rules that say the same, one of days or weeks is understood by more calendar apps.</summary>
    private bool IsPlainer(RecurrenceRule rule, RecurrenceRule other) =>
        prefersMonths && (rule.Months != 0) != (other.Months != 0) ? rule.Months != 0 :
        rule.Frequency != other.Frequency ? rule.Frequency < other.Frequency : rule.Interval < other.Interval;

    /// <summary>Goes through the days of a rule, and ends it where it says most: days given, less days taken out.</summary>
    private (Series Series, int Score)? Follow(RecurrenceRule rule, ImmutableArray<int> days)
    {
        var (first, last) = (days[0], days[0]);
        var (given, next, inARow, score, bestGiven, exceptUpToLast) = (0, 0, 0, 0, 0, 0);
        var except = ImmutableArray.CreateBuilder<int>();
        var end = EndOf(rule, first, days[^1]);
        for (var day = first; day <= end; day++)
        {
            while (days[next] < day) next++;
            if (!rule.Contains(day, first)) continue;
            if (days[next] == day)
            {
                given++;
                inARow = 0;
                if (given - except.Count <= score) continue;
                (last, score, bestGiven, exceptUpToLast) = (day, given - except.Count, given, except.Count);
            }
            else
            {
                except.Add(day);
                if (++inARow > MostExceptInARow || except.Count > given) break;
            }
        }

        if (bestGiven < FewestEvents) return null;
        except.Count = exceptUpToLast;
        return (new Series(rule, first, last, except.ToImmutable()), score);
    }

    /// <summary>
    /// The last day that a series may say, before a clock change touches one of its days. Some readers expand a month as a whole, also
    /// what of it lies after the end of the series, and then lose their way; so a monthly series ends before that month.
    /// </summary>
    private int EndOf(RecurrenceRule rule, int first, int last)
    {
        var isMonthly = rule.Frequency == RuleFrequency.Monthly;
        var end = isMonthly ? FirstOfMonth(last, monthsAfter: 1) - 1 : last;
        for (var day = isMonthly ? FirstOfMonth(first) : first; day <= end; day++)
        {
            if (rule.Contains(day, first) && isTouched(day)) return Math.Min(last, (isMonthly ? FirstOfMonth(day) : day) - 1);
        }

        return last;
    }

    private static int FirstOfMonth(int day, int monthsAfter = 0)
    {
        var (year, month, _) = CivilDate.FromDayNumber(day);
        var months = (year * 12) + month - 1 + monthsAfter;
        return CivilDate.DayNumberOf(months / 12, (months % 12) + 1, 1);
    }
}
