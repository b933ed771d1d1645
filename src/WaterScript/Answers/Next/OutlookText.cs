using System.Globalization;
using WaterScript.Documents.Timetables;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Next;

/// <summary>An outlook for people to read.</summary>
internal sealed class OutlookText
{
    /// <summary>Columns of the longest title, its colon, and a space.</summary>
    private const int TitleWidth = 11;

    private readonly Outlook _outlook;
    private readonly OutlookWords _words;
    private readonly PlainLines _lines;

    private OutlookText(Outlook outlook, PlainLines lines) => (_outlook, _words, _lines) = (outlook, new OutlookWords(outlook), lines);

    /// <summary>Writes what waters now, what is kept dry, what comes.</summary>
    public static void Write(Outlook outlook, PlainLines lines)
    {
        ArgumentNullException.ThrowIfNull(outlook);
        new OutlookText(outlook, lines).Write();
    }

    private void Write()
    {
        _lines.Line($"{_outlook.Site.DisplayName}, {_words.Now}");
        var nothing = _outlook.Open.IsEmpty ? new[] { "nothing is watered" } : [];
        Part("Now", nothing.Concat(_outlook.Open.Select(Words)).Concat(_outlook.On.Select(Words)));
        foreach (var cause in _outlook.Shut.GroupBy(shut => shut.By)) Part(OutlookWords.TitleOf(cause.Key), cause.Select(Words));
        Part("Forbidden", _outlook.NotAllowed.Select(Words));
        Part("Next", _outlook.Coming.IsEmpty ? [$"nothing before {MomentWords.Date(_outlook.LookedUntil)}"] : _outlook.Coming.Select(Words));
    }

    /// <summary>Writes items one under the other, beside what they have in common.</summary>
    private void Part(string title, IEnumerable<string> items)
    {
        foreach (var (index, item) in items.Index()) _lines.Line($"{(index == 0 ? title + ":" : "").PadRight(TitleWidth)}{item}");
    }

    private string Words(OpenNow open) => string.Create(
        CultureInfo.InvariantCulture,
        $"{_words.Of(open)}: {open.Schedule.Name}, pass {open.Pass}, step {open.Step} ({SiteWords.Place(open.Origin)})");

    private string Words(DeviceOnNow on) => $"{_words.Of(on)}: {OpeningFields.WordOf(on.Device.Kind)} ({SiteWords.Place(on.Device.Origin)})";

    private string Words(NotAllowed ban) => $"{_words.Of(ban)} ({SiteWords.Place(ban.Origin)})";

    private string Words(KeptShut shut) => $"{_words.Of(shut)} ({SiteWords.Place(shut.Origin)})";

    private string Words(ComingWatering coming)
    {
        var waterings = Phrases.Names([.. coming.Waterings.Select(watering => $"{watering.Zone.DisplayName} {Phrases.Length(watering.Seconds)}")]);
        return $"{_words.Moment(coming.First)}  {coming.Schedule.Name}{Passes(coming)}: {waterings}";
    }

    private string Passes(ComingWatering coming) => coming switch
    {
        { IsRest: true } => ", the rest of a pass",
        { Passes: 1 } => "",
        _ => $", every {Phrases.Length(coming.Every)} until {_words.TimeAfter(coming.Last, coming.First)} ({MomentWords.Times(coming.Passes)})",
    };
}
