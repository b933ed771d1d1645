using WaterScript.Model;

namespace WaterScript.Calendars;

/// <summary>The spans in which a dated or yearly set of days holds.</summary>
internal static class SpansOfDays
{
    /// <summary>
    /// The spans of a <see cref="DateRange"/>, <see cref="YearlyRange"/> or <see cref="YearlySpan"/> that may reach into the days
    /// from <paramref name="first"/> to <paramref name="last"/>, in order. A yearly one that reaches the next year's ends where that begins.
    /// </summary>
    public static IEnumerable<DaySpan> Of(DaySet set, int first, int last)
    {
        if (set is DateRange range)
        {
            yield return new(CivilDate.DayNumberOf(range.First), CivilDate.DayNumberOf(range.Last));
            yield break;
        }

        var lastYear = CivilDate.FromDayNumber(last).Year;
        for (var year = CivilDate.FromDayNumber(first).Year - 1; year <= lastYear; year++)
        {
            var span = InYear(set, year);
            yield return span with { Last = Math.Min(span.Last, InYear(set, year + 1).First - 1) };
        }
    }

    /// <summary>The span that begins in a year.</summary>
    private static DaySpan InYear(DaySet set, int year) => set switch
    {
        YearlyRange range => new(FirstDay(range.First, year), LastDay(range.Last, WrapsOverNewYear(range) ? year + 1 : year)),
        YearlySpan span => FromFirst(FirstDay(span.First, year), span.Length),
        _ => throw new ArgumentException($"no span of days: {set.GetType().Name}", nameof(set)),
    };

    private static DaySpan FromFirst(int first, int length) => new(first, first + length - 1);

    /// <summary>Judged as written, whatever the year: 29 February and <c>last feb</c> count as the same day here.</summary>
    private static bool WrapsOverNewYear(YearlyRange range) => Rank(range.First) > Rank(range.Last);

    /// <summary>2000 is a leap year: its February is as long as one gets.</summary>
    private static int Rank(YearDay day) => (day.Month * 100) + (day.IsLast ? CivilDate.DaysInMonth(2000, day.Month) : day.Day);

    /// <summary>29 February is 1 March in a common year: the arithmetic runs on into the next month.</summary>
    private static int FirstDay(YearDay day, int year) => CivilDate.DayNumberOf(
        year, day.Month, day.IsLast ? CivilDate.DaysInMonth(year, day.Month) : day.Day);

    /// <summary>29 February is 28 February in a common year.</summary>
    private static int LastDay(YearDay day, int year)
    {
        var length = CivilDate.DaysInMonth(year, day.Month);
        return CivilDate.DayNumberOf(year, day.Month, day.IsLast ? length : Math.Min(day.Day, length));
    }
}
