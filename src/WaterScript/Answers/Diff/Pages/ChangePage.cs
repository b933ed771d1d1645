using System.Collections.Immutable;
using System.Globalization;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Documents.Charts.Years;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Pages;

/// <summary>
/// Writes what a change does as a page: a week of both versions, the year's difference day by day, sums by zone, findings that come and go, and the lines.
/// Its script shows the other weeks that change; without it the first one and all else is there. It needs nothing but itself.
/// </summary>
internal sealed class ChangePage
{
    private const int MostZones = 4;
    private static readonly string[] Columns = ["zone", "before", "after", "change", "share", "before above, after below"];
    private readonly WateringChanges _changes;
    private readonly IReadOnlyList<SourceText> _oldFiles;
    private readonly IReadOnlyList<SourceText> _newFiles;
    private readonly ChangedWeek _first;
    private readonly ImmutableArray<ChangedWeek> _weeks;
    private readonly bool _isCut;
    private readonly YearChart _oldYear;
    private readonly YearChart _newYear;
    private readonly WaterFigures _figures;
    private readonly MarkupWriter _markup = new();

    private ChangePage(WateringChanges changes, IReadOnlyList<SourceText> oldFiles, IReadOnlyList<SourceText> newFiles)
    {
        (_changes, _oldFiles, _newFiles) = (changes, oldFiles, newFiles);
        _figures = new WaterFigures(changes.New);
        var span = SpanOf(changes);
        _first = ChangedWeek.Of(ChartBuilder.Build(changes.Old, [], span), ChartBuilder.Build(changes.New, [], span), changes.Renames.OfZone);
        (_oldYear, _newYear) = (YearBuilder.Build(changes.Old, changes.Horizon.From), YearBuilder.Build(changes.New, changes.Horizon.From));
        (_weeks, _isCut) = ChangedWeek.OfYear(_oldYear, _newYear, span.First, changes.Renames.OfZone);
        if (_weeks.IsEmpty || _weeks[0].First != span.First) _weeks = [_first, .. _weeks];
    }

    /// <summary>Writes it, in UTF-8.</summary>
    /// <param name="changes">What changes; of two whole versions.</param>
    /// <param name="oldFiles">The files of the old version.</param>
    /// <param name="newFiles">The files of the new one.</param>
    /// <param name="stream">Where to.</param>
    /// <exception cref="WorkUsedUpException">There is too much to walk over.</exception>
    /// <exception cref="ChartTooLargeException">There are too many runs to draw.</exception>
    public static void Write(WateringChanges changes, IReadOnlyList<SourceText> oldFiles, IReadOnlyList<SourceText> newFiles, Stream stream) =>
        new ChangePage(changes, oldFiles, newFiles).Write(stream);

    /// <summary>A week from the night of the first change; where water does not change, from the first water.</summary>
    private static ChartSpan SpanOf(WateringChanges changes) => changes.First is { } first
        ? new ChartSpan(first.PlusDays(-1), ChangedWeek.Length)
        : ChartSpan.FromFirstWater(changes.New, ChangedWeek.Length) ?? new ChartSpan(changes.Horizon.From, ChangedWeek.Length);

    private void Write(Stream stream)
    {
        var title = $"{Shapes.Plain(_changes.New.DisplayName)}: what the change does";
        _markup.Raw("<!DOCTYPE html>\n").Open("html", ("lang", "en"));
        PageParts.WriteHead(_markup, title, PageStyle.Text, PageParts.ChangeScript);
        _markup.Open("body").Open("main", ("class", "change")).Element("h1", title);
        var since = _changes.First is { } first ? $"First change {MomentWords.Date(first)}" : "The watering is the same";
        _markup.Open("p", ("class", "lead")).Element("b", ChangeWords.Year(_oldYear, _newYear))
            .Text($". {since}, {_changes.New.TimeZone.Id}. {FindingsInWords()}").Close();
        WriteNights();
        WriteYear();
        WriteZones();
        WriteFindings();
        ChangedLines.Write(_markup, _oldFiles, _newFiles);
        _markup.Close();
        PageParts.WriteFoot(_markup, "Point at a day of the year, or step with the arrow keys; Enter or a click shows its week.");
        _markup.Open("script", ("type", "application/json"), ("id", "change-data")).Raw(ChangeData.Of(_weeks, [.. Days()], _figures)).Close();
        _markup.Open("script").Raw(PageParts.ChangeScript).Close();
        _markup.Close().Close();
        _markup.WriteTo(stream);
    }

    private string FindingsInWords()
    {
        var (appeared, gone) = (_changes.Findings.Appeared.Length, _changes.Findings.Gone.Length);
        return appeared + gone == 0
            ? "No finding comes or goes."
            : $"{Phrases.Count(appeared, "finding")} new, {gone.ToString(CultureInfo.InvariantCulture)} gone.";
    }

