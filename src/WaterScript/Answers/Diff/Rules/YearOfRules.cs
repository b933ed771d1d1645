using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Answers.Diff.Written;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text.Lines;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Rules;

/// <summary>
/// A file as rules, one a line, whatever its layout; and of each schedule, where the site can be read, what it comes to in a year. Two of these can be
/// compared line by line.
/// </summary>
internal sealed class YearOfRules
{
    private const string Indent = "  ";

    private readonly PlainLines _lines;
    private readonly Site? _site;
    private readonly ImmutableDictionary<string, ScheduleWaterings> _sums;

    private YearOfRules(Site? site, PlainLines lines)
    {
        (_site, _lines) = (site, lines);
        if (site is null)
        {
            _sums = ImmutableDictionary<string, ScheduleWaterings>.Empty;
            return;
        }

        using var compared = new WateringComparison(site, site, new Horizon(site.Effective, site.Effective.PlusYears(1)), Renames.None);
        _sums = compared.New.Sums(compared.InPart is null).ToImmutableDictionary(sums => sums.Schedule.Name);
    }

    /// <summary>Writes it.</summary>
    /// <param name="files">The file, or all files of a site.</param>
    /// <param name="site">The site, where it was read without an error; else null.</param>
    /// <param name="lines">Where to.</param>
    public static void Write(ImmutableArray<FileNode> files, Site? site, PlainLines lines) => new YearOfRules(site, lines).Write(files);

    private void Write(ImmutableArray<FileNode> files)
    {
        foreach (var thing in WrittenSite.Of(files, hasRules: true))
        {
            _lines.Line(thing.Name.Length > 0 ? $"{thing.Kind} {thing.Name}" : thing.Kind);
            foreach (var line in thing.Lines) _lines.Line(Indent + new string(' ', Indent.Length * line.Depth) + Text(line));
            if (thing.Kind == WrittenSite.Schedule && _sums.GetValueOrDefault(thing.Name) is { } sums) WriteYear(sums);
        }
    }

    private static string Text(WrittenLine line) => line.What == "label" ? $"label {line.Text}" : line.Text;

    /// <summary>How many dates a month has, and how long a pass waters each zone.</summary>
    private void WriteYear(ScheduleWaterings sums)
    {
        if (!sums.Schedule.IsManual)
        {
            var months = sums.Days.Days.Select(CivilDate.FromDayNumber).GroupBy(date => (date.Year, date.Month)).Select(month => string.Create(
                CultureInfo.InvariantCulture, $"{Phrases.Month(month.Key.Month)[..3]} {month.Count()}"));
            _lines.Line($"{Indent}= {Phrases.Count(sums.Dates, "date")} in a year: {string.Join(", ", months)}");
        }

        foreach (var zone in _site!.Zones.Where(zone => sums.Lengths.ContainsKey(zone.Name)))
        {
            var (least, most) = sums.Lengths[zone.Name];
            _lines.Line($"{Indent}= {zone.DisplayName} {(least == most ? "" : Phrases.Length(least) + " to ")}{Phrases.Length(most)} a pass");
        }
    }
}
