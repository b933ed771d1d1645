using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Editing.Nights;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Editing.Cards;

/// <summary>What a scale makes of the passes of the schedules that use it.</summary>
/// <param name="nights">What the site waters.</param>
/// <param name="words">How amounts are said.</param>
internal sealed class ScaleCards(SiteNights nights, NightWords words)
{
    private const int FewNames = 3;

    /// <summary>The card of a scale.</summary>
    public Card Of(Scale scale, TextSpan span)
    {
        Schedule[] users = [.. nights.Site.Schedules.Where(schedule => NameOf(schedule) == scale.Name)];
        return Card.Of(span, $"scale {scale.Name}", Users(users),
            users.FirstOrDefault(schedule => !schedule.IsManual) is { } first ? Passes(scale, first) : null, Now(scale, users));
    }

    /// <summary>The scale that a schedule has; null for none that has a name.</summary>
    private string? NameOf(Schedule schedule) => (schedule.Scale ?? (schedule.IsManual || schedule.IsExtra ? null : nights.Site.Scale))?.Name;

    private string Users(Schedule[] users)
    {
        if (users.Length == 0) return ", not used";
        Schedule[] others = [.. nights.Site.Schedules.Where(schedule => !schedule.IsManual && !schedule.IsExtra).Except(users)];
        if (others.Length == 0) return ", of all schedules";
        return others.Length <= FewNames && users.Length >= others.Length
            ? $", of all schedules but {Phrases.Names([.. others.Select(Other)])}"
            : $", of {Phrases.Names([.. users.Select(user => user.Name)])}";
    }

    private static string Other(Schedule schedule) => schedule.Scale is { } own
        ? string.Create(CultureInfo.InvariantCulture, $"{schedule.Name} ({SiteWords.Written(own.Origin)}, line {own.Origin.Start.Line})")
        : schedule.Name;

    /// <summary><c>A pass of evening: apr 1276 L, may 1701 L</c>, of the months that are listed, in the year of the next pass.</summary>
    private string? Passes(Scale scale, Schedule schedule)
    {
        if (scale is not MonthlyScale monthly || nights.NextOf(schedule) is not { } next) return null;
        var timetable = Timetable.Of(nights.Site, Horizon.YearFrom(nights.Today), nights.Budget());
        var year = CivilDate.FromDayNumber(next).Year;
        var months = new List<string>();
        try
        {
            foreach (var (month, _) in monthly.Percents.Index().Where(month => month.Item is not null))
            {
                var plan = timetable.PlanOn(schedule.Index, CivilDate.DayNumberOf(year, month + 1, 1));
                decimal? litres = 0;
                foreach (var run in plan.Runs) litres += nights.Site.Zones[run.Zone].LitresPerMinute * run.Seconds / 60;
                if (litres is null) return null;
                months.Add($"{MonthNames.All[month]} {words.Litres(litres)}");
            }
        }
        catch (WorkUsedUpException)
        {
            return null;
        }

        return $"A pass of {schedule.Name}: {string.Join(", ", months)}";
    }

    /// <summary><c>A month not listed is 100 %; now: may, 80 %</c></summary>
    private string? Now(Scale scale, Schedule[] users)
    {
        var isPartial = scale is MonthlyScale monthly && monthly.Percents.Any(percent => percent is null);
        if (users is not [var first, ..]) return isPartial ? "A month not listed is 100 %" : null;
        var day = nights.NextOf(first) ?? CivilDate.DayNumberOf(nights.Today);
        var percent = ScaleTable.For(first, nights.Site).PercentOn(day);
        var share = $"{Phrases.Number(percent, percent == Math.Floor(percent) ? 0 : 1)} %";
        return $"{(isPartial ? "A month not listed is 100 %; on" : "On")} {NightWords.Date(day)}: {share}";
    }
}
