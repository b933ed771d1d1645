using NodaTime;
using WaterScript.Documents.Timetables;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Deployed;

/// <summary>Where lists that are deployed come from, for people: one in full, several a line each.</summary>
internal sealed class DeployedText
{
    private const int ShownDigits = 12;
    private const int MostLines = 20;

    private readonly DeployedAnswer _answer;
    private readonly OriginWords _origins;
    private readonly SiteWords _words;
    private readonly PlainLines _text;

    private DeployedText(DeployedAnswer answer, PlainLines text) =>
        (_answer, _origins, _words, _text) = (answer, new OriginWords(answer), new SiteWords(answer.Site), text);

    /// <summary>Writes it.</summary>
    public static void Write(DeployedAnswer answer, PlainLines text)
    {
        ArgumentNullException.ThrowIfNull(answer);
        ArgumentNullException.ThrowIfNull(text);
        var words = new DeployedText(answer, text);
        if (answer.Lists is [var only]) words.Whole(only);
        else foreach (var list in answer.Lists) words.Line(list);
        words.Cover();
    }

    private void Whole(TracedList list)
    {
        _text.Line(Head(list));
        _text.Line($"Made from:  {_origins.Of(list)}");
        var comparison = list.Comparison;
        if (comparison.IsSame)
        {
            if (!list.Origin.IsFile) _text.Line($"Same as:    {_origins.OfFile}");
            TimeZoneData(list);
            return;
        }

        // The same sources give another list with other time-zone data, or another version of the program.
        var hash = Short(comparison.File.Hash);
        _text.Line(list.Origin.IsFile ? $"Gives now:  another list ({hash})" : $"Not from:   {_origins.OfFile} ({hash})");
        TimeZoneData(list);
        var difference = new DifferenceWords(comparison, _answer.Site);
        _text.Line($"Differs:    {difference.Head(_answer.Cover.Now)}");
        foreach (var sentence in difference.Sentences()) _text.Line("  " + sentence);
    }

    private void Line(TracedList list)
    {
        var comparison = list.Comparison;
        var today = comparison.IsSame ? "the file gives the same" : $"differs: {new DifferenceWords(comparison, _answer.Site).Head(_answer.Cover.Now)}";
        _text.Line($"{Head(list)}; made from {_origins.Of(list)}; {today}");
    }

    private void TimeZoneData(TracedList list)
    {
        var (own, file) = (list.Comparison.List.Notes.TimeZoneData, _answer.Site.TimeZoneData);
        if (own != file) _text.Line($"Time zones: data {own} in the list, {file} for the file");
    }

    private void Cover()
    {
        var cover = _answer.Cover;
        foreach (var hole in cover.Holes.Take(MostLines))
            _text.Line($"No list{(hole.Controller is { } controller ? $" for {controller}" : "")} from {Moment(hole.From)} to {End(hole.Until)}.");
        if (cover.Holes.Length > MostLines) _text.Line($"And {Phrases.Count(cover.Holes.Length - MostLines, "more hole")} like these.");
        foreach (var overlap in cover.Overlaps.Take(MostLines))
            _text.Line($"Two lists from {Moment(overlap.From)} to {End(overlap.Until)}: {overlap.One} and {overlap.Other}.");
        if (cover.Overlaps.Length > MostLines) _text.Line($"And {Phrases.Count(cover.Overlaps.Length - MostLines, "more overlap")} like these.");
        if (!cover.IsOverSoon) return;
        var lists = _answer.Lists.Length > 1 ? "lists" : "list";
        var verb = _answer.Lists.Length > 1 ? "" : "s";
        if (cover.Ends is { } ends) _text.Line($"The {lists} end{verb} {End(ends)}.");
        else if (_answer.Lists.All(list => list.Comparison.List.Until <= cover.Now))
            _text.Line($"The {lists} ended {End(_answer.Lists.Max(list => list.Comparison.List.Until))}.");
        else _text.Line($"There is no list for now, {Moment(cover.Now)}.");
    }

    private static string Head(TracedList list)
    {
        var (comparison, own) = (list.Comparison, list.Comparison.List);
        var controller = own.Controller is { } name ? name + ", " : "";
        var complete = own.Kind == TimetableList.Runs && !own.IsTable ? "complete by its count" : "complete";
        return $"{list.File}: {controller}{Dates(comparison.Dates.From, comparison.Dates.Until.PlusDays(-1))}, "
            + $"{Phrases.Count(own.Rows.Length, own.Kind.ToString().ToLowerInvariant()[..^1])}, {complete}, hash {Short(own.Hash)}";
    }

    /// <summary><c>Mon 4 to Sun 10 May 2026</c></summary>
    private static string Dates(LocalDate first, LocalDate last)
    {
        if (first == last) return MomentWords.Date(first);
        var begin = first.Year != last.Year ? MomentWords.Date(first)
            : first.Month != last.Month ? MomentWords.DayOfYear(first)
            : MomentWords.DayOfMonth(first);
        return $"{begin} to {MomentWords.Date(last)}";
    }

    private string Moment(long at) => _words.Moment(at);

    /// <summary>A moment at which something ends: midnight is that of the date before.</summary>
    private string End(long at) => _words.ClockAt(at) is { } clock && clock.TimeOfDay == LocalTime.Midnight
        ? $"{MomentWords.Date(clock.Date.PlusDays(-1))} 24:00"
        : MomentWords.Moment(clock);

    private static string Short(string hash) => hash[..Math.Min(ShownDigits, hash.Length)];
}
