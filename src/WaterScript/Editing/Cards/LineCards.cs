using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Editing.Nights;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Editing.Cards;

/// <summary>What a line of a schedule comes to in the calendar.</summary>
/// <param name="site">The site.</param>
/// <param name="nights">What it waters.</param>
/// <param name="words">How moments are said.</param>
/// <param name="source">The file.</param>
internal sealed class LineCards(EditedSite site, SiteNights nights, NightWords words, SourceText source)
{
    private const int MostDates = 10;
    private const int MostStarts = 3;

    /// <summary>The card of a line; null where there is nothing to say of it.</summary>
    public Card? Of(ScheduleNode node, StatementNode line)
    {
        if (nights.Site.Schedules.FirstOrDefault(each => each.Name == node.Name.Text) is not { } schedule) return null;
        return line switch
        {
            OnNode or EveryNode => Days(schedule, line, line is OnNode ? 2 : 5),
            StartAtNode or FinishByNode => Starts(schedule, line),
            CutNode => CutOff(schedule, line),
            _ => null,
        };
    }

    private string Title(StatementNode line) => DisplayLine.CleanLine(source.Slice(line.Span));

    private Card? Days(Schedule schedule, StatementNode line, int length)
    {
        if (site.Year is not { } year) return null;
        var dates = year.DatesOf(schedule).ToList();
        var today = CivilDate.DayNumberOf(nights.Today);
        return Card.Of(new TextSpan(line.Span.Start, length), Title(line),
            $": {Phrases.Count(dates.Count, "date")} in the year from {MomentWords.Date(year.YearFrom)[4..]}",
            Listed([.. dates.Where(day => day >= today).Take(MostDates)]), Skipped(schedule, year));
    }

    /// <summary><c>Mon 4, Wed 6, Fri 29 May, Mon 1 Jun 2026</c>: month and year where the next date has another.</summary>
    private static string Listed(ImmutableArray<int> days) => string.Join(", ", days.Select((day, index) =>
    {
        var (date, next) = (CivilDate.FromDayNumber(day), index + 1 < days.Length ? CivilDate.FromDayNumber(days[index + 1]) : default);
        var words = NightWords.Date(day).Split(' ');
        var shown = date.Year != next.Year ? 4 : date.Month != next.Month ? 3 : 2;
        return string.Join(' ', words.Take(shown));
    }));

    /// <summary>Dates that an <c>except</c> takes from it.</summary>
    private string? Skipped(Schedule schedule, YearFigures year)
    {
        const int most = 4;
        if (schedule.ExceptLines is not [var line, ..]) return null;
        var all = DayPattern.Of(schedule.Days, schedule.Season, [], nights.Site.Effective);
        var left = DayPattern.Of(schedule, nights.Site.Effective);
        var taken = all.DueDays(CivilDate.DayNumberOf(year.YearFrom), CivilDate.DayNumberOf(year.YearFrom.PlusYears(1))).Where(day => !left.IsDue(day))
            .ToList();
        if (taken.Count == 0) return null;
        var shown = string.Join(", ", taken.Take(most).Select(day => NightWords.Date(day)[4..]));
        var more = taken.Count > most ? string.Create(CultureInfo.InvariantCulture, $" and {taken.Count - most} more") : "";
        return string.Create(CultureInfo.InvariantCulture, $"Not {shown}{more}: except, line {line.Origin.Start.Line}");
    }

    private Card? Starts(Schedule schedule, StatementNode line)
    {
        var start = schedule.Starts.FirstOrDefault(each => ReferenceEquals(each.Origin.Source, source) && line.Span.Contains(each.Origin.Span));
        if (start is null || site.Year is not { } year) return null;
        var days = year.DatesOf(schedule).Where(day => day >= CivilDate.DayNumberOf(nights.Today)).Take(MostStarts).ToList();
        var moment = start switch { StartAt at => at.Moment, FinishBy by => by.Moment, _ => null };
        if (days.Count == 0 || moment is null) return null;
        var passes = days.Select(day => (Day: day, Runs: nights.RunsOn(day)
            .Where(run => run.Run.Schedule == schedule.Index && run.Run.StartNumber == start.Number).ToList()))
            .Where(pass => pass.Runs.Count > 0).ToList();
        if (passes.Count == 0) return null;
        return Card.Of(new TextSpan(line.Span.Start, line is StartAtNode ? 5 : 6), Title(line),
            ": " + string.Join(", ", passes.Select(pass => $"{NightWords.ShortDay(pass.Day)} {words.Time(pass.Runs[0].Run.PassStart)}")),
            moment is SunMoment sun ? Sun(sun, schedule, days, year) : null, Length(passes[0].Day, passes[0].Runs));
    }