    private void WriteNights()
    {
        _markup.Element("h2", "A week, before and after");
        WriteWeeks();
        _markup.Open("div", ("id", "week"), ("role", "region"), ("aria-label", "The nights of the week"));
        var most = _first.Nights.Max(night => night.Length);
        List<double[]> busy = [.. _first.Nights.SelectMany(night => night.Lanes.SelectMany(lane => lane.Runs)).SelectMany(run => new[] { run.Old, run.New })
            .OfType<(long From, long Until)>().Select(run => new double[] { Math.Max(0, run.From), Math.Min(most, run.Until) })];
        var wet = _first.Nights.Where(night => !night.Lanes.IsEmpty).ToList();
        foreach (var (night, clock) in _first.Nights.Zip(_first.Clocks))
        {
            if (night.Lanes.IsEmpty)
            {
                _markup.Open("p", ("class", "dry")).Element("b", clock.Title).Text(" no water").Close();
                continue;
            }

            _markup.Open("h2").Text(clock.Title).Element("small", night.Words).Close();
            var options = new ChangeOptions(HasHours: night == wet[0], HasFoot: night == wet[^1]);
            Variants.Write(_markup, sizes => ChangeDrawing.Draw(
                night, clock, new TimeAxis(Folding.Pieces([.. busy.Select(span => span.ToArray())], sizes, most), sizes, most), sizes, _figures, options));
        }

        _markup.Close();
        Legend.Write(_markup, Entries());
    }

    /// <summary>The weeks that change, with their differences, to choose from.</summary>
    private void WriteWeeks()
    {
        if (_isCut)
            _markup.Element("p", "The year has more waterings than a page can hold; weeks after those in the list are not in it.", ("class", "dry"));
        if (_weeks.Length < 2) return;
        _markup.Open("div", ("class", "tools"), ("role", "toolbar"), ("aria-label", "Weeks that change"));
        _markup.Element("button", "← week", ("type", "button"), ("data-do", "earlier-week"), ("aria-label", "earlier week that changes"));
        _markup.Element("button", "week →", ("type", "button"), ("data-do", "later-week"), ("aria-label", "later week that changes"));
        _markup.Open("select", ("aria-label", "Weeks that change"));
        foreach (var week in _weeks)
            _markup.Element("option", $"from {MomentWords.Date(week.First)}: {week.Words}, {ChangeWords.Difference(_figures, week.Difference)}");
        _markup.Close().Close();
    }

    private IEnumerable<(string Sample, string Words)> Entries()
    {
        var runs = _weeks.SelectMany(week => week.Nights).SelectMany(night => night.Lanes).SelectMany(lane => lane.Runs).ToList();
        if (runs.Exists(run => !run.IsSame && run.Old is not null))
            yield return ("<path class=\"was\" d=\"M1 1h25v12h-25z\"/><path class=\"struck\" d=\"M0 7h28\"/>", "before: gone or changed");
        if (runs.Exists(run => !run.IsSame && run.New is not null)) yield return ("<path class=\"w\" d=\"M0 1h26v12h-26z\"/>", "after: new or changed");
        if (runs.Exists(run => run is { IsSame: false, Old: not null, New: not null }))
            yield return ("<path class=\"slant\" d=\"M2 1L12 13M18 1L28 13\"/>", "the same watering, moved or resized");
        if (runs.Exists(run => run.IsSame)) yield return ("<path class=\"same\" d=\"M1 1h25v12h-25z\"/>", "unchanged");
        if (_changes.New.Position is not null) yield return (Legend.Sky, "sunset to sunrise");
        yield return ("<path class=\"rule fold\" d=\"M10 0v14M18 0v14\"/>", "hours without water, folded away; the number says how many");
    }

    private void WriteYear()
    {
        _markup.Element("h2", "The year, day by day: after less before");
        _markup.Open("div", ("id", "difference"), ("class", "picture"), ("tabindex", "0"), ("role", "application"),
            ("aria-label", "Difference of each day. Left and right arrows go from week to week, up and down from day to day, Enter shows the week of a day."));
        Variants.Write(_markup, sizes => new ChangedYear(_oldYear, _newYear, sizes).Draw());
        _markup.Close();
        Legend.Write(_markup, YearEntries());
    }

    private IEnumerable<(string Sample, string Words)> YearEntries()
    {
        var by = Enumerable.Range(0, _newYear.Days).Select(day => _newYear.Litres(day, day + 1) - _oldYear.Litres(day, day + 1)).ToList();
        if (by.Exists(litres => litres > 0)) yield return ("<path class=\"w\" d=\"M2 7v-6h12v6z\"/>", "more water: up from the middle, solid");
        if (by.Exists(litres => litres < 0)) yield return ("<path class=\"was fewer\" d=\"M2 7v6h12v-6z\"/>", "less water: down from the middle, outlined");
        yield return ("<path class=\"rule\" d=\"M10 0v14\"/>", "a month begins");
    }

