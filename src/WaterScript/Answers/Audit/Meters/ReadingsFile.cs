using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using NodaTime.Text;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Answers.Audit.Meters;

/// <summary>
/// Reads what meters showed: a line that names a column of dates or times and one for each supply, then a line for each time. A line that cannot be
/// used spoils no other: it is named and passed over.
/// </summary>
internal sealed class ReadingsFile
{
    /// <summary>Lines of readings; a meter that is read every day for 25 years has fewer.</summary>
    public const int MostLines = 10_000;

    /// <summary>What is passed over and listed.</summary>
    private const int MostBad = 100;

    private const int MostQuoted = 40;

    private static readonly string[] Times = ["date", "time", "day", "timestamp"];
    private static readonly LocalDatePattern[] Dates = [LocalDatePattern.Iso, LocalDatePattern.CreateWithInvariantCulture("dd.MM.uuuu")];

    private readonly string _file;
    private readonly LogLines _lines;
    private readonly LogTimes _times;
    private readonly ZoneClock _clock;
    private readonly LocalDate _now;
    private readonly List<(int Place, Supply Supply, Unit Unit, List<MeterReading> Readings)> _columns = [];
    private readonly List<BadRow> _bad = [];
    private readonly long _until;
    private int _time = -1;
    private int _note = -1;
    private char _separator;

    private ReadingsFile(string file, TextReader text, Site site, Instant now)
    {
        (_file, _lines, _times, _clock) = (file, new LogLines(text), new LogTimes(site), new ZoneClock(site.TimeZone));
        (_now, _until) = (now.InZone(site.TimeZone).Date, now.ToUnixTimeSeconds());
    }

    /// <summary>Reads a file.</summary>
    /// <param name="file">Its name, for the report.</param>
    /// <param name="text">Its text.</param>
    /// <param name="site">The site whose supplies have the meters.</param>
    /// <param name="now">When it is; nothing is read later.</param>
    /// <returns>The readings; or why none of it can be read.</returns>
    public static (MeterReadings? Readings, string Why) Read(string file, TextReader text, Site site, Instant now)
    {
        ArgumentNullException.ThrowIfNull(site);
        var reader = new ReadingsFile(file, text, site, now);
        if (reader.ReadHead(site) is { } why) return (null, why);
        reader.ReadLines();
        var columns = reader._columns.OrderBy(column => column.Supply.Index).Select(reader.InOrder).ToImmutableArray();
        return (new MeterReadings(columns, [.. reader._bad.OrderBy(bad => bad.Place.Line)]), "");
    }

    private string? ReadHead(Site site)
    {
        var line = _lines.MoveNext() ? _lines.Current.TrimStart('\uFEFF') : [];
        _separator = line.Contains(';') ? ';' : line.Contains('\t') ? '\t' : ',';
        if (_lines.IsTooLong || LogRow.CellsOf(line, _separator) is not { } heads) return $"the first line of {_file}, which names the columns, cannot be read";
        foreach (var (place, head) in heads.Select((head, place) => (place, head.Trim())))
        {
            if (_time < 0 && Times.Contains(head, StringComparer.OrdinalIgnoreCase)) _time = place;
            else if (_note < 0 && string.Equals(head, "note", StringComparison.OrdinalIgnoreCase)) _note = place;
            else if (head.Length > 0) AddColumn(place, head, site);
        }

        if (_time < 0) return $"no column of {_file} is called date or time";
        return _columns.Count == 0 ? $"no column of {_file} is called as a supply{Bad()}" : null;
    }

    private string Bad() => _bad is [var first, ..] ? "; " + first.Why : "";

    /// <summary>A supply by its name or its label, perhaps with the unit of its readings: <c>tap L</c>.</summary>
    private void AddColumn(int place, string head, Site site)
    {
        Supply? Called(string name) => site.Supplies.FirstOrDefault(supply => supply.Name == name)
            ?? site.Supplies.FirstOrDefault(supply => string.Equals(supply.Label, name, StringComparison.OrdinalIgnoreCase));
        var (supply, unit) = (Called(head), (Unit?)null);
        if (supply is null && head.LastIndexOf(' ') is > 0 and var blank && Units.Find(head[(blank + 1)..], Dimension.Volume) is { } written)
            (supply, unit) = (Called(head[..blank].TrimEnd()), written);
        if (supply is null)
            PassOver($"no supply is called {Quoted(head)}; {(site.Supplies.IsEmpty ? "the site has none" : NamesOf(site))}");
        else if (_columns.Any(column => column.Supply == supply)) PassOver($"{Quoted(head)} is the second column of this supply");
        else _columns.Add((place, supply, unit ?? MeterUnit.Of(supply, site), []));
    }

