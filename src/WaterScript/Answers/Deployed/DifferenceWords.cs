using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Answers.Deployed;

/// <summary>How a list differs from the one that the file gives, for people: what changes alike on several dates is said once.</summary>
internal sealed class DifferenceWords
{
    private const int MostSentences = 12;
    private const int MostDates = 3;
    private const int MostNames = 6;
    private const int MostOutputs = 4;
    private const decimal FewLitres = 10;

    private readonly ListComparison _comparison;
    private readonly Site _site;
    private readonly SiteWords _words;
    private readonly WaterWords _water;
    private readonly ImmutableArray<DeviceOpening> _ofList;
    private readonly ImmutableArray<DeviceOpening> _ofFile;
    private readonly OpeningChanges _changes;

    public DifferenceWords(ListComparison comparison, Site site)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        ArgumentNullException.ThrowIfNull(site);
        (_comparison, _site, _words, _water) = (comparison, site, new SiteWords(site), new WaterWords(site));
        var openings = new DeviceOpenings(site);
        (_ofList, _ofFile) = (openings.Of(comparison.List), openings.Of(comparison.File));
        _changes = OpeningChanges.Between(_ofList, _ofFile, _words);
    }

    /// <summary>How many rows, on how many dates, and from when, as a clause.</summary>
    public string Head(long now)
    {
        if (_comparison.FirstDifferent is not { } first) return "the rows are the same, what limits them is not";
        var (list, kind) = (_comparison.List, _comparison.List.Kind.ToString().ToLowerInvariant());
        var dates = _changes.Dates.Length > 0 ? $", {Phrases.Count(_changes.Dates.Length, _changes.AreNights ? "night" : "day")}" : "";
        var (own, other) = (list.Rows.Length, _comparison.File.Rows.Length);
        var ofFile = other == own ? "" : string.Create(CultureInfo.InvariantCulture, $", the file gives {other}");
        return string.Create(CultureInfo.InvariantCulture, $"{_comparison.OnlyInList.Length} of {own} {kind}{ofFile}{dates}, from {_words.Moment(first)}")
            + (_comparison.IsSameFrom(now) && list.Until > now ? "; the same from now on" : "");
    }

    /// <summary>What changes, a sentence each, and then the sums.</summary>
    public IEnumerable<string> Sentences()
    {
        var places = PlacesOfChanges();
        foreach (var change in _changes.All.Take(MostSentences)) yield return Sentence(change, places);
        if (_changes.All.Length > MostSentences)
            yield return string.Create(CultureInfo.InvariantCulture, $"and {_changes.All.Length - MostSentences} more changes; --report json has all rows");
        if (Sums() is { Length: > 0 } sums) yield return sums;
    }

    private string Sentence(AlikeChange change, IReadOnlyDictionary<int, ImmutableArray<Location>> places)
    {
        var names = NamesOf(change.Devices);
        var dates = OnDates(change.Dates);
        var lengths = string.Join("; ", LengthsOf(change, places));
        if (change.IsOnlyInList || change.IsOnlyInFile)
        {
            var times = change.Pairs.Length > change.Dates.Length * change.Devices.Length ? $", {MomentWords.Times(change.Pairs.Length)}" : "";
            return $"only the {(change.IsOnlyInList ? "list" : "file")} opens {names}{times}{dates}{(lengths.Length > 0 ? ": " + lengths : "")}";
        }

        var verbs = VerbsOf(change.Opens!.Value, change.Closes!.Value, change.Devices.Length > 1);
        return $"{names} {verbs}{dates}{(lengths.Length == 0 ? "" : change.Devices.Length > 1 ? "; " + lengths : ": " + lengths)}";
    }

    private static string VerbsOf(long opens, long closes, bool areMany)
    {
        var ending = areMany ? "" : "s";
        if (opens == closes) return $"open{ending} and close{ending} {Shift(opens)}";
        if (opens == 0) return $"close{ending} {Shift(closes)}";
        return closes == 0 ? $"open{ending} {Shift(opens)}" : $"open{ending} {Shift(opens)} and close{ending} {Shift(closes)}";
    }

    private static string Shift(long seconds) => $"{Phrases.Length(Math.Abs(seconds))} {(seconds < 0 ? "earlier" : "later")}";

    private static string NamesOf(ImmutableArray<OpenedDevice> devices)
    {
        var names = devices.Select((device, index) =>
            device.Output.Length == 0 ? device.Name : $"{device.Name} ({(index == 0 ? "output " : "")}{device.Output})").ToList();
        if (names.Count > MostNames) return Phrases.Names(names, MostNames);
        return names.Count == 1 ? names[0] : $"{string.Join(", ", names[..^1])} and {names[^1]}";
    }

    private string OnDates(ImmutableArray<LocalDate> dates)
    {
        if (dates.Length == _changes.Dates.Length) return "";
        if (dates.Length <= MostDates) return " on " + string.Join(", ", dates.Select(MomentWords.DayOfYear));
        return string.Create(CultureInfo.InvariantCulture, $" on {dates.Length} of {_changes.Dates.Length} {(_changes.AreNights ? "nights" : "days")}");
    }

    /// <summary>For each zone how long it is open and what that is in water, in the list and in the file, where that changes.</summary>
    private IEnumerable<string> LengthsOf(AlikeChange change, IReadOnlyDictionary<int, ImmutableArray<Location>> places)
    {
        foreach (var zone in change.Devices.Select(device => device.Zone).OfType<Zone>().Take(MostNames))
        {
            var own = change.Pairs.Where(pair => (pair.List ?? pair.File)!.Value.Device.Zone == zone).ToList();
            var (list, file) = (Seconds(own.Select(pair => pair.List)), Seconds(own.Select(pair => pair.File)));
            if (list == file) continue;
            var where = places.TryGetValue(zone.Index, out var found) ? $" ({string.Join(", ", found.Select(SiteWords.Place))})" : "";
            string Litres(long seconds) => Water(zone.LitresPerMinute!.Value * seconds / 60);
            var water = zone.LitresPerMinute is null ? "" : ", " + Arrow(Range(list, Litres), Range(file, Litres));
            var name = change.Devices.Length > 1 ? zone.DisplayName + " " : "";
            yield return name + Arrow(Range(list, Phrases.Length), Range(file, Phrases.Length)) + water + where;
        }
    }

    private static (long Least, long Most)? Seconds(IEnumerable<DeviceOpening?> openings)
    {
        var lengths = openings.OfType<DeviceOpening>().Select(opening => opening.To - opening.From).ToList();
        return lengths.Count == 0 ? null : (lengths.Min(), lengths.Max());
    }

    private static string Range((long Least, long Most)? seconds, Func<long, string> say)
    {
        if (seconds is not { } range) return "";
        var (least, most) = (say(range.Least), say(range.Most));
        return least == most ? least : $"{least} to {most}";
    }

    /// <summary><c>36 → 44 min</c>: the unit once, where both are a number of it.</summary>
    private static string Arrow(string old, string @new)
    {
        if (old.Length == 0 || @new.Length == 0) return old + @new;
        return old.Split(' ') is [var number, var unit] && @new.Split(' ') is [_, var other] && unit == other ? $"{number} → {@new}" : $"{old} → {@new}";
    }

    private string Water(decimal litres) => _water.Say(litres, litres < FewLitres ? 1 : 0);

    /// <summary>The longest that outputs may be on, and all water, where they change.</summary>
    private string Sums()
    {
        var longest = LongestChanges();
        var parts = longest.Take(MostOutputs).ToList();
        if (longest.Count > MostOutputs) parts[^1] += string.Create(CultureInfo.InvariantCulture, $" and of {longest.Count - MostOutputs} more");
        var (list, file) = (WaterOf(_ofList), WaterOf(_ofFile));
        if (list.Litres != file.Litres)
            parts.Add($"water {(list.IsAll && file.IsAll ? "in all" : "of zones with a flow")} "
                + $"{Arrow(_water.Say(list.Litres, 0), _water.Say(file.Litres, 0))}");
        return string.Join("; ", parts);
    }

    private List<string> LongestChanges()
    {
        var changed = _comparison.List.Longest.Where(output => _comparison.File.Longest.TryGetValue(output.Key, out var now) && now != output.Value);
        return
        [
            .. changed.OrderBy(output => output.Key.Controller, StringComparer.Ordinal).ThenBy(output => output.Key.Output.Length)
                .ThenBy(output => output.Key.Output, StringComparer.Ordinal)
                .Select((output, index) => $"{(index == 0 ? "longest time on of " : "")}output {output.Key.Output}"
                    + $"{(_site.Controllers.Length > 1 ? " of " + output.Key.Controller : "")}: {output.Value} → {_comparison.File.Longest[output.Key]} s"),
        ];
    }

    private static (decimal Litres, bool IsAll) WaterOf(ImmutableArray<DeviceOpening> openings)
    {
        var (litres, isAll) = (0m, true);
        foreach (var opening in openings)
        {
            if (opening.Device.Zone is not { } zone) continue;
            if (zone.LitresPerMinute is { } flow) litres += flow * (opening.To - opening.From) / 60;
            else isAll = false;
        }

        return (litres, isAll);
    }

    /// <summary>Where the file has the steps that water zones which change, by the index of the zone; of a zone with many none.</summary>
    private Dictionary<int, ImmutableArray<Location>> PlacesOfChanges()
    {
        const int most = 2;
        var times = _changes.All.SelectMany(change => change.Pairs).Select(pair => pair.File).OfType<DeviceOpening>()
            .Where(opening => opening.Device.Zone is not null).ToLookup(opening => opening.Device.Zone!.Index);
        var steps = new Dictionary<int, HashSet<Location>>();
        var timetable = Timetable.Of(_site, _comparison.Dates, new WorkBudget(Limits.CheckWorkOf(_site.SourceLength)));
        var next = times.ToDictionary(group => group.Key, group => new Queue<DeviceOpening>(group.OrderBy(opening => opening.From)));
        try
        {
            foreach (var run in timetable.Runs())
            {
                if (!next.TryGetValue(run.Zone, out var openings)) continue;
                while (openings.TryPeek(out var over) && over.To <= run.Start) openings.Dequeue();
                if (!openings.TryPeek(out var opening) || opening.From >= run.End) continue;
                if (!steps.TryGetValue(run.Zone, out var known)) steps[run.Zone] = known = [];
                if (known.Count <= most) known.Add(timetable.StepOf(run.Schedule, run.Step).Origin);
            }
        }
        catch (WorkUsedUpException)
        {
            return []; // Without places the sentences are still true.
        }

        return steps.Where(step => step.Value.Count is > 0 and <= most).ToDictionary(step => step.Key,
            step => step.Value.OrderBy(place => place.Span.Start).ToImmutableArray());
    }
}
