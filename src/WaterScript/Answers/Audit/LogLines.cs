namespace WaterScript.Answers.Audit;

/// <summary>
/// The lines of a log of any length, one at a time. A line that is too long is said to be so and never held. CR, LF and CR LF end a line.
/// </summary>
internal sealed class LogLines(TextReader text)
{
    /// <summary>UTF-16 code units of one line; rows of devices have some dozens.</summary>
    public const int MostLetters = 8_192;

    private const int BufferLength = 65_536;

    private readonly char[] _buffer = new char[BufferLength];
    private readonly char[] _line = new char[MostLetters];
    private int _at;
    private int _end;
    private int _length;
    private int _blank;

    /// <summary>Number of the current line, from 1.</summary>
    public int Number { get; private set; }

    /// <summary>Whether the current line has more letters than are read of one.</summary>
    public bool IsTooLong { get; private set; }

    /// <summary>The current line without what ends it; empty where it is too long. It stands until the next is asked for.</summary>
    public ReadOnlySpan<char> Current => _line.AsSpan(0, _length);

    /// <summary>Goes to the next line; false where there is none.</summary>
    public bool MoveNext()
    {
        (_length, IsTooLong) = (0, false);
        if (_at == _end && !Fill()) return false;
        Number += 1 + _blank;
        _blank = 0;
        while (true)
        {
            var rest = _buffer.AsSpan(_at, _end - _at);
            var end = rest.IndexOfAny('\n', '\r');
            Take(end < 0 ? rest : rest[..end]);
            if (end >= 0) break;
            if (!Fill()) return true;
        }

        SkipLineEnd();
        return true;
    }

    private void Take(ReadOnlySpan<char> part)
    {
        _at += part.Length;
        if (IsTooLong) return;
        IsTooLong = _length + part.Length > MostLetters;
        if (IsTooLong)
        {
            _length = 0;
            return;
        }

        part.CopyTo(_line.AsSpan(_length));
        _length += part.Length;
    }

    /// <summary>Any number of CR before an LF belong to it; without one each ends a line of its own.</summary>
    private void SkipLineEnd()
    {
        var returns = 0;
        for (; (_at < _end || Fill()) && _buffer[_at] == '\r'; _at++) returns++;
        if (_at < _end && _buffer[_at] == '\n') _at++;
        else _blank = returns - 1;
    }

    /// <summary>Reads on, when all that was read is used.</summary>
    private bool Fill()
    {
        _at = 0;
        _end = text.Read(_buffer, 0, BufferLength);
        return _end > 0;
    }
}
