using System.Globalization;
using System.Text;

namespace WaterScript.Tests.Player;

/// <summary>Lists that no compiler would write, some of them damaged, and a call to play them with.</summary>
internal static class RandomList
{
    private const long Noon = 1_767_614_400;

    private static readonly string[] Odd =
    [
        "", "0", "1", "3", "01", "-1", "1e3", "4294967295", "4294967296", "9999999999", "40.5", "40.", "0.0", "0.001", ".5", "10000", "10000.0", "10000.001",
        "10001", "00.5", "0.00000001", "open", "close", "toggle", "positive", "negative", "shed", "béch", "be\u0080nch", "1bench", "be nch", "\"bench\"", "999",
        "1000", "4096", "4097", "\u001b", "a\rb", "end", "x,y",
    ];

    /// <summary>A list, and the options with which it is played.</summary>
    public static (byte[] List, string Words) Of(Random random)
    {
        var rows = Rows(random);
        var span = rows.Count == 0 ? 0 : (rows[^1].At / 1000) - Noon;
        var lines = rows.Select(row => row.Line()).ToArray();
        if (lines.Length > 0 && random.Next(5) < 2) Spoil(lines, random);
        var from = Noon + random.Next(-50, 51);
        var until = Math.Max(from + random.Next(1, 3), Noon + random.NextInt64(span + 100));
        var list = Damaged(Encoding.UTF8.GetBytes(SwitchingList.Of(from, until, lines)), random);
        var start = Noon + random.NextInt64(-100, span + 100);
        var words = string.Create(CultureInfo.InvariantCulture, $"--from {start} --stagger {Pick(random, 0, 0, 500, 800, 3000, 45_000)}");
        if (random.Next(3) == 0) words += string.Create(CultureInfo.InvariantCulture, $" --outputs {random.Next(1, 7)}");
        if (random.Next(5) == 0) words += $" --controller {Pick(random, "bench", "shed")}";
        if (random.Next(5) < 2) words += string.Create(CultureInfo.InvariantCulture, $" --cut {start + random.Next(1, 300)}");
        return (list, words);
    }

    private static List<SwitchingRow> Rows(Random random)
    {
        var pulses = Enumerable.Range(0, random.Next(1, 6)).Select(_ => Pick(random, null, "40", "12.5", "")).ToArray();
        var mostOn = pulses.Select(_ => Pick(random, 60L, 120L, 600L)).ToArray();
        var isOpen = new bool[pulses.Length];
        var at = Noon * 1000;
        List<SwitchingRow> rows = [];
        for (var count = random.Next(15); count > 0; count--)
        {
            at += Pick(random, 0, 0, 1, 500, 900, 7000, 60_000, 119_000, 200_000);
            var output = random.Next(pulses.Length);
            // Now and then an output is opened or closed twice.
            if (random.Next(7) > 0) isOpen[output] = !isOpen[output];
            var polarity = pulses[output] is null ? "" : isOpen[output] ? "positive" : "negative";
            rows.Add(new(at, output + 1, isOpen[output] ? "open" : "close", polarity, pulses[output] ?? "", mostOn[output], $"{(rows.Count / 2) + 1}"));
        }

        return rows;
    }

    private static void Spoil(string[] lines, Random random)
    {
        ref var line = ref lines[random.Next(lines.Length)];
        var fields = line.Split(',');
        fields[random.Next(fields.Length)] = Pick(random, Odd);
        line = string.Join(',', fields);
    }

    private static byte[] Damaged(byte[] list, Random random)
    {
        var at = random.Next(list.Length);
        switch (random.Next(12))
        {
            case 0: return list[..at];
            case 1: return [.. list[..at], .. list[Math.Min(list.Length, at + random.Next(1, 30))..]];
            case 2: list[at] ^= (byte)(1 << random.Next(8)); return list;
            default: return list;
        }
    }

    private static T Pick<T>(Random random, params T[] among) => among[random.Next(among.Length)];
}
