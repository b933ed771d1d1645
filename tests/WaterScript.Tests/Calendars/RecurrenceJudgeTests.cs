using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using FsCheck;
using FsCheck.Fluent;
using Ical.Net.CalendarComponents;
using Ical.Net.DataTypes;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using Xunit;

namespace WaterScript.Tests.Calendars;

/// <summary>
/// Random day patterns, over ten years, against Ical.Net: it expands each day set as rules of RFC 5545, and plain set
/// arithmetic joins what it gives.
/// </summary>
public class RecurrenceJudgeTests
{
    private static readonly LocalDate Effective = new(2026, 1, 1);
    private static readonly int First = CivilDate.DayNumberOf(Effective);
    private static readonly int End = CivilDate.DayNumberOf(2036, 1, 1);

    [SampledProperty(3_000, Arbitrary = [typeof(Recurrences)], Replay = "2026,365", QuietOnSuccess = true)]
    public void DatesAreThoseThatIcalNetGives(Recurrence recurrence)
    {
        var pattern = DayPattern.Of(recurrence.Days, recurrence.Season, recurrence.Except, Effective).NarrowedTo(recurrence.On);
        Assert.Equal(Judge.DatesOf(recurrence), pattern.DueDays(First, End));
    }

    /// <summary>A day pattern.</summary>
    public sealed class Recurrence
    {
        internal Recurrence(ImmutableArray<DaySet> days, Season? season, ImmutableArray<DaySet> except, ImmutableArray<DaySet> on) =>
            (Days, Season, Except, On) = (days, season, except, on);

        internal ImmutableArray<DaySet> Days { get; }

        internal Season? Season { get; }

        internal ImmutableArray<DaySet> Except { get; }

        internal ImmutableArray<DaySet> On { get; }

        public override string ToString() =>
            $"{string.Join(", ", Days)} | {Season?.Span} | except {string.Join(", ", Except)} | on {string.Join(", ", On)}";
    }

    /// <summary>The dates as the outside judge sees them.</summary>
    private static class Judge
    {
        /// <summary>Rules begin two years early, so that a season that has begun before is met; the first date of a rule is not looked at.</summary>
        private static readonly LocalDate Early = new(2023, 12, 31);

        /// <summary>Many patterns share their rules.</summary>
        private static readonly ConcurrentDictionary<(int Start, string Rule, int Before), int[]> Expansions = new();

        public static IEnumerable<int> DatesOf(Recurrence recurrence)
        {
            var seasonRuns = recurrence.Season is { } season ? RunsOf([.. Expand(season.Span, [])]) : null;
            var starts = seasonRuns ?? [(First, End)];
            var due = Union(recurrence.Days, starts);
            if (seasonRuns is not null)
                due.IntersectWith(seasonRuns.SelectMany(run => Enumerable.Range(run.First, run.End - run.First)));
            due.ExceptWith(Union(recurrence.Except, starts));
            if (!recurrence.On.IsEmpty)
                due.IntersectWith(Union(recurrence.On, starts));
            return due.Where(day => day >= First && day < End).Order();
        }

        private static HashSet<int> Union(ImmutableArray<DaySet> sets, List<(int First, int End)> starts) =>
            [.. sets.SelectMany(set => Expand(set, starts))];

