using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Model;

namespace WaterScript.Documents.ICalendar;

/// <summary>What an event says apart from when it is.</summary>
/// <param name="Description">The steps and the note, in lines.</param>
/// <param name="Zones">Names that people read of the zones watered, in order of the site.</param>
internal sealed record EventContent(string Description, ImmutableArray<string> Zones)
{
    /// <summary>Lines of runs that are listed one by one; of more, each zone is listed once.</summary>
    private const int MostLines = 20;

    /// <summary>The content of an event.</summary>
    /// <param name="site">The site.</param>
    /// <param name="schedule">One of its schedules.</param>
    /// <param name="runs">What it waters, in order of start.</param>
    /// <param name="heading">A first line, or null.</param>
    public static EventContent Of(Site site, Schedule schedule, IReadOnlyList<ShownRun> runs, string? heading)
    {
        var lines = new List<string>();
        if (heading is not null) lines.Add(heading);
        lines.AddRange(OneByOne(site, runs) is { Count: <= MostLines } parts ? parts : ByZone(site, runs));
        if (schedule.Note is { } note) lines.Add(note);
        var zones = site.Zones.Where(zone => runs.Any(run => run.Zone == zone.Index)).Select(NameOf);
        return new EventContent(string.Join('\n', lines), [.. zones]);
    }

    /// <summary><c>Lemon terrace + Vines: 40 min</c></summary>
    private static List<string> OneByOne(Site site, IReadOnlyList<ShownRun> runs)
    {
        var lines = new List<string>();
        for (var i = 0; i < runs.Count && lines.Count <= MostLines;)
        {
            var first = runs[i];
            var names = new List<string>();
            for (; i < runs.Count && runs[i].Offset == first.Offset && runs[i].Seconds == first.Seconds; i++) names.Add(NameOf(site.Zones[runs[i].Zone]));
            lines.Add($"{string.Join(" + ", names)}: {Length(first.Seconds)}");
        }

        return lines;
    }

    /// <summary><c>Salad beds: 98 times, 1 h 13 min 30 s</c></summary>
    private static IEnumerable<string> ByZone(Site site, IReadOnlyList<ShownRun> runs) => runs
        .GroupBy(run => run.Zone)
        .Select(zone => string.Create(CultureInfo.InvariantCulture,
            $"{NameOf(site.Zones[zone.Key])}: {zone.Count()} times, {Length(zone.Sum(run => run.Seconds))}"));

    private static string NameOf(Zone zone) => zone.Label ?? zone.Name;

    private static string Length(long seconds)
    {
        var parts = new List<string>();
        if (seconds >= 3_600) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds / 3_600} h"));
        if (seconds / 60 % 60 > 0) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds / 60 % 60} min"));
        if (seconds % 60 > 0) parts.Add(string.Create(CultureInfo.InvariantCulture, $"{seconds % 60} s"));
        return string.Join(' ', parts);
    }
}

/// <summary>A run as an event shows it.</summary>
/// <param name="Offset">Seconds from the start of its pass.</param>
/// <param name="Seconds">How long it lasts.</param>
/// <param name="Zone">Index among the site's zones.</param>
/// <param name="Step">Index of its step.</param>
internal readonly record struct ShownRun(long Offset, long Seconds, int Zone, int Step);
