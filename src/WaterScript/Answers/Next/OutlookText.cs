using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Documents.Timetables;
using WaterScript.Model;
using WaterScript.Text.Lines;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Answers.Next;

/// <summary>An outlook for people to read.</summary>
internal sealed class OutlookText
{
    /// <summary>Columns of the longest title, its colon, and a space.</summary>
    private const int TitleWidth = 11;

    private readonly Outlook _outlook;
    private readonly SiteWords _words;
    private readonly PlainLines _lines;

    private OutlookText(Outlook outlook, PlainLines lines) => (_outlook, _words, _lines) = (outlook, new SiteWords(outlook.Site), lines);

    /// <summary>Writes what waters now, what is kept dry, what comes.</summary>
    public static void Write(Outlook outlook, PlainLines lines)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        new OutlookText(outlook, lines).Write();
    }

    private void Write()
    {
        _lines.Line($"{_outlook.Site.DisplayName}, {_words.Moment(_outlook.At)}{WhichOfTwo()}, {_outlook.Site.TimeZone.Id}");
        var nothing = _outlook.Open.IsEmpty ? new[] { "nothing is watered" } : [];
        Part("Now", nothing.Concat(_outlook.Open.Select(Words)).Concat(_outlook.On.Select(Words)));
        foreach (var cause in _outlook.Shut.GroupBy(shut => shut.By)) Part(TitleOf(cause.Key), cause.Select(Words));
        Part("Forbidden", _outlook.NotAllowed.Select(Words));
        Part("Next", _outlook.Coming.IsEmpty ? [$"nothing before {MomentWords.Date(_outlook.LookedUntil)}"] : _outlook.Coming.Select(Words));
    }

    /// <summary>Writes items one under the other, beside what they have in common.</summary>
    private void Part(string title, IEnumerable<string> items)
    {
        foreach (var (index, item) in items.Index()) _lines.Line($"{(index == 0 ? title + ":" : "").PadRight(TitleWidth)}{item}");
    }

    private static string TitleOf(SkipCause cause) => cause switch
    {
        SkipCause.Hold => "Held",
        SkipCause.ClosedSeason => "Closed",
        SkipCause.Cut => "Cut off",
        _ => "Left out",
    };

    /// <summary>A moment, without its year where that is the year of the question.</summary>
    private string Moment(long instant) =>
        _words.Moment(instant).Replace($" {_words.ClockAt(_outlook.At).Year.ToString(CultureInfo.InvariantCulture)} ", " ", StringComparison.Ordinal);

    /// <summary>Which of both it is, where the clock shows the time twice on that date.</summary>
    private string WhichOfTwo()
    {
        var both = _outlook.Site.TimeZone.MapLocal(_words.ClockAt(_outlook.At));
        if (both.Count < 2) return "";
        var isFirst = both.First().ToInstant().ToUnixTimeSeconds() == _outlook.At;
        return $", the {(isFirst ? "first" : "second")} of two, the clock goes back";
    }

    private string Words(OpenNow open) => string.Create(
        CultureInfo.InvariantCulture,
        $"{open.Zone.DisplayName} {Until(open.Until)}: {open.Schedule.Name}, pass {open.Pass}, step {open.Step} ({SiteWords.Place(open.Origin)})");

    private string Words(DeviceOnNow on) =>
        $"{on.Device.DisplayName} {Until(on.Until)}: {OpeningFields.WordOf(on.Device.Kind)} ({SiteWords.Place(on.Device.Origin)})";

    private string Until(long instant) => $"until {_words.TimeAfter(instant, _words.DateAt(_outlook.At))}, {Phrases.Length(instant - _outlook.At)} left";

    private string Words(NotAllowed ban)
    {
        var today = _words.DateAt(_outlook.At);
        var from = ban.From > _outlook.At ? $"from {_words.TimeAfter(ban.From, today)} " : "";
        var until = ban.Until is { } end ? $"until {_words.TimeAfter(end, today)}" : "for a year and more";
        return $"{Zones(ban.Zones.Length == InUse ? [] : ban.Zones)}: {from}{until}, {ban.Restriction.DisplayName} ({SiteWords.Place(ban.Origin)})";
    }

    private int InUse => _outlook.Site.Zones.Count(zone => !zone.IsSpare);

    private static string Zones(ImmutableArray<Zone> zones) => zones.IsEmpty ? "All zones" : Phrases.Names([.. zones.Select(zone => zone.DisplayName)]);

    private string Words(KeptShut shut) =>
        $"{Zones(shut.Zones)}{Cause(shut)}{(shut.Because is { } because ? $", \"{because}\"" : "")} ({SiteWords.Place(shut.Origin)})";

    private string Cause(KeptShut shut) => shut.By switch
    {
        SkipCause.Hold => shut.Until is { } end ? $" until {Moment(end)}" : " until lifted",
        SkipCause.ClosedSeason => $" until {Moment(shut.Until!.Value)}",
        SkipCause.Cut => ", what is due today",
        _ => $", too little is left of what is due today, {SiteWords.Written(shut.Origin)}",
    };

    private string Words(ComingWatering coming)
    {
        var waterings = Phrases.Names([.. coming.Waterings.Select(watering => $"{watering.Zone.DisplayName} {Phrases.Length(watering.Seconds)}")]);
        return $"{Moment(coming.First)}  {coming.Schedule.Name}{Passes(coming)}: {waterings}";
    }

    private string Passes(ComingWatering coming) => coming switch
    {
        { IsRest: true } => ", the rest of a pass",
        { Passes: 1 } => "",
        _ => $", every {Phrases.Length(coming.Every)} until {_words.TimeAfter(coming.Last, _words.DateAt(coming.First))} ({MomentWords.Times(coming.Passes)})",
    };
}
