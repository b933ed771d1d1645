using System.Globalization;
using System.Text;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Text;

namespace WaterScript.Tests.Cases;

/// <summary>A source with what is found in it as comments, each under the line that it is about; what could not be checked follows at the end.</summary>
internal static class InterleavedFindings
{
    /// <summary>Reads a site and, where that gives no error, checks it.</summary>
    public static string Of(SourceText source)
    {
        var reading = SiteReader.Read(source, source.Path, new NoFiles(), DateTimeZoneProviders.Tzdb);
        var site = CheckedSite.Of(source.Path, reading);
        var notes = site.Findings.Select(finding => (Finding: finding, By: ""))
            .Concat(site.Accepted.Select(accepted => (accepted.Finding, By: "accepted ")))
            .ToLookup(note => note.Finding.Primary.Location.Start.Line);
        var text = new StringBuilder();
        for (var line = 1; line <= source.LineCount; line++)
        {
            var span = source.LineSpan(line);
            if (line == source.LineCount && span.Length == 0) break;
            text.Append(source.Text.AsSpan(span.Start, span.Length).TrimEnd("\r\n")).Append('\n');
            foreach (var (finding, by) in notes[line]) Append(text, finding, by);
        }

        foreach (var gap in site.Lint?.NotChecked ?? []) text.Append("# not checked: ").Append(gap.Sentence).Append('\n');
        return text.ToString();
    }

    private static void Append(StringBuilder text, Finding finding, string by)
    {
        var severity = finding.Severity.ToString().ToLowerInvariant();
        AppendMark(text, finding.Primary.Location, '^', $"{by}{severity}: {finding.Heading} [{finding.Rule.Slug}]");
        if (finding.Primary.Text.Length > 0) AppendLine(text, $"here: {finding.Primary.Text}");
        foreach (var label in finding.Others) AppendLine(text, $"at {Place(label.Location)} \"{OneLine(label.Location.Text)}\": {label.Text}");
        if (finding.Happens is { } happens) AppendLine(text, When(happens));
        foreach (var line in (finding.Details + "\n" + finding.Assumed).Split('\n', StringSplitOptions.RemoveEmptyEntries)) AppendLine(text, line);
        if (finding.Help.Length > 0) AppendLine(text, $"fix: {finding.Help}");
        if (finding.Fix is not { } fix) return;
        AppendLine(text, $"{(fix.IsSafe ? "safe" : "unsafe")} edit: {fix.Title}");
        foreach (var edit in fix.Edits) AppendLine(text, $"  {Place(edit.Location)} \"{OneLine(edit.Location.Text)}\" -> \"{OneLine(edit.Replacement)}\"");
    }

    /// <summary>The mark stands under what it is about where that leaves room for the comment's sign, else right after it.</summary>
    private static void AppendMark(StringBuilder text, Location location, char mark, string words)
    {
        var column = location.Start.Column;
        var length = location.Start.Line == location.End.Line ? Math.Max(1, location.Span.Length) : 1;
        text.Append('#').Append(' ', Math.Max(0, column - 2)).Append(mark, column == 1 ? Math.Max(1, length - 1) : length).Append(' ').Append(words)
            .Append('\n');
    }

    private static void AppendLine(StringBuilder text, string words) => text.Append("#   ").Append(words).Append('\n');

    private static string Place(Location location) => string.Create(CultureInfo.InvariantCulture, $"{location.Start.Line}:{location.Start.Column}");

    private static string OneLine(string text) => text.ReplaceLineEndings("\\n");

    private static string When(Occurrences happens) => string.Create(
        CultureInfo.InvariantCulture,
        $"first {happens.First:uuuu-MM-dd HH:mm:ss}, last {happens.Last:uuuu-MM-dd HH:mm:ss}, times {happens.Times}, days {happens.Days}, {happens.Basis}");

    private sealed class NoFiles : ISourceReader
    {
        public SourceText? Read(string path) => null;
    }
}