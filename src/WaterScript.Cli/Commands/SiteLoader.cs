using WaterScript.Binding;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands;

/// <summary>The site that a question is about. What stands in the way of reading it is shown, and then there is no answer.</summary>
internal static class SiteLoader
{
    /// <summary>The site of a file; null where an error in it stands in the way, which is shown.</summary>
    /// <exception cref="CommandException">The file cannot be read.</exception>
    public static Site? Read(SiteSource source, Terminal terminal) => Read(terminal.During("Reading", source.Read), source.Root.Path, terminal);

    /// <summary>Works an answer out, as <see cref="Terminal.During"/> does.</summary>
    /// <exception cref="CommandException">The site is too large for an answer: it says how far the work came, and what makes the site so large.</exception>
    public static T Answer<T>(Site site, string stage, Func<T> work, Terminal terminal)
    {
        try
        {
            return terminal.During(stage, work);
        }
        catch (WorkUsedUpException cause)
        {
            throw new CommandException(AnswerCut.Words(site, cause));
        }
    }

    private static Site? Read(SiteReading reading, string path, Terminal terminal)
    {
        if (reading is { Site: { } site, Findings.HasErrors: false }) return site;
        new FindingPrinter(terminal.Error).Print(reading.Findings);
        terminal.Error.Line($"{reading.Site?.DisplayName ?? path}: {FindingSummary.Of(reading.Findings)}. There is no answer, because of the errors.");
        return null;
    }
}
