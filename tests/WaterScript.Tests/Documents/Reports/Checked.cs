using System.Text;
using WaterScript.Binding;
using WaterScript.Linting.Engine;
using WaterScript.Tests.Documentation;
using WaterScript.Text;

namespace WaterScript.Tests.Documents.Reports;

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

    /// <summary>
    /// A site with schedules that meet after the horizon: every 7 and every 365 days on 29 February 2032, every 997 and every 1009 days
    /// 167,496 days after 1 March 2026 (both calculated in <see cref="Tests.Linting.WholeCycleTests"/>); and one whose times move.
    /// </summary>
    public const string MeetingsToCome = """
        site garden { timezone Etc/UTC; location 40 N 8 W; effective 2026-03-01 }
        controller box { outputs 4; schedules may-overlap }
        zone beds { output 1 }
        zone lawn { output 2 }
        zone pots { output 3 }
        schedule weekly { every 7 days; from 2026-03-01; start at 06:00; steps { water beds for 10 min } }
        schedule yearly { every 365 days; from 2026-03-02; start at 06:05; steps { water beds for 10 min } }
        schedule rare { every 997 days; from 2026-03-01; start at 06:00; steps { water lawn for 10 min } }
        schedule rarer { every 1009 days; from 2026-03-03; start at 06:05; steps { water lawn for 10 min } }
        schedule dawn { every day; start at sunrise; steps { water pots for 1 min } }
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
