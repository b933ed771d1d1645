using System.Globalization;
using nietras.SeparatedValues;
using NodaTime;
using NodaTime.Text;
using NodaTime.TimeZones;
using WaterScript.Model;

namespace WaterScript.Comparison;

/// <summary>
/// Reads logs as they really are. Each line is read for itself, so that a broken one spoils no other: it is told and passed over.
/// </summary>
public sealed class LogReader
{
    /// <summary>A device whose clock is not set shows a date long before the site began.</summary>
    private const int YearsBefore = 2;

    private static readonly OffsetDateTimePattern[] WithOffset = [OffsetDateTimePattern.ExtendedIso, OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:sso<G>"), OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mmo<G>")];

    private static readonly LocalDateTimePattern[] Local =
    [
        .. new[] { "uuuu-MM-dd HH:mm:ss.FFF", "uuuu-MM-dd'T'HH:mm:ss.FFF", "uuuu-MM-dd HH:mm", "uuuu-MM-dd'T'HH:mm", "dd.MM.uuuu HH:mm:ss", "dd.MM.uuuu HH:mm" }.Select(LocalDateTimePattern.CreateWithInvariantCulture),
    ];

    private readonly Site _site;
    private readonly LogColumns _columns;
    private readonly long _notBefore;
    private readonly List<LogEvent> _events = [];
    private readonly List<BadRow> _bad = [];
    private readonly HashSet<(decimal, LogKind, int, long?, string?)> _seen = [];

    /// <summary>Reads the logs of a site.</summary>
    public LogReader(Site site, LogColumns columns)
    {
        ArgumentNullException.ThrowIfNull(site);
        (_site, _columns) = (site, columns);
        _notBefore = site.TimeZone.AtStartOfDay(site.Effective.PlusYears(-YearsBefore)).ToInstant().ToUnixTimeSeconds();
    }

    /// <summary>What the logs tell, in order of time, each once.</summary>
    public IReadOnlyList<LogEvent> Events => [.. _events.OrderBy(entry => entry.At).ThenBy(entry => entry.Number ?? 0).ThenBy(entry => entry.Kind == LogKind.Open)];

    /// <summary>Rows that were passed over, in order.</summary>
    public IReadOnlyList<BadRow> Bad => _bad;

    /// <summary>Rows that say again what another said.</summary>
    public int Doubled { get; private set; }

    /// <summary>Reads a log.</summary>
    /// <param name="file">Its name, for the report.</param>
    /// <param name="text">Its text; the first line names the columns.</param>
    /// <returns>Null, or what stands in the way of reading any of it.</returns>
    public string? Read(string file, string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var lines = text.TrimStart('\uFEFF').Split('\n');
        var separator = ";\t,".MaxBy(letter => lines[0].Count(other => other == letter));
        if (Cells(lines[0], separator) is not { } header) return "the first line, which names the columns, cannot be read";
        var row = new Row(_columns.PlacesIn(header));
        if (!row.Has("time") && !(row.Has("from") && row.Has("to"))) return $"no column of {file} is called time, or from and to; say how they are called: --columns time=NAME";
        if (row.Has("time") && !row.Has("do")) return $"no column of {file} says what happened; say how it is called: --columns do=NAME";
        for (var index = 1; index < lines.Length; index++)
        {
            if (string.IsNullOrWhiteSpace(lines[index])) continue;
            var place = new LogPlace(file, index + 1);
            row.Cells = Cells(lines[index], separator);
            var why = row.Cells is null ? "it cannot be read as a row" : Add(place, row);
            if (why is not null) _bad.Add(new BadRow(place, why));
        }

        return null;
    }

    /// <summary>The cells of a line; null where its quotes do not match.</summary>
    private static List<string>? Cells(string line, char separator)
    {
        line = line.TrimEnd('\r');
        if (line.Count(letter => letter == '"') % 2 == 1) return null;
        using var reader = Sep.New(separator).Reader(options => options with { HasHeader = false, Unescape = true, DisableColCountCheck = true }).FromText(line);
        var cells = new List<string>();
        foreach (var row in reader)
        {
            for (var column = 0; column < row.ColCount; column++) cells.Add(row[column].ToString());
        }

        return cells;
    }

    private string? Add(LogPlace place, Row row)
    {
        if (!row.Has("time")) return AddInterval(place, row);
        if (Time(row["time"], out var at) is { } wrong) return wrong;
        var word = row["do"].Split(',')[0];
        if (KindOf(word) is not { } kind) return $"\"{word}\" is nothing that a valve does";
        if (Zone(row, out var zone) is { } unknown) return unknown;
        if (kind is LogKind.Open or LogKind.Close or LogKind.Hand && zone is null) return "it names no zone and no output";
        Keep(new LogEvent(place, at, kind, zone ?? -1, Reason(row), Count(row["number"]), Number(row["litres"]), Number(row["meter"]), row.OrNull("list")));
        return null;
    }

    /// <summary>A watering in one row is its opening and its closing.</summary>
    private string? AddInterval(LogPlace place, Row row)
    {
        if (Time(row["from"], out var from) is { } wrong) return wrong;
        var isOpen = row["to"].Length == 0;
        var to = from;
        if (!isOpen && Time(row["to"], out to) is { } wrongEnd) return wrongEnd;
        if (to < from) return "it ends before it begins";
        if (Zone(row, out var zone) is { } unknown) return unknown;
        if (zone is null) return "it names no zone and no output";
        var first = new LogEvent(place, from, LogKind.Open, zone.Value, Reason(row), Count(row["number"]), Number(row["litres"]), Number(row["meter"]), row.OrNull("list"));
        if (Keep(first) && !isOpen) Keep(first with { At = to, Kind = LogKind.Close, Why = null, Litres = null, Meter = null });
        return null;
    }

    private bool Keep(LogEvent entry)
    {
        var isNew = _seen.Add((entry.At, entry.Kind, entry.Zone, entry.Number, entry.Why));
        if (isNew) _events.Add(entry);
        else Doubled++;
        return isNew;
    }

    /// <summary>The reason in its own column, or after a comma: <c>skip,rain</c>.</summary>
    private static string? Reason(Row row)
    {
        if (row.OrNull("why") is { } why) return why;
        var parts = row["do"].Split(',', 2);
        return parts.Length > 1 ? parts[1].Trim() : null;
    }

    private static LogKind? KindOf(string word) => word.Trim().ToLowerInvariant() switch
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

    /// <summary>The zone of a row, by its name, its label or its output; null where it names none, or a device that is no zone.</summary>
    private string? Zone(Row row, out int? zone)
    {
        zone = null;
        var (name, output, controller) = (row["zone"], row["output"], row.OrNull("controller"));
        if (name.Length > 0)
        {
            zone = _site.Zones.FirstOrDefault(known => known.Name == name || known.Label == name)?.Index;
            return zone is null ? $"no zone is called \"{name}\"" : null;
        }

        if (output.Length == 0) return null;
        if (!int.TryParse(output, NumberStyles.None, CultureInfo.InvariantCulture, out var number)) return $"\"{output}\" is no number of an output";
        if (controller is null && _site.Controllers.Length > 1) return "it does not say which controller the output is of";
        bool IsMeant(Controller known) => controller is null || known.Name == controller;
        zone = _site.Zones.FirstOrDefault(known => known.Output == number && IsMeant(known.Controller))?.Index;
        if (zone is not null) return null;
        zone = _site.Devices.Any(device => device.Output == number && IsMeant(device.Controller)) ? -1 : null;
        return zone is null ? $"no zone has output {number}" : null;
    }

    private string? Time(string text, out decimal at)
    {
        if (!TryTime(text, out at)) return $"\"{text}\" is no time";
        return at < _notBefore ? $"\"{text}\" is long before the site began: a clock that was not set" : null;
    }

    private bool TryTime(string text, out decimal at)
    {
        at = 0;
        if (Number(text) is { } seconds)
        {
            at = seconds;
            return true;
        }

        foreach (var pattern in WithOffset)
        {
            if (pattern.Parse(text) is { Success: true, Value: var moment }) return Set(moment.ToInstant(), out at);
        }

        foreach (var pattern in Local)
        {
            if (pattern.Parse(text) is { Success: true, Value: var moment }) return Set(_site.TimeZone.ResolveLocal(moment, Resolvers.LenientResolver).ToInstant(), out at);
        }

        return false;
    }

    private static bool Set(Instant instant, out decimal at)
    {
        at = instant.ToUnixTimeMilliseconds() / 1000m;
        return true;
    }

    /// <summary>A number with a decimal point or a decimal comma.</summary>
    private static decimal? Number(string text) =>
        decimal.TryParse(text.Replace(',', '.'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var number) && Math.Abs(number) < 1e11m ? number : null;

    private static long? Count(string text) => long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;

    /// <summary>A row by the names of its columns.</summary>
    private sealed class Row(Dictionary<string, int> places)
    {
        public List<string>? Cells { get; set; }

        public string this[string column] => places.TryGetValue(column, out var place) && place < Cells!.Count ? Cells[place].Trim() : "";

        public bool Has(string column) => places.ContainsKey(column);

        public string? OrNull(string column) => this[column] is { Length: > 0 } text ? text : null;
    }
}
