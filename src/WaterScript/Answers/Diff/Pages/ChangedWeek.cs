using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Years;

namespace WaterScript.Answers.Diff.Pages;

/// <summary>A week of nights in two versions.</summary>
/// <param name="Nights">The nights, from noon to noon.</param>
/// <param name="Clocks">What their clocks show.</param>
/// <param name="Difference">Water after less water before, in litres.</param>
internal sealed record ChangedWeek(ImmutableArray<ChangedNight> Nights, ImmutableArray<Night> Clocks, decimal Difference)
{
    /// <summary>How many nights it has.</summary>
    public const int Length = 7;

    /// <summary>Whether any watering is not as it was.</summary>
    public bool IsChanged => Nights.Any(night => night.IsChanged);

    /// <summary>What happens in it, in words: <c>12 runs new, 3 moved or resized</c>.</summary>
    public string Words => ChangedNight.Say(Nights.SelectMany(night => night.Lanes).SelectMany(lane => lane.Runs));

    /// <summary>Its first date.</summary>
    public LocalDate First => Nights[0].Date;

    /// <summary>The week of two charts of the same days.</summary>
    public static ChangedWeek Of(Chart old, Chart @new, Func<string, string> nameOf)
    {
        var clocks = PictureBuilder.Of(@new, new PictureLinks(@new.Site, new ChartOptions())).Nights;
        var nights = ChangedNight.Of(old, @new, nameOf);
        return new ChangedWeek(nights, clocks, nights.Sum(night => night.Difference));
    }

    /// <summary>
    /// The weeks of a year that change, and whether there are more than a page can hold; none where the nights of a version are more than a picture can hold.
    /// </summary>
    /// <param name="old">The old year.</param>
    /// <param name="new">The new one, from the same date on.</param>
    /// <param name="from">The first night.</param>
    /// <param name="nameOf">What a zone of the old version is called in the new one.</param>
    public static (ImmutableArray<ChangedWeek> Weeks, bool IsCut) OfYear(YearChart old, YearChart @new, LocalDate from, Func<string, string> nameOf)
    {
        if (old.Nights is not { } was || @new.Nights is not { } now) return ([], true);
        var (before, after) = (was.Days.ToDictionary(day => day.Date), now.Days.ToDictionary(day => day.Date));
        var (clock, end, left) = (new ZoneClock(@new.Site.TimeZone), @new.From.PlusDays(@new.Days), Limits.ChangedRuns);
        var weeks = ImmutableArray.CreateBuilder<ChangedWeek>();
        for (var first = from; first < end; first = first.PlusDays(Length))
        {
            var days = Enumerable.Range(0, Length).Select(day => first.PlusDays(day)).ToList();
            ImmutableArray<ChangedNight> nights = [.. days.Select(date => ChangedNight.Of(
                before.GetValueOrDefault(date) ?? Empty(date, clock), after.GetValueOrDefault(date) ?? Empty(date, clock), was.Site, now.Site, nameOf))];
            ImmutableArray<Night> clocks = [.. days.Select((date, index) => ClockOf(Empty(date, clock), index, @new))];
            var week = new ChangedWeek(nights, clocks, nights.Sum(night => night.Difference));
            if (!week.IsChanged) continue;
            left -= nights.Sum(night => night.Lanes.Sum(lane => lane.Runs.Length));
            if (left < 0 && weeks.Count > 0) return (weeks.ToImmutable(), true);
            weeks.Add(week);
        }

        return (weeks.ToImmutable(), false);
    }

    private static ChartDay Empty(LocalDate date, ZoneClock clock) =>
        new(date, ChartSpan.NoonOf(date, clock), ChartSpan.NoonOf(date.PlusDays(1), clock))
        {
            Nights = [],
            Sun = [],
            Shifts = [],
            Forbidden = [],
            Curves = [],
            Devices = [],
            Marks = [],
            Touching = [],
            Held = [],
            Runs = [],
        };

    private static Night ClockOf(ChartDay day, int id, YearChart year)
    {
        var sky = new DaySky(year.Site, new ZoneClock(year.Site.TimeZone));
        return new Night
        {
            Id = id,
            Title = ChartWords.Heading(day),
            Length = day.Until - day.From,
            HasSun = year.Site.Position is not null,
            Dark = [.. sky.Nights(day.From, day.Until).Select(band => new NightSpan(band.From - day.From, band.Until - day.From))],
            Shifts = [.. sky.Shifts(day.From, day.Until).Select(shift => new NightShift(shift.At - day.From, shift.By))],
        };
    }
}
