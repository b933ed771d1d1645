using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Text;
using WaterScript.Text.Lines;

namespace WaterScript.Tests.Documents.Reports;

/// <summary>Findings as a person sees them, and what they are made of.</summary>
internal static class Printed
{
    /// <summary>A rule about the watering.</summary>
    public static Rule Rule { get; } =
        new("flow-over-supply", Severity.Error, "too much water at once") { Category = RuleCategory.Water, Finds = "" };

    /// <summary>A rule of which a finding goes with one of the other.</summary>
    public static Rule Follower { get; } =
        new("water-hammer", Severity.Advice, "valves close at once") { Category = RuleCategory.Water, Finds = "", GoesWith = "flow-over-supply" };

    /// <summary>A finding.</summary>
    /// <param name="finding">The finding.</param>
    /// <param name="width">Columns of a terminal; null where the output is none.</param>
    /// <param name="colour">Whether it shows colours.</param>
    public static string Of(Finding finding, int? width = null, bool colour = false) => Written(printer => printer.Print(finding), width, colour);

    /// <summary>The findings of a site.</summary>
    public static string Of(IEnumerable<Finding> findings, bool all = false) => Written(printer => printer.Print(findings), showsAll: all);

    /// <summary>What a printer writes.</summary>
    public static string Written(Action<FindingPrinter> print, int? width = null, bool colour = false, bool showsAll = false)
    {
        using var output = new StringWriter();
        print(new FindingPrinter(new PlainLines(output, colour, width is { } columns ? () => columns : null)) { ShowsAll = showsAll });
        return output.ToString();
    }

    /// <summary>A file.</summary>
    public static SourceText Source(string text, string path = "site.water") => SourceText.From(path, text.ReplaceLineEndings("\n"));

    /// <summary>The first place of a text in a file.</summary>
    public static Location Place(SourceText source, string text) =>
        new(source, new TextSpan(source.Text.IndexOf(text, StringComparison.Ordinal), text.Length));

    /// <summary>The same with a few words.</summary>
    public static Label At(SourceText source, string text, string words = "") => new(Place(source, text), words);

    /// <summary>A text in a test, with LF and the blank line after it.</summary>
    public static string Text(string expected) => expected.ReplaceLineEndings("\n") + "\n\n";
}
