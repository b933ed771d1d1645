using System.Globalization;
using NodaTime;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>Moments of a date.</summary>
/// <param name="scope">Where findings go.</param>
/// <param name="source">The file.</param>
/// <param name="hasPosition">Whether the site has a location, which sun times need.</param>
internal sealed class MomentBinder(Scope scope, SourceText source, bool hasPosition)
{
    private const int EndOfDay = 86_400;

    private static readonly string[] SunWords = ["sunrise", "sunset"];

    /// <summary>A moment; null, and reported, when it is none.</summary>
    /// <param name="node">What is written.</param>
    /// <param name="mayBeEndOfDay">Whether <c>24:00</c> may stand here.</param>
    public Moment? Bind(MomentNode node, bool mayBeEndOfDay = false) => node.Base.Kind switch
    {
        TokenKind.Clock => Clock(node, mayBeEndOfDay),
        _ => Sun(node),
    };

    private ClockMoment? Clock(MomentNode node, bool mayBeEndOfDay)
    {
        if (node.Offset is not null)
        {
            scope.Report(ReadingRules.Syntax, At(node.Offset.Span), "a clock time has no offset", "only sunrise and sunset have one", "Write the time itself.");
            return null;
        }

        if (node.Suffix is not null)
        {
            scope.Report(ReadingRules.Syntax, At(node.Suffix.Span), $"\"{node.Suffix.Text}\" does not belong here",
                help: "Write times of the day with 24 hours: 18:30");
            return null;
        }

        if (SecondOfDay(node.Base.Text) is not { } second)
        {
            scope.Report(ReadingRules.OutOfRange, At(node.Base.Span), $"\"{node.Base.Text}\" is not a time of day", "00:00 to 23:59",
                "Write hours and minutes as `06:30`.");
            return null;
        }

        if (second < EndOfDay || mayBeEndOfDay) return new ClockMoment(At(node.Span), second);
        scope.Report(ReadingRules.OutOfRange, At(node.Base.Span), "24:00 is only the end of a day", "stands after until and at the end of between",
            "Write 00:00 and the next day.");
        return null;
    }

    private SunMoment? Sun(MomentNode node)
    {
        var word = node.Base.Text;
        if (!SunWords.Contains(word))
        {
            scope.ReportUnknown(At(node.Base.Span), $"\"{word}\" is not a time of day", word, SunWords);
            return null;
        }

        if (!hasPosition)
        {
            scope.Report(ReadingRules.Missing, At(node.Base.Span), $"the site has no location, which {word} needs",
                help: "Add a line to the site, such as `location 39.6 N 8.1 W`.");
            return null;
        }

        var offset = Duration.Zero;
        if (node.Offset is not null)
        {
            if (RowCursor.Length(scope, source, node.Offset, "sunset - 30 min") is not { } length) return null;
            offset = node.IsBefore ? -length : length;
        }

        if (Duration.Max(offset, -offset) > Duration.FromHours(24))
        {
            scope.Report(ReadingRules.OutOfRange, At(node.Span), "more than a day away from the sun event", "at most 24 h");
            return null;
        }

        return new SunMoment(At(node.Span), word == "sunrise" ? SunEvent.Sunrise : SunEvent.Sunset, offset);
    }

    /// <summary>Seconds after midnight of <c>06:00</c> or <c>06:00:30</c>, up to 24:00; null when it is none.</summary>
    private static int? SecondOfDay(string text)
    {
        var parts = text.Split(':');
        Span<int> values = [0, 0, 0];
        if (parts.Length is < 2 or > 3) return null;
        for (var i = 0; i < parts.Length; i++)
        {
            if (!int.TryParse(parts[i], NumberStyles.None, CultureInfo.InvariantCulture, out values[i])) return null;
        }

        var second = (values[0] * 3600) + (values[1] * 60) + values[2];
        return values[0] <= 24 && values[1] < 60 && values[2] < 60 && second <= EndOfDay ? second : null;
    }

    private Location At(TextSpan span) => new(source, span);
}
