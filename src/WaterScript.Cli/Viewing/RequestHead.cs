using System.Text;

namespace WaterScript.Cli.Viewing;

/// <summary>The head of a request (HTTP/1.1, RFC 9112), as far as a page on this machine needs it.</summary>
/// <param name="Method">The method.</param>
/// <param name="Target">The path that is asked for.</param>
/// <param name="Host">For whom, or null.</param>
/// <param name="Origin">Whose script asks, or null.</param>
internal sealed record RequestHead(string Method, string Target, string? Host, string? Origin)
{
    /// <summary>A longer head is refused.</summary>
    public const int MostBytes = 8_192;

    private const int MostLines = 100;

    /// <summary>Reads the head of a request; null where it is too long or is none.</summary>
    public static async Task<RequestHead?> ReadAsync(Stream stream, CancellationToken stop)
    {
        var bytes = new byte[MostBytes];
        var length = 0;
        while (length < MostBytes)
        {
            var count = await stream.ReadAsync(bytes.AsMemory(length), stop).ConfigureAwait(false);
            if (count == 0) return null;
            length += count;
            var end = bytes.AsSpan(0, length).IndexOf("\r\n\r\n"u8);
            if (end >= 0) return Of(Encoding.Latin1.GetString(bytes, 0, end));
        }

        return null;
    }

    /// <summary>A head, without the empty line that ends it; null where it is none.</summary>
    public static RequestHead? Of(string head)
    {
        var lines = head.Split("\r\n");
        if (lines.Length > MostLines || lines[0].Split(' ') is not [var method, ['/', ..] target, "HTTP/1.1" or "HTTP/1.0"]) return null;
        var fields = new Dictionary<string, string>(StringComparer.OrdinalIgnoreCase);
        foreach (var line in lines.Skip(1))
        {
            var colon = line.IndexOf(':', StringComparison.Ordinal);
            // A name with a space, or one that comes twice, is how requests are smuggled.
            if (colon <= 0 || line.AsSpan(0, colon).ContainsAny(" \t") || !fields.TryAdd(line[..colon], line[(colon + 1)..].Trim())) return null;
        }

        return new RequestHead(method, target, fields.GetValueOrDefault("Host"), fields.GetValueOrDefault("Origin"));
    }
}
