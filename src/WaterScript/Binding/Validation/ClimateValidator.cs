using NodaTime;
using WaterScript.Agronomy;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;

namespace WaterScript.Binding.Validation;

/// <summary>Whether the climate says enough for the scales that follow it: each month that a schedule may water in has an evapotranspiration.</summary>
internal sealed class ClimateValidator(Site site, Scope scope)
{
    /// <summary>Reports each scale by climate that lacks something, once.</summary>
    public void Report()
    {
        var year = MonthWeather.YearOf(site);
        foreach (var scale in site.Scales.OfType<ClimateScale>())
        {
            var needed = site.Schedules.Where(schedule => ScaleOf(schedule)?.Name == scale.Name).SelectMany(MonthsOf).ToHashSet();
            var lacking = needed.Where(month => year[month - 1] is null).Order().ToArray();
            if (lacking.Length > 0) Report(scale, lacking);
        }
    }

    private ScaleUse? ScaleOf(Schedule schedule) => schedule.Scale ?? (schedule.IsManual || schedule.IsExtra ? null : site.Scale);

    private void Report(ClimateScale scale, int[] lacking)
    {
        if (site.Climate is not { } climate)
        {
            scope.Report(ReadingRules.Missing, scale.Origin, "a scale by climate, and no climate", "follows the climate",
                "Add the climate, with a line for each month: climate { jul 16.1 C to 27.9 C, rain 4 mm }");
            return;
        }

        var lacksPosition = site.Position is null && lacking.Any(month => climate.Months[month - 1]?.Means is not null);
        scope.Report(Finding.At(ReadingRules.Missing, climate.Origin,
            lacksPosition ? "a climate of temperatures, and no location" : $"the climate says nothing of {Names(lacking)}", "a scale follows it") with
        {
            Others = [new Label(scale.Origin, "this scale")],
            Help = lacksPosition
                ? "Add the place to the site, such as `location 39.6 N 8.1 W 310 m`."
                : $"Add a line such as `{DateReader.Months[lacking[0] - 1]} 8.1 C to 16.4 C, rain 90 mm`.",
        });
    }

    private static string Names(int[] months) => string.Join(", ", months.Select(month => DateReader.Months[month - 1]));

    /// <summary>The months that a schedule may water in; one that takes its days from another has none of its own.</summary>
    private static IEnumerable<int> MonthsOf(Schedule schedule) => schedule.Season?.Span switch
    {
        DateRange range => Following(range.First, Period.DaysBetween(range.First, Earlier(range.Last, range.First.PlusYears(1))) + 1),
        YearlySpan span => Following(InCommonYear(span.First), span.Length),
        YearlyRange range => Between(range.First, range.Last),
        _ when schedule.Starts.Any(start => start is not StartAfter) || schedule.IsManual => Enumerable.Range(1, 12),
        _ => [],
    };

    private static IEnumerable<int> Following(LocalDate first, int days) => Enumerable.Range(0, days).Select(day => first.PlusDays(day).Month).Distinct();

    /// <summary>A range that ends in the month in which it begins, before its beginning, goes through all of them.</summary>
    private static IEnumerable<int> Between(YearDay first, YearDay last)
    {
        var goesRound = first.Month == last.Month && !last.IsLast && last.Day < first.Day;
        var months = goesRound ? 12 : ((last.Month - first.Month + 12) % 12) + 1;
        return Enumerable.Range(0, months).Select(month => ((first.Month - 1 + month) % 12) + 1);
    }

    private static LocalDate InCommonYear(YearDay day) => new(2001, day.Month, day.IsLast ? 28 : Math.Min(28, day.Day));

    private static LocalDate Earlier(LocalDate one, LocalDate other) => one < other ? one : other;
}
