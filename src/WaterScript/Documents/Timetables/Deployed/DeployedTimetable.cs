using System.Globalization;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>
/// A timetable that was compiled as YAML and is out there, read once from top to bottom. It is read by the events of YamlDotNet, and nothing of a row is
/// held when it is over. What <see cref="Runs"/> gave is to be believed only after <see cref="Finish"/>, which verifies all hashes.
/// </summary>
internal sealed class DeployedTimetable : IDisposable
{
    private const string Whole = "compile it with --to yaml and without --only";
    private static readonly string[] Needed = ["run", "from", "to", "zone", "schedule", "day", "start", "pass", "pass_start", "step"];
    private static readonly string[] AfterRuns =
        ["openings", "policy", "outputs", "switchings", "taken", "taken_runs", "taken_runs_left_out", "sun", "sun_days_left_out", "totals"];

    private readonly YamlEvents _events;
    private readonly DeployedSwitchings _switchings;
    private readonly CsvCopy _runs = new(CsvRuns.Columns);
    private readonly Dictionary<string, int> _zones;
    private readonly Dictionary<string, int> _schedules;
    private readonly IEnumerator<Run> _drawn;
    private Validity _valid;
    private Mark _start;
    private int _left = Limits.DeployedRows;
    private bool _isFinished;

    private DeployedTimetable(YamlEvents events, SourceText source, IDateTimeZoneProvider zones)
    {
        (_events, Source) = (events, source);
        using var description = new DeployedSite(source, zones);
        ReadHead(description);
        Site = description.Finish();
        SiteHash = description.Hash!;
        TimeZoneData = description.TimeZoneData;
        Controller = ControllerName is null ? null : Site.Controllers.FirstOrDefault(controller => controller.Name == ControllerName)
            ?? throw YamlEvents.At(_start, $"no controller is called {Quoted.Of(ControllerName)}", YamlEvents.CompileAnew);
        _zones = Site.Zones.ToDictionary(zone => zone.Name, zone => zone.Index, StringComparer.Ordinal);
        _schedules = Site.Schedules.ToDictionary(schedule => schedule.Name, schedule => schedule.Index, StringComparer.Ordinal);
        _switchings = new DeployedSwitchings(events, Site);
        _drawn = Rows().GetEnumerator();
    }

    /// <summary>The file, without its text.</summary>
    public SourceText Source { get; }

    /// <summary>What of the site a comparison needs: names, labels, outputs and flows. Its schedules have no days, no starts and no steps.</summary>
    public Site Site { get; }

    /// <summary>The hash of the whole description that it was compiled from.</summary>
    public string SiteHash { get; }

    /// <summary>Version of the time-zone data that its clock times were read with; null where it is not said.</summary>
    public string? TimeZoneData { get; }

    /// <summary>The dates that it covers.</summary>
    public Horizon Horizon { get; private set; } = null!;

    /// <summary>The one controller that it is for; null for all.</summary>
    public Controller? Controller { get; }

    private string? ControllerName { get; set; }

