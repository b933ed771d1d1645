using System.Globalization;

namespace WaterScript.Cli.Files.TimeZones;

/// <summary>What the clocks of a place do each year from now on, as the footer of a file of the system says it (POSIX.1 TZ, with RFC 9636, 3.3.1).</summary>
/// <param name="Standard">Name and offset from UTC in seconds.</param>
/// <param name="Summer">Those of the other time of the year; null where the clocks never change.</param>
/// <param name="Begins">When that begins, by the clock before.</param>
/// <param name="Ends">When it ends, by the clock before.</param>
internal sealed record ZoneRule(ClockTime Standard, ClockTime? Summer, YearDay Begins, YearDay Ends)
{
    private const int SecondsInHour = 3_600;

    /// <summary>A change of the clocks by half an hour or two is written out, one by an hour is not.</summary>
    private const int UsualSaving = SecondsInHour;

    /// <summary>Reads a footer.</summary>
    /// <exception cref="FormatException">It is none.</exception>
    public static ZoneRule Read(string footer)
    {
        var text = new Letters(footer);
        var standard = new ClockTime(text.Name(), -text.Time(24 + 1), IsSummer: false);
        if (text.IsAtEnd) return new ZoneRule(standard, null, default, default);
        var name = text.Name();
        var offset = text.IsAt(',') ? standard.Offset + UsualSaving : -text.Time(24 + 1);
        text.Skip(',');
        var begins = text.Day();
        text.Skip(',');
        var ends = text.Day();
        if (!text.IsAtEnd) throw new FormatException();
        return new ZoneRule(standard, new ClockTime(name, offset, IsSummer: true), begins, ends);
    }

    /// <summary>The changes of a year in order: when, in Unix seconds, and what the clock shows from then on.</summary>
    public IEnumerable<(long At, ClockTime Time)> ChangesOf(int year)
    {
        if (Summer is not { } summer) return [];

        // A summer time that ends when the next one begins is all there is.
        if (Ends.SecondOf(year) - summer.Offset == Begins.SecondOf(year + 1) - Standard.Offset) return [];
        (long, ClockTime)[] both = [(Begins.SecondOf(year) - Standard.Offset, summer), (Ends.SecondOf(year) - summer.Offset, Standard)];
        return both.OrderBy(change => change.Item1);
    }

    /// <summary>The letters of a footer, read from left to right.</summary>
    private sealed class Letters(string text)
    {
        private int _at;

        public bool IsAtEnd => _at == text.Length;

        public bool IsAt(char letter) => _at < text.Length && text[_at] == letter;

        public void Skip(char letter)
        {
            if (!IsAt(letter)) throw new FormatException();
            _at++;
        }

        /// <summary>Letters alone, or anything between angle brackets.</summary>
        public string Name()
        {
            var start = _at;
            if (IsAt('<'))
            {
                while (!IsAtEnd && !IsAt('>')) _at++;
                Skip('>');
                return text[(start + 1)..(_at - 1)];
            }

            while (!IsAtEnd && char.IsAsciiLetter(text[_at])) _at++;
            return _at > start ? text[start.._at] : throw new FormatException();
        }

        /// <summary>Hours with minutes and seconds, in seconds.</summary>
        public int Time(int mostHours)
        {
            var sign = IsAt('-') ? -1 : 1;
            if (IsAt('-') || IsAt('+')) _at++;
            var seconds = Number(mostHours) * SecondsInHour;
            for (var unit = 60; unit > 0 && IsAt(':'); unit /= 60)
            {
                _at++;
                seconds += Number(59) * unit;
            }

            return sign * seconds;
        }

        public YearDay Day()
        {
            var kind = IsAt('M') || IsAt('J') ? text[_at++] : ' ';
            var (month, week, day) = (0, 0, Number(365));
            if (kind == 'M')
            {
                month = day is >= 1 and <= 12 ? day : throw new FormatException();
                Skip('.');
                week = Number(5);
                Skip('.');
                day = Number(6);
            }

            if ((kind == 'M' && week == 0) || (kind == 'J' && day == 0)) throw new FormatException();
            var time = 2 * SecondsInHour;
            if (IsAt('/'))
            {
                _at++;
                time = Time(167);
            }

            return new YearDay(kind, month, week, day, time);
        }

        private int Number(int most)
        {
            var start = _at;
            while (!IsAtEnd && _at - start < 3 && char.IsAsciiDigit(text[_at])) _at++;
            return int.TryParse(text.AsSpan(start, _at - start), NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number <= most
                ? number
                : throw new FormatException();
        }
    }
}

/// <summary>What a clock shows for a time.</summary>
/// <param name="Name">Its short name.</param>
/// <param name="Offset">Seconds ahead of UTC.</param>
/// <param name="IsSummer">Whether it is not the standard time there.</param>
internal readonly record struct ClockTime(string Name, int Offset, bool IsSummer);

/// <summary>A moment of every year, by the clock.</summary>
/// <param name="Kind">M for a weekday of a month, J for a day from 1 that never counts 29 February, else a day from 0 that does.</param>
/// <param name="Month">Of a weekday, 1 to 12.</param>
/// <param name="Week">Of a weekday, 1 to 5; 5 is the last.</param>
/// <param name="Day">The day, or the weekday from Sunday as 0.</param>
/// <param name="Time">Seconds from its midnight; may be below 0, and more than a day.</param>
internal readonly record struct YearDay(char Kind, int Month, int Week, int Day, int Time)
{
    private const long SecondsInDay = 86_400;

    /// <summary>Seconds from 1970-01-01 to that moment of a year, both by the clock.</summary>
    public long SecondOf(int year) => (DayOf(year).DayNumber - DateOnly.FromDateTime(DateTime.UnixEpoch).DayNumber) * SecondsInDay + Time;

    private DateOnly DayOf(int year)
    {
        var first = new DateOnly(year, 1, 1);
        if (Kind == 'J') return first.AddDays(Day - 1 + (DateTime.IsLeapYear(year) && Day >= 60 ? 1 : 0));
        if (Kind != 'M') return first.AddDays(Day);
        var month = new DateOnly(year, Month, 1);
        var day = month.AddDays((Day - (int)month.DayOfWeek + 7) % 7 + (7 * (Week - 1)));
        return day.Month == Month ? day : day.AddDays(-7);
    }
}
