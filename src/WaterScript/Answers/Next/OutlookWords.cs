using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Model;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Answers.Next;

/// <summary>What an outlook says, in the words that all its forms for people share.</summary>
internal sealed class OutlookWords(Outlook outlook)
{
    private readonly SiteWords _words = new(outlook.Site);

    /// <summary><c>Thu 11 Jun 2026 06:04, Europe/Lisbon</c></summary>
    public string Now => $"{_words.Moment(outlook.At)}{WhichOfTwo()}, {outlook.Site.TimeZone.Id}";

    /// <summary>Over what has a cause in common.</summary>
    public static string TitleOf(SkipCause cause) => cause switch
    {
        SkipCause.Hold => "Held",
        SkipCause.ClosedSeason => "Closed",
        SkipCause.Cut => "Cut off",
        _ => "Left out",
    };

    /// <summary><c>Lawn until 06:10, 6 min left</c></summary>
    public string Of(OpenNow open) => $"{open.Zone.DisplayName} {Until(open.Until)}";

    /// <summary><c>Well pump until 06:10, 6 min left</c></summary>
    public string Of(DeviceOnNow on) => $"{on.Device.DisplayName} {Until(on.Until)}";

    /// <summary><c>Lawn: from 09:00 until 18:00, Town rule</c></summary>
    public string Of(NotAllowed ban)
    {
        var from = ban.From > outlook.At ? $"from {TimeAfter(ban.From, outlook.At)} " : "";
        var until = ban.Until is { } end ? $"until {TimeAfter(end, outlook.At)}" : "for a year and more";
        return $"{Zones(ban.Zones.Length == InUse ? [] : ban.Zones)}: {from}{until}, {ban.Restriction.DisplayName}";
    }

    /// <summary><c>Lawn until Thu 11 Jun 00:00, "new gravel"</c></summary>
    public string Of(KeptShut shut) => $"{Zones(shut.Zones)}{Cause(shut)}{Reason(shut.Because)}";

    /// <summary><c>, "new gravel"</c>; nothing without a reason.</summary>
    public static string Reason(string? because) => because is null ? "" : $", \"{because}\"";

    /// <summary>A moment, without its year where that is the year of the question.</summary>
    public string Moment(long instant) =>
        _words.Moment(instant).Replace($" {_words.ClockAt(outlook.At).Year.ToString(CultureInfo.InvariantCulture)} ", " ", StringComparison.Ordinal);

    /// <summary>The time alone where it is on the date of another instant, else date and time.</summary>
    public string TimeAfter(long instant, long said) => _words.TimeAfter(instant, _words.DateAt(said));

    /// <summary>Which of both it is, where the clock shows the time twice on that date.</summary>
    private string WhichOfTwo()
    {
        var both = outlook.Site.TimeZone.MapLocal(_words.ClockAt(outlook.At));
        if (both.Count < 2) return "";
        var isFirst = both.First().ToInstant().ToUnixTimeSeconds() == outlook.At;
        return $", the {(isFirst ? "first" : "second")} of two, the clock goes back";
    }

    private string Until(long instant) => $"until {TimeAfter(instant, outlook.At)}, {Phrases.Length(instant - outlook.At)} left";

    private int InUse => outlook.Site.Zones.Count(zone => !zone.IsSpare);

    private static string Zones(ImmutableArray<Zone> zones) => zones.IsEmpty ? "All zones" : Phrases.Names([.. zones.Select(zone => zone.DisplayName)]);

    private string Cause(KeptShut shut) => shut.By switch
    {
        SkipCause.Hold => shut.Until is { } end ? $" until {Moment(end)}" : " until lifted",
        SkipCause.ClosedSeason => $" until {Moment(shut.Until!.Value)}",
        SkipCause.Cut => ", what is due today",
        _ => $", too little is left of what is due today, {SiteWords.Written(shut.Origin)}",
    };
}
