using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Timetables;
using YamlDotNet.Core.Events;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>A list that is deployed, in any of the forms in which it is written: its rows, without their numbers, and what it says of itself.</summary>
/// <param name="Kind">Which list.</param>
/// <param name="From">The first second that it is meant for, in Unix seconds.</param>
/// <param name="Until">The second after the last.</param>
/// <param name="Hash">The hash that closes it.</param>
/// <param name="Notes">Where it comes from.</param>
/// <param name="Controller">The only controller that it is for; null for all.</param>
/// <param name="Rows">In order.</param>
internal sealed record DeployedList(
    TimetableList Kind, long From, long Until, string Hash, ClosingNotes Notes, string? Controller, ImmutableArray<DeployedListRow> Rows)
{
    /// <summary>What to do about a list that is not as it was written.</summary>
    internal const string Anew = "copy the whole file, or compile it anew";

    /// <summary>Whether it is a table, in which all is verified.</summary>
    public bool IsTable { get; private init; }

    /// <summary>The longest that each output may be on, in seconds as written; empty where the list does not say.</summary>
    public ImmutableDictionary<(string Controller, string Output), string> Longest { get; private init; } =
        ImmutableDictionary<(string Controller, string Output), string>.Empty;

    /// <summary>The dates that it is for, by the clock of a time zone.</summary>
    public Horizon DatesIn(DateTimeZone zone)
    {
        LocalDate DateOf(long at) => Instant.FromUnixTimeSeconds(at).InZone(zone).Date;
        var (from, until) = (DateOf(From), DateOf(Until));
        return new Horizon(from, until > from ? until : from.PlusDays(1));
    }

    /// <summary>Reads a list in CSV, or a document in YAML or JSON.</summary>
    /// <exception cref="DeployedException">It is none, or not as it was written.</exception>
    public static DeployedList Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return KindOf(text) is { } kind ? OfTable(kind, text) : OfDocument(text);
    }

    private static string[] ColumnsOf(TimetableList kind) => kind switch
    {
        TimetableList.Runs => CsvRuns.Columns,
        TimetableList.Openings => CsvOpenings.Columns,
        _ => CsvSwitchings.Columns,
    };

    private static TimetableList? KindOf(string text)
    {
        foreach (var kind in Enum.GetValues<TimetableList>())
        {
            if (text.StartsWith(string.Join(',', ColumnsOf(kind)) + "\r\n", StringComparison.Ordinal)) return kind;
        }

        return null;
    }

    private static DeployedList OfTable(TimetableList kind, string text)
    {
        var table = new ListTable(text);
        if (table.Last.Split(',') is not ["end", var count, var hash, var from, var until, .. var notes])
            throw new DeployedException(table.LastLine, 1, "the last line with its count and hash is missing: the list was cut off", Anew);
        var there = (table.LastLine - 2).ToString(CultureInfo.InvariantCulture);
        if (count != there && count.Length is > 0 and < 10 && count.All(char.IsAsciiDigit))
            throw new DeployedException(table.LastLine, 1, $"not complete: {there} of {count} {kind.ToString().ToLowerInvariant()}", Anew);
        if (count != there || table.Hash() != hash)
            throw new DeployedException(table.LastLine, 1, "the list was altered after it was written: it has another count or hash", Anew);
        if (!long.TryParse(from, NumberStyles.None, CultureInfo.InvariantCulture, out var first)
            || !long.TryParse(until, NumberStyles.None, CultureInfo.InvariantCulture, out var end) || notes.Length < 4)
            throw new DeployedException(table.LastLine, 1, "the last line has no dates", Anew);
        var words = new RepeatedWords();
        var rows = table.Rows(ColumnsOf(kind), words).Select(row => RowOf(kind, row.Fields, row.Line, words)).ToImmutableArray();
        var closing = new ClosingNotes(notes[0], notes[1], notes[2], notes[3]);
        return new DeployedList(kind, first, end, hash, closing, OnlyController(rows), rows)
        {
            IsTable = true,
            Longest = rows.Where(row => row.Field("max_on_s").Length > 0).DistinctBy(row => (row.Controller, row.Field("output")))
                .ToImmutableDictionary(row => (row.Controller, row.Field("output")), row => row.Field("max_on_s")),
        };
    }

    private static string? OnlyController(ImmutableArray<DeployedListRow> rows) =>
        rows.Select(row => row.Controller).Distinct().Take(2).ToArray() is [{ Length: > 0 } only] ? only : null;

    private static DeployedList OfDocument(string text)
    {
        using var events = new YamlEvents(new StringReader(text));
        events.Expect<MappingStart>("the timetable");
        var parts = new Dictionary<string, YamlNode>(StringComparer.Ordinal);
        var rows = new Dictionary<TimetableList, ImmutableArray<DeployedListRow>>();
        while (events.NextKey("the timetable") is { } key)
        {
            var name = key.Value;
            events.Next();
            if (Enum.TryParse<TimetableList>(name, ignoreCase: true, out var kind) && events.Current is SequenceStart) rows[kind] = RowsOf(events, kind);
            else Keep(events, name, parts);
        }

        if (parts.GetValueOrDefault("site") is not YamlMap site || parts.GetValueOrDefault("valid") is not YamlMap valid
            || parts.GetValueOrDefault("end") is not YamlMap end || rows.Count == 0)
            throw new DeployedException(1, 1, "this is not a timetable or a list of waterscript", "give a file that waterscript compile wrote");
        var (list, hash) = rows.ContainsKey(TimetableList.Switchings) ? (TimetableList.Switchings, "switchings_sha256")
            : rows.ContainsKey(TimetableList.Openings) ? (TimetableList.Openings, "openings_sha256") : (TimetableList.Runs, "sha256");
        var notes = new ClosingNotes(site.Text("sources_sha256") ?? "", site.Text("revision") ?? "", site.Needed("timezone_data"), site.Needed("sha256"));
        var only = (parts.GetValueOrDefault("controller") as YamlValue)?.Value;
        var (from, until) = (Epoch(valid, "from_epoch"), Epoch(valid, "until_epoch"));
        var seal = new ListSeal(end, new Validity(from, until), parts.GetValueOrDefault("outputs"));
        seal.Verify(list, hash, rows[list]);
        return new DeployedList(list, from, until, end.Needed(hash), notes, only, rows[list]) { Longest = seal.Longest.ToImmutableDictionary() };
    }

    private static long Epoch(YamlMap valid, string key) => (long)(valid.Number(key, long.MaxValue)
        ?? throw YamlEvents.At(valid.Place, $"{key} is missing", Anew));

    private static void Keep(YamlEvents events, string name, Dictionary<string, YamlNode> parts)
    {
        var left = Limits.DeployedRows;
        parts[name] = YamlNode.Read(events, ref left);
    }

    private static ImmutableArray<DeployedListRow> RowsOf(YamlEvents events, TimetableList kind)
    {
        var rows = ImmutableArray.CreateBuilder<DeployedListRow>();
        var words = new RepeatedWords();
        while (events.Next() is not SequenceEnd)
        {
            if (rows.Count >= Limits.DeployedRows) throw events.Here("there are too many rows", "compile fewer days");
            var left = Limits.DeployedValues;
            var node = YamlNode.Read(events, ref left);
            var map = node as YamlMap ?? throw YamlEvents.At(node.Place, "this row is not a map", Anew);
            var entries = map.Entries.Where(entry => entry.Value is YamlValue or YamlList).ToArray();
            var fields = new ListFields(
                words.Columns(Array.ConvertAll(entries, entry => entry.Key)), Array.ConvertAll(entries, entry => words.Of(TextOf(entry.Value))));
            rows.Add(RowOf(kind, fields, (int)node.Place.Line, words));
        }

        return rows.ToImmutable();
    }

    /// <summary>A value, or the values of a list with a space between them, as a table has them.</summary>
    private static string TextOf(YamlNode node) => node is YamlList list ? string.Join(' ', list.Items.Select(TextOf)) : (node as YamlValue)?.Value ?? "";

    private static DeployedListRow RowOf(TimetableList kind, ListFields fields, int line, RepeatedWords words)
    {
        string Of(string column) => fields.Of(column) ?? "";
        long at;
        var isTime = kind == TimetableList.Switchings
            ? long.TryParse(Of("t"), NumberStyles.None, CultureInfo.InvariantCulture, out at)
            : DeployedMoments.TryInstant(Of("from"), out at);
        if (!isTime) throw new DeployedException(line, 1, "this row has no time", Anew);
        var what = kind switch
        {
            TimetableList.Switchings => $"{Of("controller")} output {Of("output")} {Of("do")}s"
                + (Of("after_ms") is "" or "0" ? "" : $" after {Of("after_ms")} ms")
                + (Of("pulse_ms").Length > 0 ? $", pulse {Of("pulse_ms")} ms" : ""),
            TimetableList.Openings => $"{NameIn(fields)} on until {Of("to")}",
            _ => $"{Of("zone")} by {Of("schedule")} until {Of("to")}",
        };
        return new DeployedListRow(at, words.Of(what), Of("controller"), line, fields);
    }

    private static string NameIn(ListFields fields) =>
        fields.Of("name") ?? fields.Of("zone") ?? fields.Of("pump") ?? fields.Of("master") ?? fields.Of("injector") ?? "";
}

/// <summary>A row of a list.</summary>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="What">What happens then.</param>
/// <param name="Controller">Of which controller; may be empty.</param>
/// <param name="Line">Where it stands, from 1.</param>
/// <param name="Fields">What it has, by the names of the columns.</param>
internal sealed record DeployedListRow(long At, string What, string Controller, int Line, ListFields Fields)
{
    /// <summary>What it has in a column; empty for nothing.</summary>
    public string Field(string column) => Fields.Of(column) ?? "";
}
