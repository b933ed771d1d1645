using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Text;
using Xunit;

namespace WaterScript.Tests.Binding;

/// <summary>Reads sites in which the place of the one mistake is marked: <c>flow ‹18 mm›</c>.</summary>
internal static class Expect
{
    /// <summary>A site without a mistake, of two zones and one schedule; blocks follow.</summary>
    public const string Garden =
        """
        site garden { timezone Europe/Lisbon; location 39.6 N 8.1 W; effective 2026-03-01 }
        supply tap { flow 30 L/min }
        controller box { outputs 8 }
        valve ac24 non-latching { inrush 400 mA; holding 220 mA; minimum-voltage 19 V }
        zone a { output 1; valve ac24; flow 10 L/min }
        zone b { output 2; valve ac24; flow 10 L/min }
        schedule main { every day; start at 06:00; steps { water a, b for 5 min } }

        """;

    /// <summary>Reads a site; the marks are taken out of the root file.</summary>
    public static SiteReading Read(string root, params (string Path, string Text)[] others) =>
        SiteReader.Read(SourceText.From("site.water", Unmarked(root)), "site.water", new Files(others), DateTimeZoneProviders.Tzdb);

    /// <summary>The errors.</summary>
    public static Finding[] Errors(SiteReading reading) =>
        [.. reading.Findings.Where(finding => finding.Severity == Severity.Error)];

    /// <summary>Holds that the text, after the garden, reads without an error.</summary>
    public static SiteReading Fine(string blocks, string before = Garden)
    {
        var reading = Read(before + blocks);
        Assert.Empty(Errors(reading).Select(Shown));
        Assert.NotNull(reading.Site);
        return reading;
    }

    /// <summary>Holds that the text, after the garden, has one error of that rule, and that it touches the marked place.</summary>
    public static Finding One(string slug, string blocks, string before = Garden)
    {
        var text = before + blocks;
        var finding = Assert.Single(Errors(Read(text)));
        Assert.True(slug == finding.Rule.Slug, $"wanted {slug}: {Shown(finding)}");
        HoldPlace(text, finding);
        return finding;
    }

    /// <summary>Holds that a finding touches the marked place and goes on to no other line.</summary>
    public static void HoldPlace(string marked, Finding finding)
    {
        var start = marked.IndexOf('‹', StringComparison.Ordinal);
        var end = marked.IndexOf('›', StringComparison.Ordinal) - 1;
        Assert.True(start >= 0 && end >= start, "mark the place");
        var span = finding.Primary.Location.Span;
        Assert.True(span.Start <= end && span.End >= start, $"wanted at \"{marked[(start + 1)..(end + 1)]}\": {Shown(finding)}");
        Assert.Equal(finding.Primary.Location.Source.PositionOf(start).Line, finding.Primary.Location.Start.Line);
    }

    /// <summary>A finding on one line, for the message of a test.</summary>
    public static string Shown(Finding finding) =>
        $"{finding.Primary.Location.Start.Line}:{finding.Primary.Location.Start.Column} [{finding.Rule.Slug}] {finding.Heading} "
            + $"\"{finding.Primary.Location.Text}\"";

    private static string Unmarked(string text) => text.Replace("‹", "", StringComparison.Ordinal).Replace("›", "", StringComparison.Ordinal);

    private sealed class Files((string Path, string Text)[] files) : ISourceReader
    {
        public SourceText? Read(string path)
        {
            var found = Array.Find(files, file => file.Path == path);
            return found.Path is null ? null : SourceText.From(path, found.Text);
        }
    }
}
