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
    private readonly Outlook _outlook;
    private readonly SiteWords _words;
    private readonly PlainLines _lines;

    private OutlookText(Outlook outlook, PlainLines lines) => (_outlook, _words, _lines) = (outlook, new SiteWords(outlook.Site), lines);

    /// <summary>Writes what waters now, what keeps it shut, what comes.</summary>
    public static void Write(Outlook outlook, PlainLines lines)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        new OutlookText(outlook, lines).Write();
    }

    private void Write()
    {
        _lines.Line($"{_outlook.Site.DisplayName}, {_words.Moment(_outlook.At)}{WhichOfTwo()}");
        if (_outlook.Open.IsEmpty) _lines.Line("Nothing waters now.");
        _lines.Part(_outlook.Open.IsEmpty ? "On all the same" : "Now", _outlook.Open.Select(Words).Concat(_outlook.On.Select(Words)));
        _lines.Part("Kept shut", _outlook.Shut.Select(Words));
        _lines.Part("Not allowed, as you read the rules", _outlook.NotAllowed.Select(Words));
        if (_outlook.Coming.IsEmpty) _lines.Line($"Nothing comes before {MomentWords.Date(_outlook.LookedUntil)}.");
        _lines.Part("Next", _outlook.Coming.Select(Words));
    }

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
        $"{Zones(shut.Zones)}: {Cause(shut)}{(shut.Because is { } because ? $", because {because}" : "")} ({SiteWords.Place(shut.Origin)})";

    private string Cause(KeptShut shut) => shut.By switch
    {
        SkipCause.Hold => shut.Until is { } end ? $"held until {_words.Moment(end)}" : "held until lifted",
        SkipCause.ClosedSeason => $"closed until {_words.Moment(shut.Until!.Value)}",
        SkipCause.Cut => "what is due today is cut",
        _ => $"too little is left of what is due today, {SiteWords.Written(shut.Origin)}",
    };

    private string Words(ComingWatering coming)
    {
        var waterings = Phrases.Names([.. coming.Waterings.Select(watering => $"{watering.Zone.DisplayName} {Phrases.Length(watering.Seconds)}")]);
        return $"{_words.Moment(coming.First)} {coming.Schedule.Name}{Passes(coming)}: {waterings}";
    }

    private string Passes(ComingWatering coming) => coming switch
    {
        { IsRest: true } => ", the rest of a pass",
        { Passes: 1 } => "",
        _ => $", every {Phrases.Length(coming.Every)} until {_words.TimeAfter(coming.Last, _words.DateAt(coming.First))} ({MomentWords.Times(coming.Passes)})",
    };
}
