using System.Collections.Immutable;
using WaterScript.Calendars;

namespace WaterScript.Documents.ICalendar;

/// <summary>
/// Says days by rules. What a candidate would give is worked out day by day and compared with the days that are due, so that a rule
/// that is kept gives these days, its exceptions, and nothing else; what no rule says well is left over.
/// </summary>
/// <param name="candidates">Guesses.</param>
/// <param name="isTouched">Whether a clock change would touch an event on a day: no rule may ever give one.</param>
/// <param name="isSkipped">
/// Whether a clock change skips or repeats the time of the start on a day. Many readers go from day to day and stay an hour off after such a day, also
/// where it is not due; so no series may go on over one.
/// </param>
/// <param name="way">How they are said.</param>
internal sealed class SeriesFinder(RuleCandidates candidates, Func<int, bool> isTouched, Func<int, bool> isSkipped, RuleWay way)
{
    /// <summary>Fewer events than this are not worth a rule.</summary>
    private const int FewestEvents = 3;

    /// <summary>More days taken out one after the other are a reason to begin anew.</summary>
    private const int MostExceptInARow = 31;

    private int Fewest => way.IsForAny ? 1 : FewestEvents;

    /// <summary>A day taken out is worse than one given is good, so that odd days are not said as every day without the even ones.</summary>
    private const int WeightOfExcept = 2;

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
        if (days.Length < Fewest) return null;
        foreach (var rule in candidates.For(days, way))
        {
            if (Follow(rule, days) is var (series, score) && (best is null || score > bestScore || (score == bestScore && IsPlainer(rule, best.Rule))))
                (best, bestScore) = (series, score);
        }

        return best;
    }

    /// <summary>Of rules that say the same, one of days or weeks is understood by more calendar apps.</summary>
    private bool IsPlainer(RecurrenceRule rule, RecurrenceRule other) =>
        way.PrefersMonths && (rule.Months != 0) != (other.Months != 0) ? rule.Months != 0 :
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
                if (given - (WeightOfExcept * except.Count) <= score) continue;
                (last, score, bestGiven, exceptUpToLast) = (day, given - (WeightOfExcept * except.Count), given, except.Count);
            }
            else
            {
                except.Add(day);
                if (++inARow > MostExceptInARow || except.Count > given) break;
            }
        }

        if (bestGiven < Fewest) return null;
        except.Count = exceptUpToLast;
        return (new Series(rule, first, last, except.ToImmutable()), score);
    }

    /// <summary>
    /// The last day that a series may say, before a clock change touches one of its days or skips its time. Some readers expand a week from its
    /// beginning, and a month or a year as a whole, also what of it lies outside of the series, and then lose their way; so a weekly series does not
    /// begin after such a day in its week, and one of months or years has no month or year that holds one.
    /// </summary>
    private int EndOf(RecurrenceRule rule, int first, int last)
    {
        var end = rule.Frequency is RuleFrequency.Monthly or RuleFrequency.Yearly ? EndOfStretch(rule.Frequency, last) : last;
        var from = rule.Frequency == RuleFrequency.Weekly ? rule.WeekOf(first) : StartOfStretch(rule.Frequency, first);
        for (var day = from; day <= end; day++)
        {
            if (!isSkipped(day) && !(rule.Contains(day, first) && isTouched(day))) continue;
            if (rule.IsInMonths(day)) return Math.Min(last, StartOfStretch(rule.Frequency, day) - 1);
            if (day >= first) return Math.Min(last, day - 1);
        }

        return last;
    }

    /// <summary>The first of the days that some readers expand together with one.</summary>
    private static int StartOfStretch(RuleFrequency frequency, int day)
    {
        var (year, month, _) = CivilDate.FromDayNumber(day);
        return frequency switch
        {
            RuleFrequency.Monthly => CivilDate.DayNumberOf(year, month, 1),
            RuleFrequency.Yearly => CivilDate.DayNumberOf(year, 1, 1),
            _ => day,
        };
    }

    private static int EndOfStretch(RuleFrequency frequency, int day)
    {
        const int LongerThanMonth = 31, LongerThanYear = 366;
        var start = StartOfStretch(frequency, day);
        return StartOfStretch(frequency, start + (frequency == RuleFrequency.Monthly ? LongerThanMonth : LongerThanYear)) - 1;
    }
}
