using System.CommandLine;
using NodaTime;
using NodaTime.Text;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Cli.Commands;

/// <summary>Which dates, or which one pass, as the options of a command say.</summary>
internal sealed class DateOptions
{
    private LocalDate? _from;
    private LocalDate? _until;
    private int? _days;
    private string? _schedule;
    private LocalDateTime _at;

    private DateOptions()
    {
    }

    /// <summary>Reads the options; null for one that is not given.</summary>
    /// <exception cref="CommandException">They do not go together.</exception>
    public static DateOptions Read(LocalDate? from, LocalDate? until, int? days, string? run, LocalDateTime? at)
    {
        if (until is not null && days is not null) throw new CommandException("--until and --days say the same; give one of them");
        if (run is null != at is null) throw new CommandException("--run and --at go together: --run NAME --at 2026-05-01T09:30");
        if (run is not null && ((from ?? until) is not null || days is not null))
            throw new CommandException("--run is one pass at one moment; leave out --from, --until and --days");
        return new DateOptions
        {
            _from = from,
            _until = until,
            _days = days,
            _schedule = run,
            _at = at.GetValueOrDefault(),
        };
    }

    /// <summary><c>--days N</c></summary>
    public static Option<int?> Days() =>
        OptionValues.Number("--days", "N", "So many days, in place of --until.", 1, Limits.HorizonDays);

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
        if (until <= from)
            throw new CommandException($"--until {LocalDatePattern.Iso.Format(until)} is not after the first day, {LocalDatePattern.Iso.Format(from)}");
        if (Period.DaysBetween(from, until) > Limits.HorizonDays) throw new CommandException($"more than {Limits.HorizonDays} days; choose a nearer --until");
        return new Horizon(from, until);
    }

    private Schedule ScheduleOf(Site site)
    {
        var schedule = site.Schedules.FirstOrDefault(schedule => schedule.Name == _schedule);
        if (schedule is not null) return schedule;
        throw new CommandException(UsageWords.NoSuch("schedule", _schedule!, [.. site.Schedules.Select(known => known.Name)]));
    }
}
