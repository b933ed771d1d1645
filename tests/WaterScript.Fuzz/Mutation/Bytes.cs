namespace WaterScript.Fuzz.Mutation;

/// <summary>Changes bytes, whatever they mean.</summary>
internal static class Bytes
{
    private static readonly byte[][] Odd =
    [
        [0], [0xFF], [0xFE, 0xFF], [0xED, 0xA0, 0x80], [0xC0, 0x80], [0xF4, 0x90, 0x80, 0x80], [0xEF, 0xBB, 0xBF], [0x1B, 0x5B, 0x33, 0x31, 0x6D], [0x0B],
            [0x0C], [0x0D], [0x7F], [0xC2, 0x85], [0xE2, 0x80, 0xA8],
        [0x7B], [0x7D], [0x22], [0x3B], [0x0A], [0x23], [0x5C],
    ];

    /// <summary>One change at one place.</summary>
    public static void Mutate(Draft draft)
    {
        var dice = draft.Dice;
        var path = draft.PickPath();
        var bytes = draft.Files.Files[path].ToList();
        var at = dice.Below(bytes.Count);
        var length = Math.Min(1 + dice.Below(dice.OneIn(4) ? 200 : 8), bytes.Count - at);
        switch (dice.Below(6))
        {
            case 0 when bytes.Count > 0:
                bytes[at] ^= (byte)(1 << dice.Below(8));
                break;
            case 1:
                bytes.RemoveRange(at, length);
                break;
            case 2:
                bytes.InsertRange(at, [.. bytes.GetRange(at, length)]);
                break;
            case 3 when bytes.Count > 0:
                bytes[at] = (byte)dice.Below(256);
                break;
            case 4:
                bytes.RemoveRange(at, bytes.Count - at);
                break;
            default:
                bytes.InsertRange(at, dice.Of(Odd));
                break;
        }

        draft.Files = draft.Files.With(path, [.. bytes]);
    }
}
