using System.Globalization;
using System.Text;
using WaterScript.Calendars;

namespace WaterScript.Documents.Writers;

/// <summary>Writes instants and dates (ISO 8601) in a time zone, as ASCII bytes. It remembers the date that it wrote last.</summary>
internal sealed class Timestamps(ZoneClock clock)
{
    /// <summary>Bytes of an instant at most: <c>1880-01-01T00:00:00+00:36:32</c>, from before offsets were whole minutes.</summary>
    public const int Longest = 28;

    /// <summary>Bytes of a date.</summary>
    public const int DateLength = 10;

    private readonly byte[] _date = new byte[DateLength];
    private int _day = int.MinValue;

    /// <summary>Writes an instant with its offset: <c>2026-05-01T06:00:00+01:00</c>.</summary>
    /// <param name="instant">In Unix seconds.</param>
    /// <param name="into">At least <see cref="Longest"/> bytes.</param>
    /// <returns>The part written.</returns>
    public ReadOnlySpan<byte> Instant(long instant, Span<byte> into)
    {
        var wall = clock.At(instant);
        Date(wall.Day, into);
        into[10] = (byte)'T';
        PutClock(wall.SecondOfDay, into[11..]);
        into[19] = (byte)(wall.Offset < 0 ? '-' : '+');
        var offset = Math.Abs(wall.Offset);
        PutTwo(offset / 3_600, into[20..]);
        into[22] = (byte)':';
        PutTwo(offset / 60 % 60, into[23..]);
        if (offset % 60 == 0) return into[..25];
        into[25] = (byte)':';
        PutTwo(offset % 60, into[26..]);
        return into[..Longest];
    }

    /// <summary>Writes a date: <c>2026-05-01</c>.</summary>
    /// <param name="day">In days since 1970-01-01.</param>
    /// <param name="into">At least <see cref="DateLength"/> bytes.</param>
    /// <returns>The part written.</returns>
    public ReadOnlySpan<byte> Date(int day, Span<byte> into)
    {
        if (day != _day) Remember(day);
        _date.CopyTo(into);
        return into[..DateLength];
    }

    /// <summary>An instant in Unix seconds with its offset, as a text.</summary>
    public static string Text(ZoneClock clock, long instant) =>
        Encoding.ASCII.GetString(new Timestamps(clock).Instant(instant, stackalloc byte[Longest]));

    /// <summary>A date in days since 1970-01-01, as a text.</summary>
    public static string DateText(int day) =>
        CivilDate.FromDayNumber(day).ToLocalDate().ToString("uuuu-MM-dd", CultureInfo.InvariantCulture);

    private void Remember(int day)
    {
        var date = CivilDate.FromDayNumber(day);
        PutTwo(date.Year / 100, _date);
        PutTwo(date.Year % 100, _date.AsSpan(2));
        _date[4] = (byte)'-';
        PutTwo(date.Month, _date.AsSpan(5));
        _date[7] = (byte)'-';
        PutTwo(date.Day, _date.AsSpan(8));
        _day = day;
    }

    private static void PutClock(int secondOfDay, Span<byte> into)
    {
        PutTwo(secondOfDay / 3_600, into);
        into[2] = (byte)':';
        PutTwo(secondOfDay / 60 % 60, into[3..]);
        into[5] = (byte)':';
        PutTwo(secondOfDay % 60, into[6..]);
    }

    private static void PutTwo(int number, Span<byte> into)
    {
        into[0] = (byte)('0' + (number / 10));
        into[1] = (byte)('0' + (number % 10));
    }
}
