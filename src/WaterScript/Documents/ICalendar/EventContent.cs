using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Documents.ICalendar;

/// <summary>What an event says apart from when it is.</summary>
/// <param name="Lines">What is watered, in order, and what there is to say of it.</param>
/// <param name="Zones">Names that people read of the zones watered, in order of the site.</param>
internal sealed record EventContent(ImmutableArray<EventLine> Lines, ImmutableArray<string> Zones)
{
    /// <summary>Lines of runs that are listed one by one; of more, each zone is listed once.</summary>
    private const int MostLines = 20;

    /// <summary>The description of an event.</summary>
    /// <param name="clock">What the clock shows so many seconds after the event begins: <c>06:40</c>.</param>
    public string Description(Func<long, string> clock) =>
        string.Join('\n', Lines.Select(line => line.Offset is { } offset ? $"{clock(offset)} {line.Text}" : line.Text));

    /// <summary>The content of an event.</summary>
    /// <param name="site">The site.</param>
    /// <param name="schedule">One of its schedules.</param>
    /// <param name="runs">What it waters, in order of start.</param>
    /// <param name="from">When the event begins, in seconds from the start of the pass.</param>
    /// <param name="heading">A first line, where the event stands for several passes; else null.</param>
    public static EventContent Of(Site site, Schedule schedule, IReadOnlyList<ShownRun> runs, long from, string? heading)
    {
        var water = new WaterWords(site);
        var lines = ImmutableArray.CreateBuilder<EventLine>();
        if (heading is not null) lines.Add(new(null, heading));
        var parts = OneByOne(site, runs, water) is { Count: <= MostLines } few ? few : [.. ByZone(site, runs, water)];
        lines.AddRange(parts.Select(part => heading is null && part.Offset is { } offset ? part with { Offset = offset - from } : part with { Offset = null }));
        if (schedule.ExtraBecause is { } because) lines.Add(new(null, $"Extra watering: {because}"));
        if (schedule.Note is { } note) lines.Add(new(null, note));
        lines.Add(new(null, $"From {PlaceOf(schedule)}"));
        var zones = site.Zones.Where(zone => runs.Any(run => run.Zone == zone.Index)).Select(NameOf);
        return new EventContent(lines.DrainToImmutable(), [.. zones]);
    }

    /// <summary>What people read of a thing: its label, unless that is blank.</summary>
    public static string NameOf(string? label, string name) => string.IsNullOrWhiteSpace(label) ? name : label;

    private static string NameOf(Zone zone) => NameOf(zone.Label, zone.Name);

    /// <summary>Somebody has to do it, who reads it here.</summary>
    private static string NameByHand(Zone zone) => NameOf(zone) + (zone.IsHandWatered ? " (by hand)" : "");

    /// <summary><c>Lemon terrace + Vines: 40 min, 620.0 L</c></summary>
    private static List<EventLine> OneByOne(Site site, IReadOnlyList<ShownRun> runs, WaterWords water)
    {
        var lines = new List<EventLine>();
        for (var i = 0; i < runs.Count && lines.Count <= MostLines;)
        {
            var first = runs[i];
            var together = runs.Skip(i).TakeWhile(run => run.Offset == first.Offset && run.Seconds == first.Seconds).ToList();
            var names = together.Select(run => NameByHand(site.Zones[run.Zone]));
            lines.Add(new(first.Offset, $"{string.Join(" + ", names)}: {Phrases.Length(first.Seconds)}{Water(site, together, water)}"));
            i += together.Count;
        }

        return lines;
    }

    /// <summary><c>Salad beds: 98 times, 1 h 13 min 30 s, 58.8 L</c></summary>
    private static IEnumerable<EventLine> ByZone(Site site, IReadOnlyList<ShownRun> runs, WaterWords water) => runs
        .GroupBy(run => run.Zone)
        .Select(zone => new EventLine(null, string.Create(CultureInfo.InvariantCulture,
            $"{NameByHand(site.Zones[zone.Key])}: {zone.Count()} times, {Phrases.Length(zone.Sum(run => run.Seconds))}{Water(site, [.. zone], water)}")));

    /// <summary>The water of some runs, where the flow of each zone is known.</summary>
    private static string Water(Site site, List<ShownRun> runs, WaterWords water)
    {
        const int SecondsInMinute = 60;
        var litres = runs.Select(run => site.Zones[run.Zone].LitresPerMinute * run.Seconds / SecondsInMinute).ToList();
        return litres.Contains(null) ? "" : $", {water.Say(litres.Sum()!.Value)}";
    }

    /// <summary><c>garden.water:42</c>; only the name of the file, because where it lies on somebody's machine says nothing to others.</summary>
    private static string PlaceOf(Schedule schedule)
    {
        var path = schedule.Origin.Source.Path;
        return string.Create(CultureInfo.InvariantCulture, $"{path[(path.LastIndexOfAny(['/', '\\']) + 1)..]}:{schedule.Origin.Start.Line}");
    }
}

/// <summary>A line of a description.</summary>
/// <param name="Offset">When what it says begins, in seconds from the start of the event; null where it is about all of it.</param>
/// <param name="Text">What it says.</param>
internal readonly record struct EventLine(long? Offset, string Text);

/// <summary>A run as an event shows it.</summary>
/// <param name="Offset">Seconds from the start of its pass.</param>
/// <param name="Seconds">How long it lasts.</param>
/// <param name="Zone">Index among the site's zones.</param>
/// <param name="Step">Index of its step.</param>
internal readonly record struct ShownRun(long Offset, long Seconds, int Zone, int Step);
