using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Linting.Fixes;

/// <summary>A repeat with a longer interval.</summary>
internal static class LongerRepeat
{
    /// <summary>The edit that makes the interval longer by some seconds; null where its line is written in no usual way.</summary>
    public static Fix? By(Repeat repeat, long seconds) => To(repeat, repeat.Every.WholeSeconds() + seconds);

    /// <summary>The edit that makes the interval so long.</summary>
    public static Fix? To(Repeat repeat, long seconds)
    {
        var text = repeat.Origin.Text;
        var from = text.IndexOf("every ", StringComparison.Ordinal) + "every ".Length;
        var to = text.IndexOf(repeat is RepeatTimes ? " for " : " until ", StringComparison.Ordinal);
        if (from < "every ".Length || to < from) return null;
        var place = new Location(repeat.Origin.Source, TextSpan.FromBounds(repeat.Origin.Span.Start + from, repeat.Origin.Span.Start + to));
        var length = Phrases.Length(seconds);
        return Fix.Unsafe($"repeat every {length}", place, length);
    }
}
