using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Documents.ICalendar;
using WaterScript.Documents.Timetables;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript;

/// <summary>
/// The timetable of a site over some dates. It is worked out while it is read, never held whole, and each enumeration works it out anew. It belongs
/// to one thread at a time; another thread asks the <see cref="Compilation"/> for one of its own.
/// </summary>
public sealed class CompiledTimetable
{
    private readonly CheckedSite _check;
    private readonly Timetable _timetable;
    private readonly bool _isOpenEnded;

    internal CompiledTimetable(CheckedSite check, Timetable timetable, bool isOpenEnded) =>
        (_check, _timetable, _isOpenEnded) = (check, timetable, isOpenEnded);

    /// <summary>The first date, included, in the zone of the site. A pass is in the timetable when its start is, and then whole.</summary>
    public LocalDate From => _timetable.Horizon.From;

    /// <summary>The first date after it, not included; later than <see cref="From"/>.</summary>
    public LocalDate Until => _timetable.Horizon.Until;

    /// <summary>The runs of zones, in order of start, then controller, then output, then zone, then name of the schedule.</summary>
    public IEnumerable<ZoneRun> Runs() => _timetable.Runs().Select(run => new ZoneRun(_timetable, run));

    /// <summary>When each output is on, in order of the beginning, then controller, then output.</summary>
    public IEnumerable<OutputOpening> Openings() => _timetable.Openings().Select(opening => new OutputOpening(_timetable.Site, opening));

    /// <summary>What each output does, in order of time, then controller; at one moment a controller turns off before it turns on.</summary>
    public IEnumerable<OutputSwitching> Switchings() => _timetable.Switchings().Select(switching => new OutputSwitching(_timetable.Site, switching));

    /// <summary>Writes it as YAML, in UTF-8 without a byte-order mark.</summary>
    /// <param name="output">Where to; it is left open.</param>
    /// <param name="only">One list, without the description of the site; null for all.</param>
    /// <param name="controller">The name of a controller, for only what it switches; null for all.</param>
    /// <exception cref="ArgumentNullException"><paramref name="output"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="only"/> is no such list.</exception>
    /// <exception cref="ArgumentException">The site has no controller of that name.</exception>
    /// <exception cref="InvalidOperationException">
    /// There are switchings in it that a device could not rely on, for the reason in the message. Where nothing is accepted that is only found while
    /// writing: what has been written then has no end, and no hash.
    /// </exception>
    /// <exception cref="IOException">The output cannot be written.</exception>
    public void WriteYaml(Stream output, TimetableRows? only = null, string? controller = null) => Write(OutputFormat.Yaml, output, only, controller);

    /// <summary>Writes it as JSON, in UTF-8 without a byte-order mark.</summary>
    /// <inheritdoc cref="WriteYaml"/>
    public void WriteJson(Stream output, TimetableRows? only = null, string? controller = null) => Write(OutputFormat.Json, output, only, controller);

    /// <summary>Writes one of its lists as CSV (RFC 4180), an entry a line, in UTF-8 without a byte-order mark.</summary>
    /// <param name="output">Where to; it is left open.</param>
    /// <param name="rows">The list.</param>
    /// <param name="controller">The name of a controller, for only what it switches; null for all.</param>
    /// <exception cref="ArgumentNullException"><paramref name="output"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="rows"/> is no such list.</exception>
    /// <exception cref="ArgumentException">The site has no controller of that name.</exception>
    /// <exception cref="InvalidOperationException">
    /// Of switchings: a device could not rely on them, for the reason in the message. Where nothing is accepted that is only found while
    /// writing: what has been written then has no end, and no hash.
    /// </exception>
    /// <exception cref="IOException">The output cannot be written.</exception>
    public void WriteCsv(Stream output, TimetableRows rows = TimetableRows.Runs, string? controller = null) =>
        Write(OutputFormat.Csv, output, rows, controller);

    /// <summary>
    /// Writes it as an iCalendar file (RFC 5545), in UTF-8: an event for each pass, or for each day of schedules of many passes. Where it was asked for without
    /// a last date, a series that no clock change can ever touch goes on for ever.
    /// </summary>
    /// <param name="output">Where to; it is left open.</param>
    /// <param name="stamp">When the file counts as made (DTSTAMP), in the years 1 to 9000; null for the start of the site's first date in UTC.</param>
    /// <param name="controller">The name of a controller, for only what it waters; null for all.</param>
    /// <exception cref="ArgumentNullException"><paramref name="output"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="stamp"/> lies outside of those years.</exception>
    /// <exception cref="ArgumentException">The site has no controller of that name.</exception>
    /// <exception cref="InvalidOperationException">
    /// There is no watering, and a calendar without an event is none; or there are more events that stand alone than calendar programs bear, 20 000.
    /// Nothing is written then.
    /// </exception>
    /// <exception cref="IOException">The output cannot be written.</exception>
    public void WriteICalendar(Stream output, Instant? stamp = null, string? controller = null)
    {
        ArgumentNullException.ThrowIfNull(output);
        if (stamp is { } at) Require.Year(at.InUtc().Year, nameof(stamp));
        var made = stamp ?? _timetable.Site.Effective.AtMidnight().InUtc().ToInstant();
        var options = new CalendarOptions(made) { IsOpenEnded = _isOpenEnded, Controller = Require.Controller(_timetable.Site, controller) };
        var calendar = CalendarFile.Of(_timetable, options);
        if (calendar.IsEmpty) throw new InvalidOperationException("There is no watering on these dates, and a calendar without an event is none.");
        if (calendar.IsOverLimit) throw new InvalidOperationException($"There are more than {Limits.FlatEvents} events that stand alone; choose fewer dates.");
        calendar.Write(output);
    }

    /// <summary>What goes into a document.</summary>
    /// <param name="only">One list; null for all.</param>
    /// <param name="controller">Only what this controller switches; null for all.</param>
    /// <param name="revision">The revision that the sources stand in unchanged; null for none.</param>
    internal OutputOptions Options(TimetableList? only, Controller? controller, string? revision = null) => new()
    {
        Only = only,
        Controller = controller,
        Provenance = new Provenance(_check.Path, [.. _check.Reading.Files.Select(file => file.Source)], revision),
    };

    /// <summary>Why a document may not be written, as words that follow a colon; null when it may.</summary>
    internal string? WhyNot(OutputFormat format, OutputOptions options) => DeviceListGuard.WhyNot(_check, _timetable, format, options);

    /// <summary>Writes a document.</summary>
    /// <inheritdoc cref="TimetableOutput.Write"/>
    internal void Write(OutputFormat format, OutputOptions options, Stream output) => TimetableOutput.Write(_timetable, format, options, output);

    private void Write(OutputFormat format, Stream output, TimetableRows? only, string? controller)
    {
        ArgumentNullException.ThrowIfNull(output);
        if (only is { } rows && !Enum.IsDefined(rows))
            throw new ArgumentOutOfRangeException(format == OutputFormat.Csv ? nameof(rows) : nameof(only), rows, "There is no such list.");
        var options = Options((TimetableList?)only, Require.Controller(_timetable.Site, controller));
        if (WhyNot(format, options) is { } reason) throw new InvalidOperationException($"No list of switchings is written: {reason}.");
        try
        {
            Write(format, options, output);
        }
        catch (SwitchingContractException breach)
        {
            throw new InvalidOperationException($"The list of switchings ends here, without a hash: {breach.Message}.", breach);
        }
    }
}
