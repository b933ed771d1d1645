using System.Text;
using WaterScript.Binding;
using WaterScript.Checks;
using WaterScript.Tests.Documentation;
using WaterScript.Text;

namespace WaterScript.Tests.Outputs.Reports;

/// <summary>Checked sites to report on.</summary>
internal static class Checked
{
    /// <summary>A site with a warning (the clocks of Lisbon skip 01:30 on 29 March 2026), an advice that is accepted, and an unusual form with a fix.</summary>
    public const string Findings = """
        site garden { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1 }
        schedule night {
          every day
          start at 01:30
          accept doubled-time because "the first is meant, \"always\""
          steps { water lawn for 10min }
        }
        """;

    /// <summary>A site that cannot be read: two zones of one name, and one that is not there.</summary>
    public const string Mistakes = """
        site garden { timezone Europe/Lisbon; effective 2026-03-01 }
        zone lawn { output 1 }
        zone lawn { output 2 }
        schedule night { every day; start at 06:00; steps { water lawm for 10 min } }
        """;

    /// <summary>The check of a text.</summary>
    public static CheckedSite Of(string text, string path = "site.water") => Of(SourceText.From(path, text.ReplaceLineEndings("\n")), new RepositoryFiles());

    /// <summary>The check of an example; null for a part of one.</summary>
    public static CheckedSite? OfExample(string path)
    {
        var site = Of(SourceText.From(path, Repository.Read(path)), new RepositoryFiles());
        return site.Reading.Site is null ? null : site;
    }

    /// <summary>What a report writes.</summary>
    public static string Written(Action<Stream> write)
    {
        using var stream = new MemoryStream();
        write(stream);
        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static CheckedSite Of(SourceText text, ISourceReader files) =>
        CheckedSite.Of(text.Path, SiteReader.Read(text, text.Path, files, NodaTime.DateTimeZoneProviders.Tzdb));
}
