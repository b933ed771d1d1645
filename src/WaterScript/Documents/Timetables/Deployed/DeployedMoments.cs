using WaterScript.Calendars;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>Reads instants and dates in the one form in which a timetable has them.</summary>
internal static class DeployedMoments
{
    private const int WithMinutes = 25;
    private const int WithSeconds = 28;
    private const int DateLength = 10;
    private const int LastYear = 9_998;

    /// <summary>Reads <c>2026-05-01T06:00:00+01:00</c>.</summary>
    /// <param name="text">The text.</param>
    /// <param name="instant">In Unix seconds.</param>
    public static bool TryInstant(ReadOnlySpan<char> text, out long instant)
    {
        instant = 0;
        if (text.Length is not (WithMinutes or WithSeconds) || text[DateLength] != 'T' || text[19] is not ('+' or '-')) return false;
        if (!TryDate(text[..DateLength], out var day) || !TryClock(text.Slice(11, 8), 23, out var second)) return false;
        var offset = 0;
        if (text.Length == WithSeconds ? !TryClock(text[20..], 23, out offset) : !TryHour(text[20..], out offset)) return false;
        instant = ((long)day * ZoneClock.SecondsInDay) + second - (text[19] == '-' ? -offset : offset);
        return true;
    }

    /// <summary>Reads <c>2026-05-01</c>.</summary>
    /// <param name="text">The text.</param>
    /// <param name="day">In days since 1970-01-01.</param>
    public static bool TryDate(ReadOnlySpan<char> text, out int day)
    {
        day = 0;
        if (text.Length != DateLength || text[4] != '-' || text[7] != '-') return false;
        if (!TryTwo(text, out var century) || !TryTwo(text[2..], out var yearOfCentury) || !TryTwo(text[5..], out var month)
            || !TryTwo(text[8..], out var dayOfMonth))
            return false;
        var year = (century * 100) + yearOfCentury;
        if (year is < 1 or > LastYear || month is < 1 or > 12 || dayOfMonth < 1 || dayOfMonth > CivilDate.DaysInMonth(year, month)) return false;
        day = CivilDate.DayNumberOf(year, month, dayOfMonth);
        return true;
    }

    private static bool TryClock(ReadOnlySpan<char> text, int lastHour, out int second)
    {
        second = 0;
        if (text.Length != 8 || text[5] != ':' || !TryHour(text[..5], out var minutes) || !TryTwo(text[6..], out var seconds) || seconds > 59) return false;
        second = minutes + seconds;
        return second < (lastHour + 1) * 3_600;
    }

    /// <summary>Reads <c>06:00</c>, as seconds.</summary>
    private static bool TryHour(ReadOnlySpan<char> text, out int seconds)
    {
        seconds = 0;
        if (text.Length != 5 || text[2] != ':' || !TryTwo(text, out var hour) || !TryTwo(text[3..], out var minute) || hour > 23 || minute > 59) return false;
        seconds = (hour * 3_600) + (minute * 60);
        return true;
    }

    private static bool TryTwo(ReadOnlySpan<char> text, out int number)
    {
        number = ((text[0] - '0') * 10) + text[1] - '0';
        return char.IsAsciiDigit(text[0]) && char.IsAsciiDigit(text[1]);
    }
}
