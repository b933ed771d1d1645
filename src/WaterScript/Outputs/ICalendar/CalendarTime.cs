using System.Globalization;
using WaterScript.Calendars;

namespace WaterScript.Outputs;

/// <summary>Times as iCalendar writes them.</summary>
internal static class CalendarTime
{
    /// <summary>Bytes of an instant in UTC.</summary>
    public const int UtcLength = 16;

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
        var day = (int)Math.DivRem(instant, ZoneClock.SecondsInDay, out var second);
        if (second < 0) (day, second) = (day - 1, second + ZoneClock.SecondsInDay);
        var date = CivilDate.FromDayNumber(day);
        PutTwo(date.Year / 100, into);
        PutTwo(date.Year % 100, into[2..]);
        PutTwo(date.Month, into[4..]);
        PutTwo(date.Day, into[6..]);
        into[8] = (byte)'T';
        PutTwo((int)second / 3_600, into[9..]);
        PutTwo((int)second / 60 % 60, into[11..]);
        PutTwo((int)second % 60, into[13..]);
        into[15] = (byte)'Z';
    }

    private static void PutTwo(int number, Span<byte> into)
    {
        into[0] = (byte)('0' + (number / 10));
        into[1] = (byte)('0' + (number % 10));
    }
}
