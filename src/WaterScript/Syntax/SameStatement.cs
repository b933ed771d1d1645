using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Text;

namespace WaterScript.Syntax;

/// <summary>Whether two places are in one statement. After its first mistake nobody knows what the rest of it means.</summary>
internal static class SameStatement
{
    /// <summary>Whether a statement that cannot be read has a place in it, also behind or before the place where that is reported.</summary>
    public static bool HasMistake(Location place, IEnumerable<Finding> findings) => findings.Any(finding => MakesUnread(finding)
        && finding.Primary.Location.Source == place.Source && IsOne(place.Source, finding.Primary.Location.Span, place.Span));

    /// <summary>Whether a finding says that its statement cannot be read; one of braces says nothing of what is beside them.</summary>
    public static bool MakesUnread(Finding finding) => finding.Rule == ReadingRules.Syntax && finding.Primary.Location.Text is not ("{" or "}")
        && !finding.Primary.Text.Contains('{', StringComparison.Ordinal);

    /// <summary>Whether nothing that ends a statement stands between two places.</summary>
    public static bool IsOne(SourceText source, TextSpan one, TextSpan other)
    {
        var (start, end) = (Math.Min(one.End, other.End), Math.Max(one.Start, other.Start));
        return start >= end || source.Text.AsSpan(start, end - start).IndexOfAny(";{}\n") < 0;
    }
}