    /// <summary>Begins to read, up to the first run.</summary>
    /// <param name="text">The text, from its beginning; is closed with the timetable.</param>
    /// <param name="path">What people call it.</param>
    /// <param name="zones">The time zones that there are.</param>
    /// <exception cref="DeployedException">It is no such timetable.</exception>
    public static DeployedTimetable Open(TextReader text, string path, IDateTimeZoneProvider zones)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(zones);
        return new DeployedTimetable(new YamlEvents(text), SourceText.From(path, ""), zones);
    }

    /// <summary>The runs in order, which can be gone through once. Their steps are not read.</summary>
    /// <exception cref="DeployedException">A run is not one, or not in order.</exception>
    public IEnumerable<Run> Runs()
    {
        while (_drawn.MoveNext()) yield return _drawn.Current;
    }

    /// <summary>Reads the rest, and verifies that all of it is as it was compiled; does nothing where that is done.</summary>
    /// <exception cref="DeployedException">It is not.</exception>
    public void Finish()
    {
        if (_isFinished) return;
        while (_drawn.MoveNext())
        {
            // What nobody asked for is verified too.
        }

        var next = 0;
        while (_events.NextKey("the timetable") is { } key)
        {
            var (name, place) = (key.Value, key.Start);
            if (name == "end")
            {
                _events.Next();
                ReadEnd(place);
                _isFinished = true;
                return;
            }

            var index = Array.IndexOf(AfterRuns, name);
            if (index < next) throw YamlEvents.At(place, $"{Quoted.Of(name)} is not what comes here", YamlEvents.CompileAnew);
            next = index + 1;
            _events.Next();
            ReadPart(name);
        }

        throw _events.Here("the timetable ends without its closing record: it was cut off", "copy the whole file, or " + YamlEvents.CompileAnew);
    }

    /// <summary>The hashes of the switchings of all controllers together and, where there are more, of each alone; after <see cref="Finish"/>.</summary>
    public IEnumerable<(string? Hash, Controller? Controller)> HashesOfSwitchings() => _switchings.Hashes(_valid, Controller);

    /// <inheritdoc/>
    public void Dispose()
    {
        _drawn.Dispose();
        _events.Dispose();
        _runs.Dispose();
        _switchings.Dispose();
    }

    private void ReadHead(DeployedSite description)
    {
        _events.Expect<MappingStart>("the timetable");
        var key = _events.NextKey("the timetable");
        if (key?.Value != "waterscript") throw _events.Here("this is not a timetable of waterscript", Whole);
        if (_events.Next() is not Scalar { Value: "1" })
            throw _events.Here("this form of a timetable is not known", "use the program that compiled it, or " + YamlEvents.CompileAnew);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var left = Limits.DeployedValues;
        _events.Hold(Limits.DeployedDescription);
        while (_events.NextKey("the timetable") is { } next && next.Value != "runs")
        {
            var name = next.Value;
            if (name is "end" or "openings" or "switchings") throw _events.Here("this timetable has no runs", Whole);
            if (!seen.Add(name)) throw _events.Here($"{Quoted.Of(name)} stands here twice", YamlEvents.CompileAnew);
            _events.Next();
            var node = YamlNode.Read(_events, ref left);
            if (name == "valid") ReadValid(node);
            else if (name == "controller")
                (ControllerName, _start) =
                    ((node as YamlValue)?.Value ?? throw YamlEvents.At(node.Place, "controller is not a name", YamlEvents.CompileAnew), node.Place);
            else if (name != "places") description.Take(name, node);
        }

        if (_events.Current is MappingEnd) throw _events.Here("this timetable has no runs", Whole);
        if (!seen.Contains("valid")) throw _events.Here("valid is missing", YamlEvents.CompileAnew);
        _events.Hold(null);
        _events.Next();
    }

    private void ReadValid(YamlNode node)
    {
        var map = node as YamlMap ?? throw YamlEvents.At(node.Place, "valid is not a map", YamlEvents.CompileAnew);
        var (from, until) = (map.Needed("from"), map.Needed("until"));
        if (!DeployedMoments.TryInstant(from, out var first) || !DeployedMoments.TryInstant(until, out var end))
            throw YamlEvents.At(map.Place, "from or until is not a time like 2026-05-01T00:00:00+01:00", YamlEvents.CompileAnew);
        if (!IsSame(map, "from_epoch", first) || !IsSame(map, "until_epoch", end))
            throw YamlEvents.At(map.Place, "from and until are not the moments that from_epoch and until_epoch count", YamlEvents.CompileAnew);
        _valid = new Validity(first, end);
        Horizon = new Horizon(DateOf(from), DateOf(until));
        if (Horizon.Until <= Horizon.From) throw YamlEvents.At(map.Place, "until is not after from", YamlEvents.CompileAnew);
        if (Period.DaysBetween(Horizon.From, Horizon.Until) > Limits.HorizonDays)
            throw YamlEvents.At(map.Place, string.Create(CultureInfo.InvariantCulture, $"more than {Limits.HorizonDays} days"), "compile fewer days");
    }

    private static bool IsSame(YamlMap map, string key, long instant) =>
        map.Entries.GetValueOrDefault(key) is YamlValue { Number: { } number } && number == instant;

    private static LocalDate DateOf(string moment) =>
        DeployedMoments.TryDate(moment.AsSpan(0, 10), out var day) ? CivilDate.FromDayNumber(day).ToLocalDate() : default;

    private IEnumerable<Run> Rows()
    {
        var rows = new DeployedRows(_events, "runs", ["run", "from", "to", "zone", "schedule", "day", "start", "pass", "pass_start", "step"],
            ["depth_mm", "volume_l"]);
        var before = long.MinValue;
        var number = 0L;
        while (rows.TryNext(ref _left))
        {
            var run = RunOf(rows, ref number);
            if (run.Start < before) throw rows.Problem("this run begins before the one above it");
            before = run.Start;
            yield return run;
        }
    }

    /// <summary>Days between the date of a pass and its start.</summary>
    private const int Farthest = 20 * Limits.PassDays;

    private Run RunOf(DeployedRows rows, ref long number)
    {
        var (start, end, passStart, day) = (rows.Instant(1), rows.Instant(2), rows.Instant(8), rows.Date(5));
        if (!_zones.TryGetValue(rows[3], out var zone)) throw rows.Problem($"no zone is called {Quoted.Of(rows[3])}");
        if (!_schedules.TryGetValue(rows[4], out var schedule)) throw rows.Problem($"no schedule is called {Quoted.Of(rows[4])}");
        if (end <= start) throw rows.Problem("to is not after from");
        if (passStart > start) throw rows.Problem("pass_start is after from");
        if (passStart < _valid.From || passStart >= _valid.Until)
        {
            throw rows.Problem($"pass_start is {Quoted.Of(rows[8])}, which is not within the time that is valid");
        }

        // A pass may begin on another date than the one that it belongs to; one that a scale stretches or that follows others, on a distant one.
        if (Math.Abs(day - (passStart / ZoneClock.SecondsInDay)) > Farthest)
        {
            throw rows.Problem($"day is {Quoted.Of(rows[5])}, which is far from pass_start");
        }

        var last = number;
        number = rows.Number(0, 1, long.MaxValue);
        if (number <= last) throw rows.Problem("the number of this run is not above that of the one before it");
        var run = new Run(number, start, end, 0, zone, schedule, day, (int)rows.Number(6, 0, int.MaxValue), (int)rows.Number(7, 1, int.MaxValue),
            passStart, Step: -1);
        if (run.StartNumber == 0)
            throw new DeployedException((int)rows.Place.Line, (int)rows.Place.Column, "this is one pass (--run), and not the timetable of some dates",
                "compile it without --run");
        var wired = Site.Zones[zone];
        _runs.Line(
            rows[0], rows[1], rows[2], rows[3], wired.Output > 0 ? Text(wired.Output) : "", wired.Controller?.Name ?? "", rows[4], rows[5], rows[6], rows[7],
                rows[8], rows[9], Text(run.Seconds), rows[10], rows[11]);
        return run;
    }

    private void ReadPart(string name)
    {
        switch (name)
        {
            case "openings":
                _switchings.ReadOpenings(ref _left);
                break;
            case "outputs":
                _switchings.ReadOutputs(ref _left);
                break;
            case "switchings":
                _switchings.ReadSwitchings(ref _left);
                break;
            default:
                var left = Limits.DeployedValues;
                YamlNode.Read(_events, ref left);
                break;
        }
    }

    private void ReadEnd(Mark place)
    {
        var left = Limits.DeployedValues;
        var end = YamlNode.Read(_events, ref left) as YamlMap ?? throw YamlEvents.At(place, "end is not a map", YamlEvents.CompileAnew);
        Verify(end, "runs", "sha256", _runs);
        Verify(end, "openings", "openings_sha256", _switchings.Openings);
        Verify(end, "switchings", "switchings_sha256", _switchings.Switchings);
        if (_events.NextKey("the timetable") is { } more) throw _events.Here($"{Quoted.Of(more.Value)} stands after the end", YamlEvents.CompileAnew);
        _events.End();
    }

    private void Verify(YamlMap end, string list, string hash, CsvTable table)
    {
        if (end.Number(list, long.MaxValue) != table.Count)
            throw YamlEvents.At(end.Place, string.Create(CultureInfo.InvariantCulture, $"there are {table.Count} {list}, and not as many as this record says"),
                "copy the whole file, or " + YamlEvents.CompileAnew);
        if (end.Needed(hash) != table.Hash(_valid))
            throw YamlEvents.At(end.Place, $"the {list} were changed after they were compiled: their sha256 is another", YamlEvents.CompileAnew);
    }

    private static string Text(long number) => number.ToString(CultureInfo.InvariantCulture);
}