    private static string NamesOf(Site site)
    {
        const int most = 8;
        var names = string.Join(", ", site.Supplies.Take(most).Select(supply => supply.Name));
        return site.Supplies.Length > most ? $"there are {names} and others" : $"there {(site.Supplies.Length == 1 ? "is" : "are")} {names}";
    }

    private void ReadLines()
    {
        var row = new LogRow(_separator, Math.Max(Math.Max(_time, _note), _columns.Max(column => column.Place)));
        for (var count = 0; _lines.MoveNext();)
        {
            if (!_lines.IsTooLong && _lines.Current.IsWhiteSpace()) continue;
            if (++count > MostLines)
            {
                PassOver(string.Create(CultureInfo.InvariantCulture,
                    $"there are more than {MostLines} lines of readings; this one and those after it are not read"));
                break;
            }

            if (_lines.IsTooLong) PassOver(string.Create(CultureInfo.InvariantCulture, $"it has more than {LogLines.MostLetters} letters"));
            else if (!row.TryRead(_lines.Current)) PassOver("it cannot be read as a row");
            else ReadLine(row);
        }
    }

    private void ReadLine(LogRow row)
    {
        if (TimeOf(row[_time].ToString()) is not { } at)
        {
            PassOver($"{Quoted(row[_time])} is neither a date nor a time");
            return;
        }

        if (at > _until)
        {
            PassOver($"{Quoted(row[_time])} is in the future");
            return;
        }

        var isNew = row[_note].Trim().Equals("new", StringComparison.OrdinalIgnoreCase);
        foreach (var (place, supply, _, readings) in _columns)
        {
            if (row[place].Length == 0) continue;
            if (LogTimes.Number(row[place]) is not ({ } value and >= 0)) PassOver($"{Quoted(row[place])} is not what the meter of {supply.Name} can show");
            else readings.Add(new MeterReading(at, value, isNew, Here));
        }
    }

    /// <summary>A date is its first moment.</summary>
    private long? TimeOf(string text)
    {
        if (text.Contains('\0', StringComparison.Ordinal)) return null;
        foreach (var pattern in Dates)
        {
            if (pattern.Parse(text) is not { Success: true, Value: var date }) continue;
            return Math.Abs(date.Year - _now.Year) > LogDictionary.YearsAfter ? null : _clock.StartOfDay(CivilDate.DayNumberOf(date));
        }

        return _times.Read(text) is { } second && Math.Abs(second - _until) < LogDictionary.YearsAfter * 366m * ZoneClock.SecondsInDay
            ? (long)decimal.Floor(second)
            : null;
    }

    /// <summary>In order of time. What is there twice, or less than before, cannot be.</summary>
    private MeterColumn InOrder((int Place, Supply Supply, Unit Unit, List<MeterReading> Readings) column)
    {
        var broken = ImmutableHashSet.CreateBuilder<long>();
        var readings = new List<MeterReading>();
        foreach (var same in column.Readings.OrderBy(reading => reading.At).ThenBy(reading => reading.Place.Line).GroupBy(reading => reading.At))
        {
            var reading = same.First();
            foreach (var again in same.Skip(1)) Break(again, $"{column.Supply.Name} is read twice at that moment, first in line {LineOf(reading)}");
            if (readings is [.., var before] && reading.Value < before.Value && !reading.IsNew)
                Break(reading, $"the meter of {column.Supply.Name} shows less than in line {LineOf(before)}; write new under note where it is a new meter");
            readings.Add(reading);
        }

        return new MeterColumn(column.Supply, column.Unit, [.. readings], broken.ToImmutable());

        void Break(MeterReading reading, string why)
        {
            broken.Add(reading.At);
            if (_bad.Count < MostBad) _bad.Add(new BadRow(reading.Place, new RowProblem(why + "; the periods beside it are left out")));
        }
    }

    private static string LineOf(MeterReading reading) => reading.Place.Line.ToString(CultureInfo.InvariantCulture);

    private LogPlace Here => new(_file, _lines.Number);

    private void PassOver(string why)
    {
        if (_bad.Count < MostBad) _bad.Add(new BadRow(Here, new RowProblem(why)));
    }

    private static string Quoted(ReadOnlySpan<char> text) => text.Length > MostQuoted ? $"\"{text[..MostQuoted]}…\"" : $"\"{text}\"";
}