    /// <summary>The sun on the same dates, and the earliest and latest of the moment on all dates of the year on which the schedule waters.</summary>
    private string? Sun(SunMoment moment, Schedule schedule, List<int> days, YearFigures year)
    {
        if (nights.Site.Position is not { } position) return null;
        var sun = SunTimes.Of(position, new ZoneClock(nights.Site.TimeZone));
        var shown = days.Select(day => sun.EventOn(day, moment.Event)).OfType<long>().Select(words.Time).ToList();
        var all = year.DatesOf(schedule).Select(day => (Day: day, At: sun.EventOn(day, moment.Event))).Where(entry => entry.At is not null)
            .Select(entry => (entry.Day, Time: TimeOf(entry.At!.Value + (long)moment.Offset.TotalSeconds))).ToList();
        if (shown.Count == 0 || all.Count == 0) return null;
        var (earliest, latest) = (all.MinBy(entry => entry.Time), all.Last(entry => entry.Time == all.Max(other => other.Time)));
        var word = moment.Event == SunEvent.Sunrise ? "Sunrise" : "Sunset";
        var season = $"from {MomentWords.Time(earliest.Time)} ({ShortDate(earliest.Day)}) to {MomentWords.Time(latest.Time)} ({ShortDate(latest.Day)})";
        return $"{word} {string.Join(", ", shown)}. In the season {season}";
    }

    /// <summary>Whether anything of the next pass is cut off, and on how many of the dates that were checked.</summary>
    private Card? CutOff(Schedule schedule, StatementNode line)
    {
        if (nights.NextOf(schedule) is not { } day) return null;
        var date = CivilDate.FromDayNumber(day).ToLocalDate();
        var around = Timetable.Of(nights.Site, new Horizon(date.PlusDays(-1), date.PlusDays(2)), nights.Budget());
        var runs = nights.RunsOn(day).Where(run => run.Run.Schedule == schedule.Index).ToList();
        var passes = around.Passes().Where(pass => pass.Schedule == schedule.Index && pass.Day == day && pass.CutAt < long.MaxValue).Take(1).ToList();
        if (runs.Count == 0 || passes is not [var pass]) return null;
        var (end, left) = (runs.Max(run => run.Run.End), pass.CutAt - runs.Max(run => run.Run.End));
        var next = left > 0
            ? $"{NightWords.ShortDay(day)} ends {words.Time(end)}, {Phrases.Length(left)} before"
            : $"{NightWords.ShortDay(day)} runs to it";
        return Card.Of(new TextSpan(line.Span.Start, "cut off".Length), Title(line), $": {next}", Cuts(line));
    }

    private string? Cuts(StatementNode line)
    {
        if (site.Lint is not { } lint) return null;
        var cut = lint.Findings.Concat(lint.Accepted.Select(accepted => accepted.Finding)).FirstOrDefault(finding =>
            finding.Rule == Linting.Rules.Time.CutShort.Rule && finding.Others.Prepend(finding.Primary).Any(label =>
                ReferenceEquals(label.Location.Source, source) && line.Span.Contains(label.Location.Span)));
        return cut is null ? $"Cuts nothing to {MomentWords.Date(lint.Horizon.Until.PlusDays(-1))[4..]}"
            : string.Join(' ', new[] { cut.Heading, cut.Happens is { } when ? MomentWords.When(when) : "" }.Where(text => text.Length > 0));
    }

    private LocalTime TimeOf(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(nights.Site.TimeZone).TimeOfDay;

    private static string ShortDate(int day) => NightWords.ShortDay(day)[4..];

    private string Length(int day, List<NightRun> runs)
    {
        var pass = runs.Where(run => run.Run.IsInPassOf(runs[0].Run)).ToList();
        var end = pass.Max(run => run.Run.End);
        return $"The pass takes {Phrases.Length(end - pass[0].Run.PassStart)} on {NightWords.ShortDay(day)}, to {words.Time(end)}";
    }
}
