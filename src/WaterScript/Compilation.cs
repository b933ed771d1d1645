using System.Collections.Immutable;
using NodaTime;
using NodaTime.Text;
using WaterScript.Binding;
using WaterScript.Calendars.TimeZones;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Documents.Charts.Years;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Syntax.Formatting;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript;

/// <summary>
/// A site, compiled and checked: sources go in; findings, a timetable and documents come out. The same sources give the same answers, on any machine and
/// on any day. It does not change any more, and any number of threads may use it at once.
/// </summary>
public sealed class Compilation
{
    private readonly CheckedSite _check;
    private Compilation(CheckedSite check)
    {
        _check = check;
        Findings = [.. check.Findings.Select(finding => new SiteFinding(finding))];
        Files = [.. check.Reading.Files.Select(file => file.Source.Path)];
        Site = check.Reading.Site is { } site ? new CompiledSite(site) : null;
    }

    /// <summary>What people call it: the site's label or name; the path of the root file where there is no site.</summary>
    public string Name => _check.Name;

    /// <summary>
    /// What was found: while reading, by file and place, then, where reading gave no error, by looking at what the site does from
    /// <see cref="CheckedFrom"/> to <see cref="CheckedUntil"/>. What the site accepts is not among them.
    /// </summary>
    public ImmutableArray<SiteFinding> Findings { get; }

    /// <summary>Whether one of them is an error; then there is no timetable.</summary>
    public bool HasErrors => _check.Worst == Severity.Error;

    /// <summary>The files that were read, by their paths, each once: the root file first.</summary>
    public ImmutableArray<string> Files { get; }

    /// <summary>The site; null when too little of it could be read. Where <see cref="HasErrors"/>, it lacks what has an error.</summary>
    public CompiledSite? Site { get; }

    /// <summary>The first date that was looked at, included; null when reading gave an error.</summary>
    public LocalDate? CheckedFrom => _check.Lint?.Horizon.From;

    /// <summary>The first date that was not looked at any more; not before <see cref="CheckedFrom"/>; null when reading gave an error.</summary>
    public LocalDate? CheckedUntil => _check.Lint?.Horizon.Until;

    /// <summary>Compiles a site.</summary>
    /// <param name="path">
    /// The root file, by its path from the folder that holds all files of the site: <c>/</c> between folders, without <c>\</c>, <c>:</c>, <c>.</c> and
    /// <c>..</c>. Findings show it.
    /// </param>
    /// <param name="readFile">
    /// Gives the text of a file by such a path, or null where there is no such file. It is called once for each file, and what it throws comes through.
    /// </param>
    /// <param name="checkFrom">The first date to look at, of the years 1 to 9000; null for the site's first. Two years or more from it are looked at.</param>
    /// <param name="timeZones">Where time zones come from; null for the data that comes with Noda Time.</param>
    /// <exception cref="ArgumentNullException"><paramref name="path"/> or <paramref name="readFile"/> is null.</exception>
    /// <exception cref="ArgumentException"><paramref name="path"/> is no such path.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="checkFrom"/> lies outside of those years.</exception>
    /// <exception cref="FileNotFoundException">There is no root file. A missing file that the site includes is a finding.</exception>
    public static Compilation Of(string path, Func<string, string?> readFile, LocalDate? checkFrom = null, IDateTimeZoneProvider? timeZones = null)
    {
        Require.Path(path);
        ArgumentNullException.ThrowIfNull(readFile);
        if (checkFrom is { } from) Require.Year(from.Year, nameof(checkFrom));
        var root = readFile(path) ?? throw new FileNotFoundException($"There is no file \"{path}\".", path);
        var reading = SiteReader.Read(SourceText.From(path, root), path, new FunctionReader(readFile), timeZones ?? PackagedTimeZones.Provider);
        return OfReading(path, reading, checkFrom);
    }

    /// <summary>A site that was read.</summary>
    /// <param name="path">The root file, as findings show it.</param>
    /// <param name="reading">What reading gave.</param>
    /// <param name="checkFrom">First date to look at; null for the site's first.</param>
    internal static Compilation OfReading(string path, SiteReading reading, LocalDate? checkFrom = null) => new(CheckedSite.Of(path, reading, checkFrom));