        private static IEnumerable<int> Expand(DaySet set, List<(int First, int End)> starts) => set switch
        {
            WeekdayDays weekdays => Rule(Early, $"FREQ=WEEKLY;BYDAY={Names(weekdays.Days)}"),
            OddEvenDays parity => Rule(Early, $"FREQ=MONTHLY;BYMONTHDAY={Numbers(parity.IsOdd ? 1 : 2, 31, 2)}"),
            MonthDays month => Rule(Early, $"FREQ=MONTHLY;BYMONTHDAY={string.Join(',', month.Days)}"),
            LastDayOfMonth => Rule(Early, "FREQ=MONTHLY;BYMONTHDAY=-1"),
            NthWeekday nth => Rule(Early, $"FREQ=MONTHLY;BYDAY={nth.Nth}{Names((Weekdays)(1 << ((int)nth.Day - 1)))}"),
            YearlyDay yearly => Rule(Early, $"FREQ=YEARLY;BYMONTH={yearly.Day.Month};BYMONTHDAY={DayOf(yearly.Day)}"),
            DateRange range => Rule(range.First, $"FREQ=DAILY;UNTIL={range.Last.ToString("uuuuMMdd", CultureInfo.InvariantCulture)}", keepFirst: true),
            YearlyRange range => MonthParts(range).SelectMany(part => Rule(Early, $"FREQ=YEARLY;BYMONTH={part.Month};BYMONTHDAY={part.Days}")),
            YearlySpan span => Rule(Early, $"FREQ=YEARLY;BYMONTH={span.First.Month};BYMONTHDAY={DayOf(span.First)}")
                .SelectMany(first => Rule(DateOf(first), $"FREQ=DAILY;COUNT={span.Length}", keepFirst: true)),
            IntervalDays { On: null } interval => starts.SelectMany(
                run => Rule(DateOf(run.First), $"FREQ=DAILY;INTERVAL={interval.PeriodDays}", keepFirst: true, run.End)),
            IntervalDays { On: { } days } interval => starts.SelectMany(run => Rule(
                DateOf(run.First),
                $"FREQ=WEEKLY;INTERVAL={interval.PeriodDays / 7};BYDAY={Names(days)};WKST={Names(CivilDate.WeekdayOf(run.First))}",
                keepFirst: days.HasFlag(CivilDate.WeekdayOf(run.First)),
                run.End)),
            _ => throw new ArgumentException(set.ToString()),
        };

        /// <summary>The months of a yearly range, each with its days as BYMONTHDAY writes them; the 31st of a shorter month is ignored.</summary>
        private static IEnumerable<(int Month, string Days)> MonthParts(YearlyRange range)
        {
            var (first, last) = (range.First, range.Last);
            if (first.Month == last.Month && (first.IsLast ? 31 : first.Day) <= (last.IsLast ? 31 : last.Day))
            {
                yield return (first.Month, first.IsLast ? "-1" : Numbers(first.Day, last.IsLast ? 31 : last.Day));
                yield break;
            }
            yield return (first.Month, first.IsLast ? "-1" : Numbers(first.Day, 31));
            for (var month = (first.Month % 12) + 1; month != last.Month; month = (month % 12) + 1)
                yield return (month, Numbers(1, 31));
            yield return (last.Month, Numbers(1, last.IsLast ? 31 : last.Day));
        }

        private static IEnumerable<int> Rule(LocalDate start, string rule, bool keepFirst = false, int? end = null)
        {
            var first = CivilDate.DayNumberOf(start);
            var before = Math.Min(end ?? End, End);
            return Expansions.GetOrAdd((first, rule, before), _ => Expand(start, rule, before)).Where(day => keepFirst || day != first);
        }

        private static int[] Expand(LocalDate start, string rule, int before)
        {
            var item = new CalendarEvent
            {
                Start = new CalDateTime(start.Year, start.Month, start.Day),
                RecurrenceRule = new RecurrenceRule(rule),
            };
            return
            [
                .. item.GetOccurrences()
                    .Select(occurrence => occurrence.Period.StartTime)
                    .Select(date => CivilDate.DayNumberOf(date.Year, date.Month, date.Day))
                    .TakeWhile(day => day < before),
            ];
        }

        private static List<(int First, int End)> RunsOf(SortedSet<int> days)
        {
            var runs = new List<(int First, int End)>();
            foreach (var day in days)
            {
                if (runs.Count > 0 && runs[^1].End == day)
                    runs[^1] = (runs[^1].First, day + 1);
                else
                    runs.Add((day, day + 1));
            }
            return runs;
        }

        private static LocalDate DateOf(int day) => new LocalDate(1970, 1, 1).PlusDays(day);

        private static int DayOf(YearDay day) => day.IsLast ? -1 : day.Day;

        private static string Numbers(int first, int last, int step = 1) =>
            string.Join(',', Enumerable.Range(first, last - first + 1).Where(number => (number - first) % step == 0));

