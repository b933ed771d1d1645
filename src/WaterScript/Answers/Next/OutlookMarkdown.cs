using System.Globalization;
using NodaTime;
using WaterScript.Text.Lines;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Answers.Next;

/// <summary>An outlook as a page for a phone: what is on, what is held, then date by date what comes, times first.</summary>
internal sealed class OutlookMarkdown
{
    /// <summary>A cell of a narrow table names no more zones.</summary>
    private const int MostZones = 6;

    private readonly Outlook _outlook;
    private readonly OutlookWords _words;
    private readonly SiteWords _clock;
    private readonly MarkdownLines _lines;

    private OutlookMarkdown(Outlook outlook, MarkdownLines lines) =>
        (_outlook, _words, _clock, _lines) = (outlook, new OutlookWords(outlook), new SiteWords(outlook.Site), lines);

    /// <summary>Writes it.</summary>
    /// <param name="outlook">An outlook of some dates.</param>
    /// <param name="count">How many waterings were looked for.</param>
    /// <param name="lines">Where to.</param>
    public static void Write(Outlook outlook, int count, MarkdownLines lines)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        ArgumentNullException.ThrowIfNull(lines);
        new OutlookMarkdown(outlook, lines).Write(count);
    }

    private void Write(int count)
    {
        _lines.Heading(_outlook.Site.DisplayName, _words.Now);
        if (_outlook.Open.IsEmpty && _outlook.On.IsEmpty) _lines.Sentence("Now nothing is watered.");
        _lines.Part("Now", _outlook.Open.Select(_words.Of).Concat(_outlook.On.Select(_words.Of)));
        foreach (var cause in _outlook.Shut.Where(shut => shut.By is SkipCause.Hold or SkipCause.ClosedSeason).GroupBy(shut => shut.By))
            _lines.Part(OutlookWords.TitleOf(cause.Key), cause.Select(_words.Of));
        _lines.Part("Forbidden", _outlook.NotAllowed.Select(_words.Of));
        for (var date = _clock.DateAt(_outlook.At); date < _outlook.LookedUntil; date = date.PlusDays(1)) WriteDate(date);
        if (_outlook.Coming.Length >= count) _lines.Sentence($"No more than {Phrases.Count(count, "watering")} are shown.");
    }

    private void WriteDate(LocalDate date)
    {
        var coming = _outlook.Coming.Where(coming => _clock.DateAt(coming.First) == date).ToArray();
        var not = _outlook.NotWatered.Where(not => not.Date == date).ToArray();
        _lines.Section(MomentWords.DayOfYear(date));
        if (coming.Length == 0 && not.Length == 0) _lines.Sentence("Nothing.");
        _lines.Table(["from", "to", "water"], [.. coming.Select(RowOf)]);
        _lines.Part("Not watered", not.Select(WordsOf));
    }

    private MarkdownCell[] RowOf(ComingWatering coming) =>
        [new(_clock.Time(coming.First)), new(TimeAfter(coming.End, coming.First)), new($"{coming.Schedule.DisplayName}: {Waterings(coming)}{Passes(coming)}")];

    private static string Waterings(ComingWatering coming)
    {
        var shown = coming.Waterings.Take(MostZones).Select(watering => $"{watering.Zone.DisplayName} {Phrases.Length(watering.Seconds)}");
        var more = coming.Waterings.Length - MostZones;
        return string.Join(", ", more > 0 ? shown.Append(Phrases.Count(more, "more zone")) : shown);
    }

    private static string Passes(ComingWatering coming) => coming switch
    {
        { IsRest: true } => ", the rest of a pass",
        { Passes: 1 } => "",
        _ => $", every {Phrases.Length(coming.Every)}, {MomentWords.Times(coming.Passes)}",
    };

    private string WordsOf(NotWatered not)
    {
        if (not.Schedule is { } schedule) return $"{schedule.DisplayName}: skipped{OutlookWords.Reason(not.Because)}";
        var zones = not.Zones.Take(MostZones).Select(zone => zone.DisplayName);
        var more = not.Zones.Length - MostZones;
        var names = string.Join(", ", more > 0 ? zones.Append(Phrases.Count(more, "more zone")) : zones);
        return $"{_clock.Time(not.First!.Value)} {names}: {CauseOf(not)}{OutlookWords.Reason(not.Because)}";
    }

    private static string CauseOf(NotWatered not) => not.By switch
    {
        SkipCause.Hold => "held",
        SkipCause.ClosedSeason => "closed",
        SkipCause.Restriction => "not allowed",
        SkipCause.Cut => SiteWords.Written(not.Origin),
        _ => $"too little is left, {SiteWords.Written(not.Origin)}",
    };

    /// <summary>The time, and on another date its day of the week.</summary>
    private string TimeAfter(long instant, long said)
    {
        var date = _clock.DateAt(instant);
        if (date == _clock.DateAt(said)) return _clock.Time(instant);
        return string.Create(CultureInfo.InvariantCulture, $"{MomentWords.DayOfYear(date).Split(' ')[0]} {_clock.Time(instant)}");
    }
}
