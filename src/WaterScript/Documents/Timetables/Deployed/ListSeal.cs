using System.Collections.Immutable;
using System.Globalization;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>
/// Verifies that the rows of a list in YAML or JSON are those that were compiled, by the count and the hash that close it. The rows of runs do not have
/// the outputs that are in the hash, so of them only the count is verified.
/// </summary>
internal sealed class ListSeal
{
    private static readonly string[] Kinds = ["zone", "pump", "master", "injector"];

    private readonly YamlMap _end;
    private readonly Validity _valid;
    private readonly Dictionary<(string Controller, string Output), string> _longest = [];

    /// <param name="end">The record that closes the document.</param>
    /// <param name="valid">The time that it is for.</param>
    /// <param name="outputs">The part about outputs; null where there is none.</param>
    public ListSeal(YamlMap end, Validity valid, YamlNode? outputs)
    {
        (_end, _valid) = (end, valid);
        foreach (var output in (outputs as YamlList)?.Items.OfType<YamlMap>() ?? [])
            _longest.TryAdd((TextOf(output, "controller"), TextOf(output, "output")), TextOf(output, "max_on_s"));
    }

    /// <summary>The longest that each output may be on, as the part about outputs has it.</summary>
    public IReadOnlyDictionary<(string Controller, string Output), string> Longest => _longest;

    /// <summary>Does nothing where all is as it was.</summary>
    /// <exception cref="DeployedException">It is not.</exception>
    public void Verify(TimetableList kind, string hash, ImmutableArray<DeployedListRow> rows)
    {
        var name = kind.ToString().ToLowerInvariant();
        if (_end.Number(name, long.MaxValue) != rows.Length)
        {
            var count = _end.Number(name, long.MaxValue) ?? 0;
            throw YamlEvents.At(_end.Place, string.Create(CultureInfo.InvariantCulture, $"not complete: {rows.Length} of {count} {name}"), DeployedList.Anew);
        }

        if (kind == TimetableList.Runs) return;
        using var copy = new CsvCopy(kind == TimetableList.Openings ? CsvOpenings.Columns : CsvSwitchings.Columns);
        foreach (var row in rows) copy.Line(kind == TimetableList.Openings ? Opening(row) : Switching(row));
        if (_end.Needed(hash) != copy.Hash(_valid))
            throw YamlEvents.At(_end.Place, $"the {name} were changed after they were compiled: their sha256 is another", DeployedList.Anew);
    }

    private static string TextOf(YamlMap map, string key) => (map.Entries.GetValueOrDefault(key) as YamlValue)?.Value ?? "";

    private static string[] Opening(DeployedListRow row)
    {
        var kind = Kinds.FirstOrDefault(kind => row.Field(kind).Length > 0) ?? "";
        var seconds = DeployedMoments.TryInstant(row.Field("to"), out var end) ? (end - row.At).ToString(CultureInfo.InvariantCulture) : "";
        return
        [
            row.Field("opening"), row.Field("from"), row.Field("to"), row.Field("controller"), row.Field("output"), kind, row.Field(kind), seconds,
            row.Field("runs"),
        ];
    }

    private string[] Switching(DeployedListRow row) =>
    [
        row.Field("t"), row.Field("after_ms") is { Length: > 0 } after ? after : "0", row.Field("controller"), row.Field("output"), row.Field("do"),
        row.Field("polarity"), row.Field("pulse_ms"), _longest.GetValueOrDefault((row.Field("controller"), row.Field("output")), ""), row.Field("opening"),
    ];
}
