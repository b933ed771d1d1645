using System.Buffers.Binary;
using System.Text;

namespace WaterScript.Cli.Files.TimeZones;

/// <summary>
/// Reads the files in which systems keep their time zones (TZif, RFC 9636). The library of .NET reads them too, but not all of their yearly rules: of some
/// places its clocks are wrong after the last change that is written out, which in many systems' files is in 2037.
/// </summary>
internal static class ZoneFile
{
    private const int HeaderBytes = 44;
    private const int OldTimeBytes = 4;
    private const int TimeBytes = 8;
    private const int TypeBytes = 6;

    /// <summary>No clock is further from UTC (Noda Time).</summary>
    private const int LargestOffset = 18 * 3_600;

    /// <summary>The zone of a file.</summary>
    /// <exception cref="FormatException">It is no such file, or counts leap seconds.</exception>
    public static SystemZone Read(string id, ReadOnlySpan<byte> file)
    {
        var old = Header.Of(file);
        if (old.Version < '2') throw new FormatException();
        var rest = file[(HeaderBytes + old.Bytes(OldTimeBytes))..];
        var head = Header.Of(rest);
        if (head.Leaps > 0 || head.Types == 0) throw new FormatException();
        var data = rest[HeaderBytes..];
        var length = head.Bytes(TimeBytes);
        if (length > data.Length) throw new FormatException();
        var (changes, times) = Changes(data, head);
        var footer = data[length..];
        var end = footer.Length > 0 && footer[0] == '\n' ? footer[1..].IndexOf((byte)'\n') : -1;
        if (end < 0) throw new FormatException();
        var rule = end == 0 ? null : ZoneRule.Read(Encoding.ASCII.GetString(footer.Slice(1, end)));
        return new SystemZone(id, changes, times, rule);
    }

    private static (long[] Changes, ClockTime[] Times) Changes(ReadOnlySpan<byte> data, Header head)
    {
        var indices = data.Slice(head.Changes * TimeBytes, head.Changes);
        var types = data.Slice(head.Changes * (TimeBytes + 1), head.Types * TypeBytes);
        var names = data.Slice((head.Changes * (TimeBytes + 1)) + (head.Types * TypeBytes), head.Letters);
        var (changes, times) = (new List<long>(head.Changes), new List<ClockTime> { TimeOf(types, names, 0) });
        for (var index = 0; index < head.Changes; index++)
        {
            var at = BinaryPrimitives.ReadInt64BigEndian(data[(index * TimeBytes)..]);
            var time = TimeOf(types, names, indices[index]);
            if ((changes.Count > 0 && at <= changes[^1]) || at > NodaTime.Instant.MaxValue.ToUnixTimeSeconds()) throw new FormatException();

            // A file may begin with the beginning of all time, and name changes that change nothing.
            if (time == times[^1]) continue;
            if (at < NodaTime.Instant.MinValue.ToUnixTimeSeconds())
            {
                times[^1] = time;
                continue;
            }

            changes.Add(at);
            times.Add(time);
        }

        return ([.. changes], [.. times]);
    }

    private static ClockTime TimeOf(ReadOnlySpan<byte> types, ReadOnlySpan<byte> names, int index)
    {
        if (index >= types.Length / TypeBytes) throw new FormatException();
        var type = types.Slice(index * TypeBytes, TypeBytes);
        var offset = BinaryPrimitives.ReadInt32BigEndian(type);
        if (offset is < -LargestOffset or > LargestOffset || type[5] >= names.Length) throw new FormatException();
        var name = names[type[5]..];
        var end = name.IndexOf((byte)0);
        return new ClockTime(Encoding.ASCII.GetString(end < 0 ? name : name[..end]), offset, type[4] != 0);
    }

    /// <summary>What a block of a file has.</summary>
    private readonly record struct Header(byte Version, int Leaps, int Changes, int Types, int Letters, int Flags)
    {
        public static Header Of(ReadOnlySpan<byte> block)
        {
            if (block.Length < HeaderBytes || !block.StartsWith("TZif"u8)) throw new FormatException();
            var header = new Header(block[4], Count(block, 7), Count(block, 8), Count(block, 9), Count(block, 10), Count(block, 5) + Count(block, 6));
            if (HeaderBytes + header.Bytes(OldTimeBytes) > block.Length) throw new FormatException();
            return header;
        }

        /// <summary>How long what follows the header is.</summary>
        public int Bytes(int time) => (Changes * (time + 1)) + (Types * TypeBytes) + Letters + (Leaps * (time + 4)) + Flags;

        /// <summary>A count; no file of a zone is so long that one of them has more than 16 bits.</summary>
        private static int Count(ReadOnlySpan<byte> block, int word)
        {
            var count = BinaryPrimitives.ReadUInt32BigEndian(block[(word * 4)..]);
            return count <= ushort.MaxValue ? (int)count : throw new FormatException();
        }
    }
}