    /// <summary>A site that was read and checked.</summary>
    internal static Compilation OfCheck(CheckedSite check) => new(check);

    /// <summary>Its timetable over a year from its first date. Calendars of it may go on for ever.</summary>
    /// <exception cref="InvalidOperationException">The site has an error.</exception>
    public CompiledTimetable Timetable()
    {
        var site = SiteWithoutErrors();
        return Over(Timetables.Timetable.Of(site, Horizon.YearFrom(site.Effective)), isOpenEnded: true);
    }

    /// <summary>Its timetable over some dates, which are those of the site's time zone.</summary>
    /// <param name="from">The first date, included; of the years 1 to 9000.</param>
    /// <param name="until">
    /// The first date after it, not included; later than <paramref name="from"/>, by no more than 36 525 days, and of the years 1 to 9000.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">One of the dates lies outside of that.</exception>
    /// <exception cref="InvalidOperationException">The site has an error.</exception>
    public CompiledTimetable Timetable(LocalDate from, LocalDate until)
    {
        Require.Year(from.Year, nameof(from));
        Require.Year(until.Year, nameof(until));
        if (until <= from)
            throw new ArgumentOutOfRangeException(nameof(until), until, $"It has to be later than the first date, {LocalDatePattern.Iso.Format(from)}.");
        if (Period.DaysBetween(from, until) > Limits.HorizonDays)
            throw new ArgumentOutOfRangeException(nameof(until), until, $"A timetable has no more than {Limits.HorizonDays} days.");
        return Over(Timetables.Timetable.Of(SiteWithoutErrors(), new Horizon(from, until)), isOpenEnded: false);
    }

    /// <summary>One pass of a schedule, manual or not, in place of the calendar. Holds and closed seasons do not touch it.</summary>
    /// <param name="schedule">The name of the schedule.</param>
    /// <param name="at">
    /// When it starts, by the clocks of the site, in the years 1 to 9000; fractions of a second do not count. A moment that the clock skips or shows twice is
    /// read as a start at it would be.
    /// </param>
    /// <exception cref="ArgumentNullException"><paramref name="schedule"/> is null.</exception>
    /// <exception cref="ArgumentException">The site has no schedule of that name.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="at"/> lies outside of those years.</exception>
    /// <exception cref="InvalidOperationException">The site has an error.</exception>
    public CompiledTimetable OnePass(string schedule, LocalDateTime at)
    {
        ArgumentNullException.ThrowIfNull(schedule);
        Require.Year(at.Year, nameof(at));
        var site = SiteWithoutErrors();
        return Over(Timetables.Timetable.OfOnePass(site, Require.Schedule(site, schedule), at), isOpenEnded: false);
    }

    /// <summary>Draws the watering of some days, from noon to noon, as one SVG document.</summary>
    /// <param name="output">Where to, in UTF-8; it is left open.</param>
    /// <param name="first">The date at whose noon it begins, of the years 1 to 9000; null for the first noon after which there is water.</param>
    /// <param name="days">How many days, 1 to 31.</param>
    /// <exception cref="ArgumentNullException"><paramref name="output"/> is null.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="first"/> or <paramref name="days"/> lies outside of that.</exception>
    /// <exception cref="InvalidOperationException">
    /// Reading the site gave an error; it has no watering by a calendar, and <paramref name="first"/> is null; it has more than 20 000 runs on these days, or
    /// needs more work than a picture may take. Nothing is written then.
    /// </exception>
    /// <exception cref="IOException">The output cannot be written.</exception>
    public void WriteSvgChart(Stream output, LocalDate? first = null, int days = 1) => WriteChart(output, first, days, SvgChart.Write);

    /// <summary>Draws the watering of some days, from noon to noon, as one page of HTML for a screen, which needs no other file.</summary>
    /// <inheritdoc cref="WriteSvgChart"/>
    public void WriteHtmlChart(Stream output, LocalDate? first = null, int days = 1) => WriteChart(output, first, days, HtmlChart.Write);

