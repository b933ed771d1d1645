using System.Text;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Model;
using WaterScript.Syntax.Formatting;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Fuzz.Stages;

/// <summary>The layout of a file: laid out again it is itself, and the site has the same description and the same runs.</summary>
internal sealed class FormatStage : IStage
{
    public string Name => "format";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        var root = site.Root;
        var findings = new FindingList();
        var once = Formatter.Format(root, findings);
        Must.Equal(findings.HasErrors, once is null, "a file is laid out where it has no error of syntax, and only there");
        if (once is null) return false;
        var twice = Formatter.Format(once, []);
        Must.Hold(twice is not null, "a layout can be laid out again");
        Must.Equal(once.Text, twice!.Text, "a layout laid out again is itself");
        Must.Equal(root.HasByteOrderMark, once.HasByteOrderMark, "a byte-order mark stays");
        if (site.Sound is { } sound) SameSite(site, sound, once);
        return true;
    }

    private static void SameSite(SiteInHand site, Site sound, SourceText once)
    {
        var reading = site.ReadWith(once);
        Must.Hold(!reading.Findings.HasErrors && reading.Site is not null, "a site in its layout has no error",
            string.Join("; ", reading.Findings.Select(finding => finding.Heading)));
        Must.Equal(SiteHash.Of(sound), SiteHash.Of(reading.Site!), "a site in its layout is the same site");
        Must.Equal(Runs(sound, site.Horizon), Runs(reading.Site!, site.Horizon), "a site in its layout has the same runs");
    }

    private static string Runs(Site site, Horizon horizon)
    {
        using var stream = new MemoryStream();
        TimetableOutput.Write(Timetable.Of(site, horizon), OutputFormat.Csv, new OutputOptions(), stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }
}
