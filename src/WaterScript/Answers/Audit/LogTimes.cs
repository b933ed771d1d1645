using System.Globalization;
using NodaTime;
using NodaTime.Text;
using WaterScript.Calendars;
using WaterScript.Model;

namespace WaterScript.Answers.Audit;

/// <summary>
/// Reads the times of a log: Unix seconds, or a date and time with its offset or by the site's clocks. Of an hour that the clock shows twice the
/// first is taken, and that there is another is reported.
/// </summary>
internal sealed class LogTimes(Site site)
{
    private const int LongestIso = 25;
    private const int DateLength = 10;
    private const int MinutesLength = 16;
    private const int SecondsLength = 19;
    private const int MostOffsetHours = 17;

    private static readonly OffsetDateTimePattern[] WithOffset =
        [OffsetDateTimePattern.ExtendedIso, OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd HH:mm:sso<G>"),
        OffsetDateTimePattern.CreateWithInvariantCulture("uuuu-MM-dd'T'HH:mmo<G>")];

    private static readonly LocalDateTimePattern[] Local =
    [
        .. new[] { "uuuu-MM-dd HH:mm:ss.FFF", "uuuu-MM-dd'T'HH:mm:ss.FFF", "uuuu-MM-dd HH:mm", "uuuu-MM-dd'T'HH:mm", "dd.MM.uuuu HH:mm:ss",
            "dd.MM.uuuu HH:mm" }.Select(LocalDateTimePattern.CreateWithInvariantCulture),
    ];

    private readonly ZoneClock _clock = new(site.TimeZone);
    private (int Year, int Month, int Day) _lastDate;
    private int _lastDay;

    /// <summary>Seconds from what was read last to when the clock shows it again; 0 where it shows it once.</summary>
    public long Again { get; private set; }

    /// <summary>A time in Unix seconds; null where the text is none.</summary>
    public decimal? Read(ReadOnlySpan<char> text)
    {
        Again = 0;
        // Parsers of numbers and of dates take a NUL at the end for the end.
        if (text.Contains('\0')) return null;
        if (Number(text) is { } seconds) return seconds;
        return Iso(text) ?? ByPattern(text.ToString());
    }

    /// <summary>A number with a decimal point or a decimal comma; null where the text is none.</summary>
    public static decimal? Number(ReadOnlySpan<char> text)
    {
        const NumberStyles Styles = NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign;
        var isNumber = text.Contains(',')
            ? decimal.TryParse(text.ToString().Replace(',', '.'), Styles, CultureInfo.InvariantCulture, out var number)
            : decimal.TryParse(text, Styles, CultureInfo.InvariantCulture, out number);
        return isNumber && Math.Abs(number) < 1e11m ? number : null;
    }

    /// <summary>The commonest forms, which the patterns read too, without what a pattern costs for each row: <c>2026-06-01 06:00:00+01:00</c></summary>
    private decimal? Iso(ReadOnlySpan<char> text)
    {
        if (text.Length is < MinutesLength or > LongestIso || text[4] != '-' || text[7] != '-' || text[DateLength] is not (' ' or 'T') || text[13] != ':')
            return null;
        if (text.Length > MinutesLength && (text.Length < SecondsLength || text[MinutesLength] != ':')) return null;
        var (hour, minute, second) = (Digits(text[11..13]), Digits(text[14..16]), text.Length > MinutesLength ? Digits(text[17..19]) : 0);
        if (hour is < 0 or > 23 || minute is < 0 or > 59 || second is < 0 or > 59 || DayOf(text) is not { } day) return null;
        var ofDay = (((hour * 60) + minute) * 60) + second;
        if (text.Length <= SecondsLength) return First(_clock.Read(day, ofDay));
        return Offset(text[SecondsLength..]) is { } offset ? ((long)day * ZoneClock.SecondsInDay) + ofDay - offset : null;
    }

    private long First(MomentReading reading)
    {
        if (reading.Note == MomentNote.Doubled) Again = _clock.OffsetAt(reading.Instant) - _clock.OffsetAt(reading.Instant + ZoneClock.SecondsInDay);
        return reading.Instant;
    }

    /// <summary>Rows of one date mostly follow each other.</summary>
    private int? DayOf(ReadOnlySpan<char> text)
    {
        var date = (Year: Digits(text[..4]), Month: Digits(text[5..7]), Day: Digits(text[8..10]));
        if (date.Year < 1 || date.Month is < 1 or > 12 || date.Day < 1 || date.Day > DateTime.DaysInMonth(date.Year, date.Month)) return null;
        if (date != _lastDate) (_lastDate, _lastDay) = (date, CivilDate.DayNumberOf(new LocalDate(date.Year, date.Month, date.Day)));
        return _lastDay;
    }

    private static int? Offset(ReadOnlySpan<char> text)
    {
        if (text is "Z") return 0;
        if (text.Length != 6 || text[0] is not ('+' or '-') || text[3] != ':') return null;
        var (hours, minutes) = (Digits(text[1..3]), Digits(text[4..]));
        if (hours is < 0 or > MostOffsetHours || minutes is < 0 or > 59) return null;
        return ((hours * 60) + minutes) * (text[0] == '-' ? -60 : 60);
    }

    /// <summary>A number of ASCII digits alone; -1 where there is anything else.</summary>
    private static int Digits(ReadOnlySpan<char> text)
    {
        var number = 0;
        foreach (var letter in text)
        {
            if (!char.IsAsciiDigit(letter)) return -1;
            number = (number * 10) + (letter - '0');
        }

        return number;
    }

    private decimal? ByPattern(string text)
    {
        foreach (var pattern in WithOffset)
        {
            if (pattern.Parse(text) is { Success: true, Value: var moment }) return SecondsOf(moment.ToInstant());
        }

        foreach (var pattern in Local)
        {
            if (pattern.Parse(text) is not { Success: true, Value: var moment }) continue;
            if (site.TimeZone.MapLocal(moment) is { Count: 2 } both) Again = (long)(both.Last().ToInstant() - both.First().ToInstant()).TotalSeconds;
            return SecondsOf(site.TimeZone.ResolveLocal(moment, NodaTime.TimeZones.Resolvers.LenientResolver).ToInstant());
        }

        return null;
    }

    private static decimal SecondsOf(Instant instant) => instant.ToUnixTimeMilliseconds() / 1000m;
}