    /// <summary>Writes the findings, as <c>waterscript check --report json</c> does: JSON, in UTF-8 without a byte-order mark.</summary>
    /// <param name="output">Where to; it is left open.</param>
    /// <exception cref="ArgumentNullException"><paramref name="output"/> is null.</exception>
    /// <exception cref="IOException">The output cannot be written.</exception>
    public void WriteJsonReport(Stream output)
    {
        ArgumentNullException.ThrowIfNull(output);
        JsonReport.Write([_check], showsAccepted: false, output);
    }

    /// <summary>Gives a file the one layout that all files have. Words and comments stay what and where they are; the ends of its lines do too.</summary>
    /// <param name="text">The text of a file.</param>
    /// <returns>The text in its layout, which laid out again is itself; null where it has an error, because then nobody knows how it is meant.</returns>
    /// <exception cref="ArgumentNullException"><paramref name="text"/> is null.</exception>
    public static string? Format(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (Formatter.Format(SourceText.From("-", text), []) is not { } formatted) return null;
        return formatted.HasByteOrderMark ? SourceText.ByteOrderMark + formatted.Text : formatted.Text;
    }

    /// <summary>The site as it was checked.</summary>
    internal CheckedSite Check => _check;

    /// <summary>A picture of some days.</summary>
    /// <param name="site">The site.</param>
    /// <param name="lint">What its check found.</param>
    /// <param name="span">The days.</param>
    /// <exception cref="WorkUsedUpException">There is too much to walk over.</exception>
    internal static Chart ChartOf(Site site, LintReport lint, ChartSpan span) =>
        ChartBuilder.Build(site, FindingMoments.Of(site, lint, span.Dates), span);

    /// <summary>A picture of a year.</summary>
    /// <param name="site">The site.</param>
    /// <param name="lint">What its check found.</param>
    /// <param name="from">The first date.</param>
    /// <exception cref="WorkUsedUpException">There is too much to walk over.</exception>
    internal static YearChart YearOf(Site site, LintReport lint, LocalDate from) =>
        YearBuilder.Build(site, from, FindingMoments.Of(site, lint, new Horizon(from, from.PlusYears(1))));

    /// <summary>A timetable of the site, whether the site has errors or not.</summary>
    /// <param name="timetable">The timetable.</param>
    /// <param name="isOpenEnded">Whether nobody said its last date.</param>
    internal CompiledTimetable Over(Timetable timetable, bool isOpenEnded) => new(_check, timetable, isOpenEnded);

    private void WriteChart(Stream output, LocalDate? first, int days, Action<Chart, Stream> write)
    {
        ArgumentNullException.ThrowIfNull(output);
        if (first is { } date) Require.Year(date.Year, nameof(first));
        if (days is < 1 or > Limits.ChartDays) throw new ArgumentOutOfRangeException(nameof(days), days, $"A picture has 1 to {Limits.ChartDays} days.");
        if (_check is not { Reading.Site: { } site, Lint: { } lint }) throw HasAnError();
        Chart chart;
        try
        {
            var span = first is { } noon ? new ChartSpan(noon, days) : ChartSpan.FromFirstWater(site, days);
            chart = ChartOf(site, lint, span ?? throw new InvalidOperationException($"{_check.Name} has no watering by a calendar; say the first date."));
        }
        catch (WorkUsedUpException cause)
        {
            throw new InvalidOperationException(AnswerCut.Words(site, cause), cause);
        }
        catch (ChartTooLargeException cause)
        {
            throw new InvalidOperationException(
                $"There are more than {Limits.ChartRuns} runs, which is more than a picture can show; choose fewer days.", cause);
        }

        write(chart, output);
    }

    private Site SiteWithoutErrors() => !HasErrors && _check.Reading.Site is { } site ? site : throw HasAnError();

    private InvalidOperationException HasAnError() =>
        new($"{_check.Name} has an error: {Findings.First(finding => finding.Severity == FindingSeverity.Error)}.");

    /// <summary>Reads by a function.</summary>
    private sealed class FunctionReader(Func<string, string?> read) : ISourceReader
    {
        public SourceText? Read(string path) => read(path) is { } text ? SourceText.From(path, text) : null;
    }
}
