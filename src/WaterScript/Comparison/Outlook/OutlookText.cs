using System.Globalization;
using System.Text;
using WaterScript.Checks;
using WaterScript.Diagnostics;
using WaterScript.Timetables;

namespace WaterScript.Comparison;

/// <summary>An outlook for people to read.</summary>
public sealed class OutlookText
{
    private readonly Outlook _outlook;
    private readonly SiteWords _words;
    private readonly StringBuilder _text = new();

    private OutlookText(Outlook outlook) => (_outlook, _words) = (outlook, new SiteWords(outlook.Site));

    /// <summary>What waters now, what keeps it shut, what comes.</summary>
    public static string Of(Outlook outlook)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        var writer = new OutlookText(outlook);
        writer.Write();
        return writer._text.ToString();
    }

    private void Write()
    {
        Line($"{_outlook.Site.DisplayName}, {_words.Moment(_outlook.At)}");
        Line(_outlook.Open.IsEmpty ? "Nothing waters now." : "Now:");
        foreach (var open in _outlook.Open) Line("  " + Words(open));
        if (!_outlook.Shut.IsEmpty) Line("Kept shut:");
        foreach (var shut in _outlook.Shut) Line("  " + Words(shut));
        Line(_outlook.Coming.IsEmpty ? $"Nothing comes before {MomentWords.Date(_outlook.LookedUntil)}." : "Next:");
        foreach (var coming in _outlook.Coming) Line("  " + Words(coming));
    }

    private string Words(OpenNow open) => string.Create(
        CultureInfo.InvariantCulture,
        $"{open.Zone.DisplayName} until {_words.TimeAfter(open.Until, _words.DateAt(_outlook.At))}, {Wording.Length(open.Until - _outlook.At)} left: {open.Schedule.Name}, pass {open.Pass}, step {open.Step} ({SiteWords.Place(open.Origin)})");

    private string Words(KeptShut shut)
    {
        var zones = shut.Zones.IsEmpty ? "All zones" : Wording.Names([.. shut.Zones.Select(zone => zone.DisplayName)]);
        return $"{zones}: {Cause(shut)}{(shut.Because is { } because ? $", because {because}" : "")} ({SiteWords.Place(shut.Origin)})";
    }

    private string Cause(KeptShut shut) => shut.By switch
    {
        TakenBy.Hold => shut.Until is { } end ? $"held until {_words.Moment(end)}" : "held until lifted",
        TakenBy.ClosedSeason => $"closed until {_words.Moment(shut.Until!.Value)}",
        TakenBy.Cut => "what is due today is cut",
        _ => $"too little is left of what is due today, {SiteWords.Written(shut.Origin)}",
    };

    private string Words(ComingWatering coming)
    {
        var waterings = Wording.Names([.. coming.Waterings.Select(watering => $"{watering.Zone.DisplayName} {Wording.Length(watering.Seconds)}")]);
        return $"{_words.Moment(coming.First)} {coming.Schedule.Name}{Passes(coming)}: {waterings}";
    }

    private string Passes(ComingWatering coming) => coming switch
    {
        { IsRest: true } => ", the rest of a pass",
        { Passes: 1 } => "",
        _ => $", every {Wording.Length(coming.Every)} until {_words.TimeAfter(coming.Last, _words.DateAt(coming.First))} ({MomentWords.Times(coming.Passes)})",
    };

    private void Line(string line) => _text.Append(line).Append('\n');
}
