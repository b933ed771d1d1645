using System.Globalization;
using WaterScript.Calendars;

namespace WaterScript.Documents.ICalendar;

/// <summary>Times as iCalendar writes them.</summary>
internal static class CalendarTime
{
    /// <summary>Bytes of an instant in UTC.</summary>
    public const int UtcLength = 16;

    /// <summary>Bytes of a date: <c>20260501</c>.</summary>
    public const int DateLength = 8;

    /// <summary><c>20260501T060000</c></summary>
    /// <param name="wall">On the clock, in seconds from 1970-01-01 00:00.</param>
    public static string Local(long wall)
    {
        Span<byte> bytes = stackalloc byte[UtcLength];
        Utc(wall, bytes);
        return System.Text.Encoding.ASCII.GetString(bytes[..^1]);
    }

    /// <summary><c>20260501T050000Z</c></summary>
    public static string Utc(long instant) => Local(instant) + "Z";

    /// <summary><c>+0100</c>, with seconds only where there are some.</summary>
    public static string Offset(int seconds)
    {
        var size = Math.Abs(seconds);
        var text = string.Create(CultureInfo.InvariantCulture, $"{(seconds < 0 ? '-' : '+')}{size / 3_600:00}{size / 60 % 60:00}");
        return size % 60 == 0 ? text : text + (size % 60).ToString("00", CultureInfo.InvariantCulture);
    }

    /// <summary>Writes an instant in UTC.</summary>
    /// <param name="instant">In Unix seconds.</param>
    /// <param name="into">At least <see cref="UtcLength"/> bytes.</param>
    public static void Utc(long instant, Span<byte> into)
    {
        var (day, second) = Math.DivRem(instant, ZoneClock.SecondsInDay);
        if (second < 0) (day, second) = (day - 1, second + ZoneClock.SecondsInDay);
        Date((int)day, into);
        TimeOfDay((int)second, into[DateLength..]);
    }

    /// <summary>Writes a date.</summary>
    /// <param name="day">In days since 1970-01-01.</param>
    /// <param name="into">At least <see cref="DateLength"/> bytes.</param>
    public static void Date(int day, Span<byte> into)
    {
        var date = CivilDate.FromDayNumber(day);
        PutTwo(date.Year / 100, into);
        PutTwo(date.Year % 100, into[2..]);
        PutTwo(date.Month, into[4..]);
        PutTwo(date.Day, into[6..]);
    }

    private static void TimeOfDay(int second, Span<byte> into)
    {
        into[0] = (byte)'T';
        PutTwo(second / 3_600, into[1..]);
        PutTwo(second / 60 % 60, into[3..]);
        PutTwo(second % 60, into[5..]);
        into[7] = (byte)'Z';
    }

    private static void PutTwo(int number, Span<byte> into)
    {
        into[0] = (byte)('0' + (number / 10));
        into[1] = (byte)('0' + (number % 10));
    }
}
