using WaterScript.Diagnostics;
using WaterScript.Text;

namespace WaterScript.Linting.Engine;

/// <summary>What stays the same of a finding when something else in its file is edited. Several findings may have the same.</summary>
/// <param name="Rule">The slug of its rule.</param>
/// <param name="Path">Its file, as findings show it.</param>
/// <param name="Line">The line that causes it, each stretch of white space as one blank.</param>
internal readonly record struct FindingKey(string Rule, string Path, string Line)
{
    /// <summary>That of a finding.</summary>
    public static FindingKey Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        var place = finding.Primary.Location;
        return new FindingKey(finding.Rule.Slug, place.Source.Path, LineAt(place));
    }

    private static string LineAt(Location place)
    {
        var line = place.Source.Slice(place.Source.LineSpan(place.Start.Line));
        return string.Join(' ', line.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
    }
}
