using System.Globalization;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Wording;

/// <summary>How answers about a site say its moments and places.</summary>
internal sealed class SiteWords(Site site)
{
    /// <summary>The site's clock at an instant in Unix seconds.</summary>
    public LocalDateTime ClockAt(long instant) => Instant.FromUnixTimeSeconds(instant).InZone(site.TimeZone).LocalDateTime;

    /// <summary>The local date of an instant.</summary>
    public LocalDate DateAt(long instant) => ClockAt(instant).Date;

    /// <summary><c>Tue 15 Sep 2026 06:00</c></summary>
    public string Moment(long instant) => MomentWords.Moment(ClockAt(instant));

    /// <summary><c>06:00</c></summary>
    public string Time(long instant) => MomentWords.Time(ClockAt(instant).TimeOfDay);

    /// <summary>The time alone where it is on a date that was just said, else date and time.</summary>
    public string TimeAfter(long instant, LocalDate said) => DateAt(instant) == said ? Time(instant) : Moment(instant);

    /// <summary><c>garden.water:12</c></summary>
    public static string Place(Location place) => string.Create(CultureInfo.InvariantCulture, $"{place.Source.Path}:{place.Start.Line}");

    /// <summary>What is written at a place, on one line.</summary>
    public static string Written(Location place) => string.Join(' ', place.Text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    /// <summary>A date in days since 1970-01-01: <c>Tue 15 Sep 2026</c></summary>
    public static string Date(int day) => MomentWords.Date(CivilDate.FromDayNumber(day).ToLocalDate());
}
