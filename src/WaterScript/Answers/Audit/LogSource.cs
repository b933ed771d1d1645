using System.Globalization;

namespace WaterScript.Answers.Audit;

/// <summary>The rows of one log, one at a time. Each line is read for itself, so that a broken one spoils no other: it is reported and passed over.</summary>
internal sealed class LogSource
{
    /// <summary>Letters of a reason that are kept.</summary>
    private const int MostOfReason = 160;

    /// <summary>Letters of a cell that a message quotes.</summary>
    private const int MostQuoted = 100;

    private const int LongestWord = 16;

    private readonly LogLines _lines;
    private readonly LogDictionary _site;
    private readonly LogRow _row;
    private readonly Places _at;
    private bool _isHarmless;
    private int? _unwired;
    private string? _lastReason;
    private string? _lastList;
    private decimal _lastTime = decimal.MinValue;
    private long? _lastNumber;

    private LogSource(string file, int index, LogLines lines, LogDictionary site, char separator, Places places)
    {
        (File, Index, _lines, _site, _at) = (file, index, lines, site, places);
        _row = new LogRow(separator, places.Last);
    }

    /// <summary>Its name, for the report.</summary>
    public string File { get; }

    /// <summary>Its place among the logs, from 0.</summary>
    public int Index { get; }

    /// <summary>What the current row says.</summary>
    public LogEvent? Current { get; private set; }

    /// <summary>When the current row says that a watering ends; null where it does not.</summary>
    public decimal? CurrentEnd { get; private set; }

    /// <summary>Reads the line that names the columns.</summary>
    /// <returns>The log, or what stands in the way of reading any of it.</returns>
    public static (LogSource? Source, string? Why) Open(string file, int index, LogLines lines, LogColumns columns, LogDictionary site)
    {
        var line = lines.MoveNext() ? lines.Current.TrimStart('\uFEFF') : [];
        if (lines.IsTooLong)
            return (null, string.Create(CultureInfo.InvariantCulture,
                $"the first line of {file} has more than {LogLines.MostLetters} letters; it should name the columns"));
        var separator = MostFrequent(line);
        if (LogRow.CellsOf(line, separator) is not { } header) return (null, "the first line, which names the columns, cannot be read");
        var places = new Places(columns.PlacesIn(header));
        if (places.Time < 0 && (places.From < 0 || places.To < 0))
            return (null, $"no column of {file} is called time, or from and to; say how they are called: --columns time=NAME");
        if (places.Time >= 0 && places.Do < 0) return (null, $"no column of {file} says what happened; say how it is called: --columns do=NAME");
        return (new LogSource(file, index, lines, site, separator, places), null);
    }

    /// <summary>Goes to the next row that says something; false where there is none.</summary>
    /// <param name="passOver">Called with each row that says nothing.</param>
    public bool MoveNext(Action<LogSource, int, RowProblem> passOver)
    {
        while (_lines.MoveNext())
        {
            if (!_lines.IsTooLong && _lines.Current.IsWhiteSpace()) continue;
            if (WhyNot() is not { } why) return true;
            passOver(this, _lines.Number, new RowProblem(why, _isHarmless) { Unwired = _unwired });
        }

        Current = null;
        return false;
    }

    private static char MostFrequent(ReadOnlySpan<char> line)
    {
        var (semicolons, tabs, commas) = (line.Count(';'), line.Count('\t'), line.Count(','));
        if (semicolons >= tabs && semicolons >= commas) return ';';
        return tabs >= commas ? '\t' : ',';
    }

    /// <summary>Takes the current line; why it cannot be used, or null.</summary>
    private string? WhyNot()
    {
        (_isHarmless, _unwired) = (false, null);
        if (_lines.IsTooLong) return string.Create(CultureInfo.InvariantCulture, $"it has more than {LogLines.MostLetters} letters");
        if (!_row.TryRead(_lines.Current)) return "it cannot be read as a row";
        (CurrentEnd, _isHarmless) = (null, false);
        return _at.Time < 0 ? TakeWatering() : TakeEvent();
    }

    private string? TakeEvent()
    {
        var word = BeforeComma(_row[_at.Do]);
        _isHarmless = KindOf(word) is LogKind.Close or LogKind.Boot or LogKind.Alive && IsUnset(_row[_at.Time]);
        if (Time(_row[_at.Time], out var at) is { } wrong) return wrong;
        at = Settled(at);
        if (KindOf(word) is not { } kind) return $"{Quoted(word)} is nothing that a valve does";
        if (Zone(out var zone) is { } unknown)
        {
            // What nothing is wired to is closed with all the others when the power comes on.
            _isHarmless = kind == LogKind.Close && _unwired is not null;
            return unknown;
        }

        if (kind is LogKind.Open or LogKind.Close or LogKind.Hand && zone is null) return "it names no zone and no output";
        Current = Event(at, kind, zone ?? LogEvent.NoZone);
        return null;
    }

    /// <summary>A watering in one row is its opening and its closing.</summary>
    private string? TakeWatering()
    {
        if (Time(_row[_at.From], out var from) is { } wrong) return wrong;
        from = Settled(from);
        var isOpen = _row[_at.To].Length == 0;
        var to = from;
        if (!isOpen && Time(_row[_at.To], out to) is { } wrongEnd) return wrongEnd;
        if (to < from) to += _site.Times.Again;
        if (to < from) return "it ends before it begins";
        if (Zone(out var zone) is { } unknown) return unknown;
        if (zone is null) return "it names no zone and no output";
        Current = Event(from, LogKind.Open, zone.Value);
        if (!isOpen) CurrentEnd = to;
        return null;
    }

