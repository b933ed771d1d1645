using System.Collections.Immutable;
using WaterScript.Calendars;

namespace WaterScript.Documents.ICalendar;

/// <summary>Local dates on which events of one form start, without one that is touched by a clock change, in order.</summary>
/// <param name="Form">What the events have in common.</param>
/// <param name="Days">The dates, at least one.</param>
internal sealed record FormDays(EventForm Form, ImmutableArray<int> Days);

/// <summary>The same said by rules.</summary>
/// <param name="Form">What the events have in common.</param>
/// <param name="Series">The series.</param>
/// <param name="LeftOver">Dates that no series says.</param>
internal sealed record SaidDays(EventForm Form, ImmutableArray<Series> Series, ImmutableHashSet<int> LeftOver);

/// <summary>
/// Lets series go on after a horizon: all those of a pass or none, and only where together they then say each of its dates for
/// ever, nothing else, and no clock change ever touches one.
/// </summary>
/// <param name="steady">The dates after the horizon.</param>
/// <param name="occasions">What the events show.</param>
/// <param name="zone">The site's time zone.</param>
/// <param name="passSeconds">How long a pass of a date lasts, pauses included.</param>
internal sealed class EndlessSeries(SteadyDays steady, Occasions occasions, CalendarZone zone, Func<int, long> passSeconds)
{
    /// <summary>The days of all forms of one pass.</summary>
    /// <param name="forms">The forms.</param>
    /// <param name="say">Says the days of one in a way.</param>
    /// <returns>Null where they cannot go on.</returns>
    public List<SaidDays>? Of(IReadOnlyList<FormDays> forms, Func<FormDays, RuleWay, SaidDays> say)
    {
        var said = new List<SaidDays>();
        var months = MonthsWhere(occasions.IsDry);
        foreach (var form in forms)
        {
            if (!form.Form.IsWhole)
            {
                if (steady.IsCutEachDay) return null;
                said.Add(say(form, new RuleWay()));
                continue;
            }

            var ofForm = MonthsLike(DateOf(form));
            if (Ways(form, ofForm, say).Select(way => Endless(way, form, ofForm)).FirstOrDefault(found => found is not null) is not { } endless) return null;
            said.Add(endless);
            months |= ofForm;
        }

        return AreAllIn(months, forms[0].Form.Key.StartNumber) ? said : null;
    }

    /// <summary>The days of a form said plainly, then by months, then by the parts of the year in which they are alike.</summary>
    private IEnumerable<SaidDays> Ways(FormDays days, int months, Func<FormDays, RuleWay, SaidDays> say)
    {
        yield return say(days, new RuleWay());
        yield return say(days, new RuleWay(PrefersMonths: true));
        if (days.Form.Shift == 0 && steady.YearParts() is { IsEmpty: false } parts) yield return InParts(days, parts, months, say);
    }

    private static SaidDays InParts(FormDays days, ImmutableArray<YearPart> parts, int months, Func<FormDays, RuleWay, SaidDays> say)
    {
        var series = ImmutableArray.CreateBuilder<Series>();
        var left = new HashSet<int>(days.Days);
        foreach (var part in parts)
        {
            ImmutableArray<int> ofPart = [.. days.Days.Where(part.Contains)];
            if (ofPart.IsEmpty) continue;
            left.ExceptWith(ofPart);
            var said = say(days with { Days = ofPart }, new RuleWay { Months = part.Months & months, MonthDays = part.MonthDays, IsForAny = true });
            series.AddRange(said.Series);
            left.UnionWith(said.LeftOver);
        }

        return new SaidDays(days.Form, series.DrainToImmutable(), [.. left]);
    }

    private static int DateOf(FormDays days) => days.Days[0] - days.Form.Shift;

    private SaidDays? Endless(SaidDays said, FormDays days, int months)
    {
        var form = said.Form;
        var open = said.Series.Where(series => !GivesMore(series)).ToList();
        for (var day = steady.Until; day < steady.Until + steady.Length; day++)
        {
            var given = 0;
            foreach (var series in open)
            {
                if (series.Rule.Contains(day, series.First)) given++;
            }

            if (given != (IsWanted(day - form.Shift) ? 1 : 0)) return null;
        }

        var window = steady.Window(form, passSeconds(DateOf(days)));
        if (zone.Changes.Any(change => Skips(change, form.SecondOfDay))) return null;
        if (zone.Changes.Any(change => Touches(change, window, date => !steady.RepeatsWithCalendar || IsWanted(date)))) return null;
        return said with { Series = [.. said.Series.Select(series => open.Contains(series) ? series with { Last = null } : series)] };

        bool IsWanted(int date) => steady.IsDue(form.Key.StartNumber, date) && IsIn(months, date);
    }

    private static bool IsIn(int months, int date) => months == RecurrenceRule.AllMonths || (months & (1 << CivilDate.FromDayNumber(date).Month)) != 0;

    /// <summary>Whether each date on which passes of a start are due lies in some months: one in another month would be of a form not seen yet.</summary>
    private bool AreAllIn(int months, int startNumber)
    {
        for (var date = steady.Until; date < steady.Until + steady.Length; date++)
        {
            if (steady.IsDue(startNumber, date) && !IsIn(months, date)) return false;
        }

        return true;
    }

    /// <summary>Whether a rule that went on would say a day before the end of the horizon that its series does not.</summary>
    private bool GivesMore(Series series)
    {
        for (var day = series.Last!.Value + 1; day < steady.Until; day++)
        {
            if (series.Rule.Contains(day, series.First)) return true;
        }

        return false;
    }

    /// <summary>The months after the horizon in which a pass does what it does on a date, bit 1 for January.</summary>
    private int MonthsLike(int date) => MonthsWhere(day => occasions.IsSamePlan(date, day));

    /// <summary>The months whose first day after the horizon is of a kind, bit 1 for January.</summary>
    private int MonthsWhere(Func<int, bool> isOfKind)
    {
        var (year, month, _) = CivilDate.FromDayNumber(steady.Until);
        var months = 0;
        for (var next = 1; next <= 12; next++)
        {
            if (isOfKind(CivilDate.DayNumberOf(next > month ? year : year + 1, next, 1))) months |= 1 << next;
        }

        return months;
    }

    /// <summary>Whether a change skips or repeats a time of the clock, on whichever date: no series may go on over it.</summary>
    private static bool Skips((long Before, long After) change, int secondOfDay)
    {
        var (first, length) = (Math.Min(change.Before, change.After), Math.Abs(change.After - change.Before));
        var after = (secondOfDay - first) % ZoneClock.SecondsInDay;
        return (after < 0 ? after + ZoneClock.SecondsInDay : after) < length;
    }

    private static bool Touches((long Before, long After) change, (long From, long To) window, Func<int, bool> isWanted)
    {
        var (first, last) = (Math.Min(change.Before, change.After), Math.Max(change.Before, change.After));
        var earliest = (int)Math.Ceiling((first - window.To) / (double)ZoneClock.SecondsInDay);
        var latest = (int)Math.Floor((last - window.From) / (double)ZoneClock.SecondsInDay);
        for (var date = earliest; date <= latest; date++)
        {
            if (isWanted(date)) return true;
        }

        return false;
    }
}
