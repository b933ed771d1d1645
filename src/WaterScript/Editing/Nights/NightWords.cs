using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Editing.Nights;

/// <summary>How amounts and moments of a site are said beside its text.</summary>
/// <param name="site">The site.</param>
internal sealed class NightWords(Site site)
{
    /// <summary>Under so many of its unit, a digit more.</summary>
    private const decimal FewLitres = 10;

    private const decimal FewMillimetres = 20;

    private readonly WaterWords _water = new(site);
    private readonly DepthWords _depths = new(site);
    private readonly SiteWords _moments = new(site);

    /// <summary><c>Mon 4 May 2026</c></summary>
    public static string Date(int day) => SiteWords.Date(day);

    /// <summary><c>Mon 4 May</c></summary>
    public static string ShortDay(int day) => MomentWords.DayOfYear(CivilDate.FromDayNumber(day).ToLocalDate());

    /// <summary><c>20:59 to 21:47</c>; with a date where that is another one.</summary>
    public string Span(long from, long to) => $"{_moments.Time(from)} to {_moments.TimeAfter(to, _moments.DateAt(from))}";

    /// <summary><c>Mon 4 May 2026 20:59 to 21:47</c></summary>
    public string Night(long from, long to) => $"{_moments.Moment(from)} to {_moments.TimeAfter(to, _moments.DateAt(from))}";

    /// <summary><c>20:59</c></summary>
    public string Time(long instant) => _moments.Time(instant);

    /// <summary>The date at an instant.</summary>
    public LocalDate DateAt(long instant) => _moments.DateAt(instant);

    /// <summary><c>672 L, 5.6 mm</c>; what cannot be known is left out.</summary>
    public string Amount(Zone zone, long seconds) =>
        string.Join(", ", new[] { Litres(zone.LitresPerMinute * seconds / 60), Depth(zone.MillimetresPerHour * seconds / 3600) }.OfType<string>());

    /// <summary><c>672 L</c>; null for null.</summary>
    public string? Litres(decimal? litres) => litres is { } volume ? _water.Say(volume, volume < FewLitres ? 1 : 0) : null;

    /// <summary><c>5.6 mm</c>; null for null.</summary>
    public string? Depth(decimal? millimetres) => millimetres is { } depth ? _depths.Say(depth, depth < FewMillimetres ? 1 : 0) : null;

    /// <summary><c>20.0 L/min</c></summary>
    public string Flow(decimal litresPerMinute) => _water.SayFlow(litresPerMinute);

    /// <summary><c>7.0 mm/h</c>; null for null.</summary>
    public string? Rate(decimal? millimetresPerHour) => millimetresPerHour is { } rate ? $"{_depths.Say(rate)}/h" : null;
}
