using System.Globalization;
using System.Text;

namespace WaterScript.Documents.ICalendar;

/// <summary>
/// The events of a calendar that was written before, by their names: what each said, and which revision of it that was. So an event keeps its
/// revision as long as it says the same, and nobody counts by hand.
/// </summary>
internal sealed class EarlierEvents
{
    private const string Begin = "BEGIN:VEVENT\r\n", End = "END:VEVENT\r\n", Uid = "UID:";
    private readonly Dictionary<string, (string Said, EventRevision Revision)> _events = new(StringComparer.Ordinal);

    private EarlierEvents()
    {
    }

    /// <summary>Reads a file that <see cref="CalendarFile"/> wrote; what is anything else holds no events.</summary>
    public static EarlierEvents Of(ReadOnlySpan<byte> file)
    {
        var earlier = new EarlierEvents();
        var text = Encoding.UTF8.GetString(file);
        for (var at = text.IndexOf(Begin, StringComparison.Ordinal); at >= 0; at = text.IndexOf(Begin, at, StringComparison.Ordinal))
        {
            at += Begin.Length;
            var end = text.IndexOf(End, at, StringComparison.Ordinal);
            if (end < 0) break;
            earlier.Add(text[at..end]);
            at = end;
        }

        return earlier;
    }

    /// <summary>The revision of an event now: as before where it says the same, the next where it says something else, else the first.</summary>
    /// <param name="uid">Its name.</param>
    /// <param name="said">Its lines after those of name, stamp and revision, without its end.</param>
    /// <param name="now">When it counts as made.</param>
    public EventRevision Of(string uid, string said, string now)
    {
        if (!_events.TryGetValue(uid, out var before)) return new EventRevision(0, now);
        if (before.Said == said) return before.Revision;
        var at = string.CompareOrdinal(now, before.Revision.Changed) > 0 ? now : before.Revision.Changed;
        return new EventRevision((int)Math.Min(int.MaxValue, before.Revision.Sequence + 1L), at);
    }

    private void Add(string lines)
    {
        var said = new StringBuilder();
        var (uid, sequence, changed) = ("", 0, "");
        foreach (var line in lines.Split("\r\n", StringSplitOptions.RemoveEmptyEntries))
        {
            if (Valued(line, Uid) is { } name && uid.Length == 0) uid = name;
            else if (Valued(line, EventRevision.SequenceName) is { } number)
                _ = int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out sequence);
            else if (Valued(line, EventRevision.ChangedName) is { } time) changed = time;
            else if (Valued(line, "DTSTAMP:") is null) said.Append(line).Append("\r\n");
        }

        _events[uid] = (said.ToString(), new EventRevision(sequence, changed));
    }

    private static string? Valued(string line, string name) => line.StartsWith(name, StringComparison.Ordinal) ? line[name.Length..] : null;
}

/// <summary>Which revision of an event it is.</summary>
/// <param name="Sequence">How often it has changed.</param>
/// <param name="Changed">When it last did, in UTC: <c>20260501T093000Z</c>.</param>
internal readonly record struct EventRevision(int Sequence, string Changed)
{
    /// <summary>What its number is called.</summary>
    public const string SequenceName = "SEQUENCE:";

    /// <summary>What its time is called.</summary>
    public const string ChangedName = "LAST-MODIFIED:";

    /// <summary>Its lines.</summary>
    public string Lines => string.Create(CultureInfo.InvariantCulture, $"{SequenceName}{Sequence}\r\n{ChangedName}{Changed}\r\n");
}
