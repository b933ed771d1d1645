using System.Globalization;
using System.Text;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Text;

namespace WaterScript.Documents.Reports;

/// <summary>Findings as workflow commands, which a runner on GitHub shows as annotations beside the lines of a change.</summary>
internal static class GithubReport
{
    /// <summary>Writes what was found in some sites, a line for each finding.</summary>
    public static void Write(IEnumerable<CheckedSite> sites, Stream output)
    {
        ArgumentNullException.ThrowIfNull(sites);
        using var text = new StreamWriter(output, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false), leaveOpen: true) { NewLine = "\n" };
        foreach (var finding in sites.SelectMany(site => site.Findings)) text.Write(LineOf(finding));
    }

    private static string LineOf(Finding finding)
    {
        var place = finding.Primary.Location;
        var ((line, column), (lastLine, end)) = (place.Start, place.End);
        // The end is included here, and columns are understood only within one line.
        var columns = lastLine == line ? string.Create(CultureInfo.InvariantCulture, $",col={column},endColumn={Math.Max(column, end - 1)}") : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"::{Command(finding.Severity)} " +
                $"file={Property(place.Source.Path)},line={line},endLine={lastLine}{columns}," +
                $"title={Property($"{finding.Heading} [{finding.Rule.Slug}]")}::{Data(FindingText.Of(finding))}\n");
    }

    private static string Command(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        _ => "notice",
    };

    private static string Property(string value) =>
        Data(DisplayLine.CleanLine(value)).Replace(":", "%3A", StringComparison.Ordinal).Replace(",", "%2C", StringComparison.Ordinal);

    private static string Data(string value) => DisplayLine.Clean(value)
        .Replace("%", "%25", StringComparison.Ordinal)
        .Replace("\r", "%0D", StringComparison.Ordinal)
        .Replace("\n", "%0A", StringComparison.Ordinal);
}
