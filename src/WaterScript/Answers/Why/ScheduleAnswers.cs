using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Answers.Why;

/// <summary>Goes through what decides about a date, schedule by schedule, and stops at the first line that rules it out.</summary>
internal sealed class ScheduleAnswers(Timetable timetable, Zone zone, int day)
{
    private const decimal AsWritten = 100;

    /// <summary>The answers of all schedules that water a zone.</summary>
    public static ImmutableArray<ScheduleAnswer> Of(Timetable timetable, Zone zone, int day)
    {
        var answers = new ScheduleAnswers(timetable, zone, day);
        var dates = timetable.ScheduleDays().Where(date => date.Day == day)
            .ToDictionary(date => date.Schedule.Index, date => (Passes: date.Passes.ToArray(), Notes: date.Notes.ToArray()));
        return
        [
            .. timetable.Site.Schedules
                .Where(schedule => WaterSteps.Of(schedule).Any(step => step.Parts.Any(part => part.Zones.Contains(zone))))
                .Select(schedule => schedule.IsManual ? Manual(schedule) : answers.Of(schedule, dates[schedule.Index].Passes, dates[schedule.Index].Notes)),
        ];
    }

    private static ScheduleAnswer Manual(Schedule schedule) =>
        new(schedule, IsDue: false, [new DecidingLine(schedule.Origin, "is manual: it runs when somebody starts it", IsAgainst: true)]);

    private ScheduleAnswer Of(Schedule schedule, Pass[] passes, DayNote[] notes)
    {
        var lines = new List<DecidingLine>();
        var isOnDate = AddDays(schedule, lines);
        if (isOnDate) lines.AddRange(schedule.Starts.SelectMany(start => OfStart(start, schedule, passes, notes)));
        if (passes.Length > 0) AddTaken(schedule, passes, lines);
        return new ScheduleAnswer(schedule, passes.Length > 0, [.. lines]);
    }

    /// <summary>Whether the date is one of the schedule's days.</summary>
    private bool AddDays(Schedule schedule, List<DecidingLine> lines)
    {
        if (day < CivilDate.DayNumberOf(timetable.Site.Effective))
        {
            lines.Add(new DecidingLine(
                timetable.Site.Origin, $"the file takes effect on {SiteWords.Date(CivilDate.DayNumberOf(timetable.Site.Effective))}", IsAgainst: true));
            return false;
        }

        if (schedule.SeasonOrigin is { } season)
        {
            var isIn = IsDue(schedule, []);
            lines.Add(new DecidingLine(season, isIn ? "in season" : "out of season", !isIn));
            if (!isIn) return false;
        }

        var naming = schedule.DayLines.Where(line => IsDue(schedule, line.Days)).ToList();
        lines.AddRange(naming.Select(line => new DecidingLine(line.Origin, $"includes {Weekday()}", IsAgainst: false)));
        if (naming.Count == 0 && !schedule.DayLines.IsEmpty)
        {
            lines.AddRange(schedule.DayLines.Select(
                line => new DecidingLine(line.Origin, $"does not include {Weekday()}{NextAfter(schedule)}", IsAgainst: true)));
            return false;
        }

        var against = schedule.ExceptLines.Where(line => IsDue(schedule, line.Days)).ToList();
        lines.AddRange(against.Select(line => new DecidingLine(line.Origin,
            line.Because is { } because ? $"skips this date, \"{because}\"" : "skips this date", IsAgainst: true)));
        return against.Count == 0;
    }

    private string Weekday() => SiteWords.Date(day)[..3];

    private string NextAfter(Schedule schedule)
    {
        const int furthest = 3_660;
        return DayPattern.Of(schedule, timetable.Site.Effective).NextDue(day + 1, day + furthest) is { } next
            ? $"; the next is {SiteWords.Date(next)}"
            : "; no later one is";
    }

    private bool IsDue(Schedule schedule, ImmutableArray<DaySet> days) =>
        DayPattern.Of(days, schedule.Season, except: [], timetable.Site.Effective).IsDue(day);

    private IEnumerable<DecidingLine> OfStart(Start start, Schedule schedule, Pass[] passes, DayNote[] notes)
    {
        var words = new SiteWords(timetable.Site);
        var own = passes.Where(pass => pass.StartNumber == start.Number).ToArray();
        if (own is [{ Silence: not null }, ..]) return [new DecidingLine(start.Origin, WhySilent(start), IsAgainst: true)];
        if (own is [var first, ..])
            return [new DecidingLine(start.Origin, $"starts {Passes(own.Length)} {words.Moment(first.Start)}", IsAgainst: false)];
        return [new DecidingLine(start.Origin, WhyNone(start, schedule, notes), IsAgainst: true)];
    }

    private static string Passes(int count) =>
        count == 1 ? "a pass," : string.Create(CultureInfo.InvariantCulture, $"{count} passes, the first");

    private string WhyNone(Start start, Schedule schedule, DayNote[] notes)
    {
        if (!start.On.IsEmpty && !IsDue(schedule, start.On)) return "is for other days";
        if (start is StartAfter after) return $"follows {after.Other}, which does not run on this date";
        return notes.Where(note => IsAbout(note, start)).Select(note => note.Kind).FirstOrDefault(DayNoteKind.NoPass) switch
        {
            DayNoteKind.NoSunEvent => "has no such moment: the sun does not rise or set on this date",
            DayNoteKind.DuplicateStart => "is the same moment as another start",
            _ => "starts no pass on this date",
        };
    }

    private static string WhySilent(Start start) =>
        start is StartAfter after ? $"follows {after.Other}, of which nothing is left on this date" : "holds on dates of a schedule of which nothing is left";

    private static bool IsAbout(DayNote note, Start start) => note.Origin == start.Origin || start switch
    {
        StartAt at => note.Origin == at.Moment.Origin,
        FinishBy by => note.Origin == by.Moment.Origin,
        _ => false,
    };

    /// <summary>What scale, trim, closed seasons, holds and cuts make of the passes.</summary>
    private void AddTaken(Schedule schedule, Pass[] passes, List<DecidingLine> lines)
    {
        if (ScaleTable.For(schedule, timetable.Site).PercentOn(day) is var percent and not AsWritten && (schedule.Scale ?? timetable.Site.Scale) is { } use)
            lines.Add(new DecidingLine(use.Origin, $"is a scale of {Phrases.Percent(percent)} on this date", percent == 0));
        if (zone.WrittenTrim?.Place is { } trim)
            lines.Add(new DecidingLine(trim, $"is {Phrases.Percent(zone.TrimPercent)} of every run time", zone.TrimPercent == 0));
        var skipped = new SkippedWater();
        foreach (var pass in passes)
        {
            var plan = timetable.PlanOf(pass);
            CancellationFilter.ReportLeftOut(pass, plan, skipped);
            foreach (var run in plan.Runs) timetable.SecondsLeft(pass, run, skipped);
        }

        lines.AddRange(skipped.Water.Where(water => water.Zone == zone).Select(Line));
    }

    private static DecidingLine Line(SkippedWatering water) => new(
        water.Origin,
        (water.By == SkipCause.Scale ? "is left out, too little is left of it" : $"takes {Phrases.Length(water.Seconds)}")
            + (water.Because is { } because ? $", because {(water.By == SkipCause.Restriction ? $"of {because}" : because)}" : ""),
        IsAgainst: true);
}
