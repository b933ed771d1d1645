using System.Globalization;
using NodaTime;
using NodaTime.Text;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Cli.Commands;

/// <summary>Which dates, or which one pass, as the options of a command say.</summary>
internal sealed class DateOptions
{
    private static readonly LocalDateTimePattern[] Times =
    [
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mm:ss"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm"),
        LocalDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:ss"),
    ];

    private LocalDate? _from;
    private LocalDate? _until;
    private int? _days;
    private string? _schedule;
    private LocalDateTime _at;

    private DateOptions()
    {
    }

    /// <summary>Reads the options; null for one that is not given.</summary>
    /// <exception cref="CommandException">One of them is no date, or they do not go together.</exception>
    public static DateOptions Read(string? from, string? until, string? days, string? run, string? at)
    {
        if (until is not null && days is not null) throw new CommandException("--until and --days say the same; give one of them");
        if (run is null != at is null) throw new CommandException("--run and --at go together: --run NAME --at 2026-05-01T09:30");
        if (run is not null && (from ?? until ?? days) is not null) throw new CommandException("--run is one pass at one moment; leave out --from, --until and --days");
        return new DateOptions
        {
            _from = from is null ? null : Date("--from", from),
            _until = until is null ? null : Date("--until", until),
            _days = days is null ? null : Days(days),
            _schedule = run,
            _at = at is null ? default : Time(at),
        };
    }

    /// <summary>Whether they name no last day.</summary>
    public bool IsOpenEnded => _until is null && _days is null && _schedule is null;

    /// <summary>The timetable that they ask for.</summary>
    /// <exception cref="CommandException">They do not suit the site.</exception>
    public Timetable TimetableOf(Site site) => _schedule is null
        ? Timetable.Of(site, HorizonOf(site))
        : Timetable.OfOnePass(site, ScheduleOf(site), _at);

    private Horizon HorizonOf(Site site)
    {
        var from = _from ?? site.Effective;
        if (_days is { } days) return Horizon.DaysFrom(from, days);
        var until = _until ?? from.PlusYears(1);
        if (until <= from) throw new CommandException($"--until {LocalDatePattern.Iso.Format(until)} is not after the first day, {LocalDatePattern.Iso.Format(from)}");
        if (Period.DaysBetween(from, until) > Limits.HorizonDays) throw new CommandException($"more than {Limits.HorizonDays} days; choose a nearer --until");
        return new Horizon(from, until);
    }

    private Schedule ScheduleOf(Site site)
    {
        var schedule = site.Schedules.FirstOrDefault(schedule => schedule.Name == _schedule);
        if (schedule is not null) return schedule;
        var names = site.Schedules.Select(schedule => schedule.Name).ToList();
        var nearest = Spelling.Nearest(_schedule!, names);
        throw new CommandException($"no schedule is called \"{_schedule}\"" + (nearest is null ? $"; there are: {string.Join(", ", names)}" : $"; did you mean {nearest}?"));
    }

    /// <summary>The date after an option.</summary>
    /// <exception cref="CommandException">It is none.</exception>
    public static LocalDate Date(string option, string text)
    {
        var parsed = LocalDatePattern.Iso.Parse(text);
        if (!parsed.Success || parsed.Value.Year is < 1 or > 9_000) throw new CommandException($"\"{text}\" after {option} is no date; write it like 2026-05-01");
        return parsed.Value;
    }

    /// <summary>The local date and time that follows <c>--at</c>.</summary>
    /// <exception cref="CommandException">It is none.</exception>
    public static LocalDateTime Time(string text)
    {
        foreach (var pattern in Times)
        {
            if (pattern.Parse(text) is { Success: true, Value.Year: >= 1 and <= 9_000 } parsed) return parsed.Value;
        }

        throw new CommandException($"\"{text}\" after --at is no date and time; write it like 2026-05-01T09:30");
    }

    private static int Days(string text) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var days) && days is >= 1 and <= Limits.HorizonDays
            ? days
            : throw new CommandException($"\"{text}\" after --days is no number of days from 1 to {Limits.HorizonDays}");
}