        private static string Names(Weekdays days) => string.Join(
            ',', new[] { "MO", "TU", "WE", "TH", "FR", "SA", "SU" }.Where((_, index) => days.HasFlag((Weekdays)(1 << index))));
    }

    /// <summary>Random patterns of every kind.</summary>
    public static class Recurrences
    {
        private static readonly Gen<Weekdays> SomeWeekdays = Gen.Choose(1, (int)Weekdays.All).Select(bits => (Weekdays)bits);

        private static readonly Gen<LocalDate> Dates = Gen.Choose(-400, 3_900).Select(days => Effective.PlusDays(days));

        private static readonly Gen<YearDay> YearDays =
            from month in Gen.Choose(1, 12)
            from day in Gen.Choose(0, CivilDate.DaysInMonth(2000, month))
            select new YearDay(month, day);

        private static readonly Gen<DaySet> DateRanges =
            from first in Dates
            from length in Gen.Choose(1, 500)
            select (DaySet)new DateRange(first, first.PlusDays(length - 1));

        private static readonly Gen<YearlyRange> YearlyRanges =
            from first in YearDays
            from last in YearDays
            select new YearlyRange(first, last);

        private static readonly Gen<DaySet> Intervals = Gen.OneOf(
            Gen.Choose(1, 40).Select(days => (DaySet)new IntervalDays(days, null)),
            from weeks in Gen.Choose(1, 6)
            from days in SomeWeekdays
            select (DaySet)new IntervalDays(7 * weeks, days));

        private static readonly Gen<DaySet> OnDays = Gen.OneOf(
            SomeWeekdays.Select(days => (DaySet)new WeekdayDays(days)),
            Gen.Elements(true, false).Select(isOdd => (DaySet)new OddEvenDays(isOdd)),
            Gen.Choose(1, 31).NonEmptyListOf().Select(days => (DaySet)new MonthDays([.. days.Distinct().Order()])),
            Gen.Constant((DaySet)new LastDayOfMonth()),
            from nth in Gen.Elements(1, 2, 3, 4, -1)
            from day in Gen.Choose(1, 7)
            select (DaySet)new NthWeekday(nth, (IsoDayOfWeek)day),
            YearDays.Select(day => (DaySet)new YearlyDay(day)),
            DateRanges,
            YearlyRanges.Select(range => (DaySet)range));

        /// <summary>A season that never ends has no first day for the judge to count from, and what 29 February stands for is not his to know.</summary>
        private static readonly Gen<Season?> Seasons = Gen.OneOf(
            Gen.Constant((Season?)null),
            DateRanges.Where(range => ((DateRange)range).First >= new LocalDate(2025, 1, 1)).Select(range => (Season?)new Season(range)),
            YearlyRanges.Where(HasAGap).Select(range => (Season?)new Season(range)),
            from first in YearDays
            from length in Gen.Choose(1, 300)
            where first is not (2, 29)
            select (Season?)new Season(new YearlySpan(first, length)));

        private static readonly Gen<ImmutableArray<DaySet>> Unions = Gen.OneOf(
            Gen.Choose(1, 3).SelectMany(count => OnDays.ListOf(count)).Select(sets => sets.ToImmutableArray()),
            Intervals.Select(set => ImmutableArray.Create(set)));

        private static readonly Gen<ImmutableArray<DaySet>> None = Gen.Constant(ImmutableArray<DaySet>.Empty);

        public static Arbitrary<Recurrence> Recurrence() => Arb.From(
            from days in Unions
            from season in Seasons
            from except in Gen.OneOf(None, Unions)
            from narrowing in Gen.OneOf(None, Unions)
            select new Recurrence(days, season, except, narrowing));

        private static bool HasAGap(YearlyRange range)
        {
            var first = NumberOf(range.First);
            var last = NumberOf(range.Last);
            return last >= first ? last - first < 360 : first - last > 5;
        }

        private static int NumberOf(YearDay day) =>
            CivilDate.DayNumberOf(2000, day.Month, day.IsLast ? CivilDate.DaysInMonth(2000, day.Month) : day.Day);
    }
}
