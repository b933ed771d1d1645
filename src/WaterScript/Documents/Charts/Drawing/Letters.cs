using System.Text;

namespace WaterScript.Documents.Charts.Drawing;

/// <summary>
/// How wide texts are: in Arial, whose widths Liberation Sans and Helvetica share (Adobe's font metrics of Helvetica, in thousandths of the size). The
/// page's script has the same table, so both place labels alike.
/// </summary>
internal static class Letters
{
    private const int Size = 12;
    private const int First = 32;
    private const int Accented = 722;
    private const int Widest = 1000;
    private const int FirstOther = 0x370;
    private const string Ellipsis = "…";

    private static readonly int[] Widths =
    [
        278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584,
        584, 556, 1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278,
        278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500,
        500, 334, 260, 334, 584,
    ];

    /// <summary>The width of a text of 12 px.</summary>
    public static double Width(string text)
    {
        var sum = 0L;
        foreach (var rune in text.EnumerateRunes()) sum += Of(rune.Value);
        return sum * Size / 1000.0;
    }

    /// <summary>A name, cut in the middle where it is wider than its room.</summary>
    public static string Cut(string text, double room)
    {
        if (Width(text) <= room) return text;
        Rune[] letters = [.. text.EnumerateRunes()];
        var head = (letters.Length + 1) / 2;
        var tail = letters.Length - head;
        while (head + tail > 2)
        {
            if (tail >= head) tail--;
            else head--;
            var tried = Join(letters.AsSpan(0, head)).TrimEnd() + Ellipsis + Join(letters.AsSpan(letters.Length - tail)).TrimStart();
            if (Width(tried) <= room) return tried;
        }

        return Ellipsis;
    }

    /// <summary>Names, each cut; those that come out alike give all but a letter of their room to the end.</summary>
    public static string[] CutAll(IReadOnlyList<string> names, double room)
    {
        string[] all = [.. names.Select(name => Cut(name, room))];
        var seen = all.CountBy(name => name, StringComparer.Ordinal).ToDictionary(StringComparer.Ordinal);
        return [.. all.Select((name, index) => seen[name] > 1 && name != names[index] ? WithTail(names[index], name, room) : name)];
    }

    private static string WithTail(string name, string otherwise, double room)
    {
        Rune[] letters = [.. name.EnumerateRunes()];
        var best = otherwise;
        for (var from = letters.Length - 1; from > 0; from--)
        {
            var tried = letters[0] + Ellipsis + Join(letters.AsSpan(from));
            if (Width(tried) > room) break;
            best = tried;
        }

        return best;
    }

    private static string Join(ReadOnlySpan<Rune> letters)
    {
        var text = new StringBuilder();
        foreach (var letter in letters) text.Append(letter.ToString());
        return text.ToString();
    }

    private static int Of(int rune) => rune switch
    {
        >= First and < 127 => Widths[rune - First],
        '–' => 556,
        '…' => 1000,
        '×' => 584,
        '·' => 333,
        '−' => 584,
        '½' => 834,
        '\u00A0' => 278,
        '²' => 333,
        < FirstOther => Accented,
        _ => Widest,
    };
}