    private LogEvent Event(decimal at, LogKind kind, int zone) => new(
        new LogPlace(File, _lines.Number),
        at,
        kind,
        zone,
        Reason(),
        long.TryParse(_row[_at.Number], NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null,
        LogTimes.Number(_row[_at.Litres]),
        LogTimes.Number(_row[_at.Meter]),
        Kept(_row[_at.List], ref _lastList))
    {
        Controller = _site.ControllerOf(zone, _row[_at.Controller]),
    };

    /// <summary>The reason in its own column, or after a comma: <c>skip,frost</c>.</summary>
    private string? Reason()
    {
        if (Kept(_row[_at.Why], ref _lastReason) is { } why) return why;
        var what = _row[_at.Do];
        var comma = what.IndexOf(',');
        if (comma < 0) return null;
        return Kept(what[(comma + 1)..].Trim(), ref _lastReason) ?? "";
    }

    /// <summary>Rows mostly say what the one before said, which is one text then.</summary>
    private static string? Kept(ReadOnlySpan<char> text, ref string? last)
    {
        if (text.Length == 0) return null;
        var kept = text.Length > MostOfReason ? text[..MostOfReason] : text;
        if (last is null || !kept.SequenceEqual(last)) last = kept.ToString();
        return last;
    }

    private static ReadOnlySpan<char> BeforeComma(ReadOnlySpan<char> text) => text.IndexOf(',') is >= 0 and var comma ? text[..comma] : text;

    private static LogKind? KindOf(ReadOnlySpan<char> word)
    {
        word = word.Trim();
        if (word.Length > LongestWord) return null;
        Span<char> lower = stackalloc char[LongestWord];
        return lower[..word.ToLowerInvariant(lower)] switch
        {
            "open" or "on" or "start" or "1" or "true" => LogKind.Open,
            "close" or "off" or "stop" or "end" or "0" or "false" => LogKind.Close,
            "hand" or "manual" => LogKind.Hand,
            "skip" or "skipped" => LogKind.Skip,
            "fault" or "error" or "alarm" => LogKind.Fault,
            "boot" or "reset" or "power-up" => LogKind.Boot,
            "alive" or "heartbeat" or "rest" or "ok" => LogKind.Alive,
            _ => null,
        };
    }

    /// <summary>The zone of a row; null where it names none.</summary>
    private string? Zone(out int? zone)
    {
        zone = null;
        var name = _row[_at.Zone];
        if (name.Length > 0)
        {
            zone = _site.ZoneNamed(name);
            return zone is null ? $"no zone is called {Quoted(name)}" : null;
        }

        var output = _row[_at.Output];
        if (output.Length == 0) return null;
        if (!int.TryParse(output, NumberStyles.None, CultureInfo.InvariantCulture, out var number)) return $"{Quoted(output)} is not a number of an output";
        var controller = _row[_at.Controller];
        if (controller.Length == 0 && !_site.NeedsNoController)
            return "it does not say which controller the output is of (--controller NAME does, for all rows)";
        zone = _site.ZoneAt(controller, number);
        if (zone is null && _site.IsController(controller)) _unwired = number;
        return zone is null ? string.Create(CultureInfo.InvariantCulture, $"no zone has output {number}") : null;
    }

    /// <summary>Whether a time is one of a clock that was not set.</summary>
    private bool IsUnset(ReadOnlySpan<char> text) => _site.Times.Read(text) is { } moment && moment < _site.NotBefore;

    private string? Time(ReadOnlySpan<char> text, out decimal at)
    {
        at = 0;
        if (_site.Times.Read(text) is not { } moment) return $"{Quoted(text)} is not a time";
        at = moment;
        if (at < _site.NotBefore) return $"{Quoted(text)} is long before the site began: a clock that was not set";
        return at >= _site.NotFrom ? $"{Quoted(text)} is more than {LogDictionary.YearsAfter} years after the site began: a clock that was not set" : null;
    }

    /// <summary>In the hour that the clock shows twice, what goes back from the row before is the second time; with numbers, of a later number only.</summary>
    private decimal Settled(decimal at)
    {
        var again = _site.Times.Again;
        var number = long.TryParse(_row[_at.Number], NumberStyles.None, CultureInfo.InvariantCulture, out var own) ? own : (long?)null;
        var isLater = number is null || _lastNumber is null || number >= _lastNumber;
        if (again > 0 && isLater && at < _lastTime && at + again >= _lastTime) at += again;
        (_lastTime, _lastNumber) = (at, number);
        return at;
    }

    private static string Quoted(ReadOnlySpan<char> text) => text.Length > MostQuoted ? $"\"{text[..MostQuoted]}…\"" : $"\"{text}\"";

    /// <summary>Where the columns are, from 0; -1 for one that is not there.</summary>
    private sealed class Places(Dictionary<string, int> places)
    {
        public int Time { get; } = places.GetValueOrDefault("time", -1);

        public int From { get; } = places.GetValueOrDefault("from", -1);

        public int To { get; } = places.GetValueOrDefault("to", -1);

        public int Zone { get; } = places.GetValueOrDefault("zone", -1);

        public int Output { get; } = places.GetValueOrDefault("output", -1);

        public int Controller { get; } = places.GetValueOrDefault("controller", -1);

        public int Do { get; } = places.GetValueOrDefault("do", -1);

        public int Why { get; } = places.GetValueOrDefault("why", -1);

        public int Number { get; } = places.GetValueOrDefault("number", -1);

        public int Litres { get; } = places.GetValueOrDefault("litres", -1);

        public int Meter { get; } = places.GetValueOrDefault("meter", -1);

        public int List { get; } = places.GetValueOrDefault("list", -1);

        public int Last { get; } = places.Values.DefaultIfEmpty(0).Max();
    }
}
