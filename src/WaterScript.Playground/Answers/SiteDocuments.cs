using System.Text;
using WaterScript.Documents.Reports;

namespace WaterScript.Playground.Answers;

/// <summary>Documents of a site, for people to keep: those that the library writes.</summary>
internal static class SiteDocuments
{
    /// <summary>Writes one.</summary>
    /// <exception cref="QuestionException">The site has errors, or nothing to write, for the reason in the message.</exception>
    public static DocumentAnswer Of(OpenSite site, PageQuestion asked)
    {
        if (asked.Format == "report") return Report(site);
        var compilation = Compilation.OfCheck(site.Check);
        var (ending, type, write) = asked.Format switch
        {
            "icalendar" => ("ics", "text/calendar", new Action<CompiledTimetable, Stream>((timetable, output) => timetable.WriteICalendar(output))),
            "yaml" => ("yaml", "application/yaml", (timetable, output) => timetable.WriteYaml(output)),
            "csv" => ("csv", "text/csv", (timetable, output) => timetable.WriteCsv(output)),
            _ => throw new QuestionException("there is no such document"),
        };
        using var output = new MemoryStream();
        try
        {
            write(compilation.Timetable(), output);
        }
        catch (InvalidOperationException reason)
        {
            throw new QuestionException(reason.Message);
        }

        return new DocumentAnswer($"{compilation.Site?.Name ?? "site"}.{ending}", type, Encoding.UTF8.GetString(output.ToArray()));
    }

    private static DocumentAnswer Report(OpenSite site)
    {
        using var output = new MemoryStream();
        JsonReport.Write([site.Check], showsAccepted: false, output);
        return new DocumentAnswer("report.json", "application/json", Encoding.UTF8.GetString(output.ToArray()));
    }
}