    /// <summary>The days of the year, each with the week in which it changes.</summary>
    private IEnumerable<ChangedDay> Days()
    {
        var weeks = new Dictionary<LocalDate, int>();
        foreach (var (index, week) in _weeks.Index())
        {
            foreach (var night in week.Nights.Where(night => night.IsChanged)) weeks.TryAdd(night.Date, index);
        }

        var zones = Zones().ToList();
        for (var day = 0; day < _newYear.Days; day++)
        {
            var date = _newYear.DateOf(day);
            // A date's waterings lie in the night before it and in the one after.
            var week = weeks.TryGetValue(date.PlusDays(-1), out var before) ? before : weeks.GetValueOrDefault(date, -1);
            var changed = zones.Select(zone => (Name: Shapes.Plain((zone.New ?? zone.Old!).DisplayName),
                By: LitresOf(_newYear, zone.New, day, day + 1) - LitresOf(_oldYear, zone.Old, day, day + 1)))
                .Where(zone => zone.By != 0).OrderByDescending(zone => Math.Abs(zone.By)).ToList();
            var words = changed.Take(MostZones).Select(zone => $"{zone.Name} {ChangeWords.Difference(_figures, zone.By)}");
            var more = changed.Count > MostZones ? string.Create(CultureInfo.InvariantCulture, $" and {changed.Count - MostZones} more") : "";
            yield return new ChangedDay(
                MomentWords.Date(date), ChangeWords.Difference(_figures, changed.Sum(zone => zone.By)), string.Join(", ", words) + more, week);
        }
    }

    /// <summary>The zones of both versions.</summary>
    private IEnumerable<(Zone? Old, Zone? New)> Zones()
    {
        var after = _changes.New.Zones.ToDictionary(zone => zone.Name, StringComparer.Ordinal);
        var before = _changes.Old.Zones.DistinctBy(zone => _changes.Renames.OfZone(zone.Name))
            .ToDictionary(zone => _changes.Renames.OfZone(zone.Name), StringComparer.Ordinal);
        return after.Keys.Concat(before.Keys).Distinct().Select(name => (before.GetValueOrDefault(name), after.GetValueOrDefault(name)));
    }

    private void WriteZones()
    {
        _markup.Element("h2", $"By zone, {_figures.Unit.Symbol} a year").Open("div", ("class", "wide"), ("tabindex", "0"), ("role", "group"),
            ("aria-label", "Water by zone, before and after")).Open("table").Open("thead").Open("tr");
        foreach (var (index, column) in Columns.Index())
            _markup.Element("th", column, ("scope", "col"), ("class", index is 0 or 5 ? "name" : "number"));
        _markup.Close().Close().Open("tbody");
        var zones = Zones().Select(zone => (Name: (zone.New ?? zone.Old!).DisplayName,
            Old: LitresOf(_oldYear, zone.Old, 0, _oldYear.Days), New: LitresOf(_newYear, zone.New, 0, _newYear.Days))).ToList();
        var most = zones.Select(zone => Math.Max(zone.Old, zone.New)).Append(1).Max();
        foreach (var (name, was, now) in zones) WriteZone(name, was, now, BarsOf(was / most, now / most));
        WriteZone("all", _oldYear.Litres(0, _oldYear.Days), _newYear.Litres(0, _newYear.Days), "");
        _markup.Close().Close().Close();
    }

    private void WriteZone(string name, decimal was, decimal now, string bars)
    {
        _markup.Open("tr").Element("td", name);
        foreach (var cell in new[] { _figures.Whole(was), _figures.Whole(now), ChangeWords.Difference(_figures, now - was), ChangeWords.Share(was, now) })
            _markup.Element("td", cell, ("class", "number"));
        _markup.Open("td").Raw(bars).Close().Close();
    }

    /// <summary>What was above, hollow; what is below, solid: both as a share of the most.</summary>
    private static string BarsOf(decimal was, decimal now)
    {
        const double width = 400;
        var (above, below) = (Shapes.Number((double)was * width), Shapes.Number((double)now * width));
        return $"<svg class=\"sheet\" width=\"404\" height=\"26\" aria-hidden=\"true\">" +
            (was > 0 ? Shapes.Path("was", $"M1 2h{above}v9h-{above}z") : "") + (now > 0 ? Shapes.Path("w", $"M1 14h{below}v9h-{below}z") : "") + "</svg>";
    }

    private static decimal LitresOf(YearChart year, Zone? zone, int from, int until) =>
        zone is null ? 0 : (zone.LitresPerMinute ?? 0) * year.SecondsOf(zone, from, until) / 60;

    private void WriteFindings()
    {
        if (_changes.Findings.Appeared.IsEmpty && _changes.Findings.Gone.IsEmpty) return;
        _markup.Element("h2", "Findings that come and go").Open("ul", ("class", "findings"));
        foreach (var finding in _changes.Findings.Appeared) WriteFinding("new", finding);
        foreach (var finding in _changes.Findings.Gone) WriteFinding("gone", finding);
        _markup.Close();
    }

    private void WriteFinding(string word, Finding finding)
    {
        var severity = FindingSummary.WordOf(finding.Severity);
        var words = $"{severity}: {finding.Heading} ({SiteWords.Place(finding.Primary.Location)})";
        _markup.Open("li").Element("b", word).Element("span", words, ("class", word == "gone" ? "struck" : "plain")).Close();
    }
}
