using WaterScript.Binding;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Syntax.Formatting;
using WaterScript.Text;

namespace WaterScript.Cli.Commands;

/// <summary>A file and its layout.</summary>
/// <param name="Path">The path of the command line.</param>
/// <param name="Source">The file as it is.</param>
/// <param name="Formatted">The file in its layout; null where it has an error.</param>
/// <param name="Findings">What was found while reading it.</param>
internal sealed record FileLayout(string Path, SourceText Source, SourceText? Formatted, IReadOnlyList<Finding> Findings)
{
    /// <summary>Whether the layout is another than the file's own.</summary>
    public bool IsChanged => Formatted is not null && Formatted.Text != Source.Text;

    /// <summary>Reads a file and lays it out. A site is compiled before and after, to be sure that it is the same.</summary>
    /// <param name="path">A file, or <see cref="SiteSource.Standard"/>.</param>
    /// <param name="root">What <c>--root</c> says, or null.</param>
    /// <param name="terminal">Where standard input is.</param>
    /// <exception cref="CommandException">The file cannot be read.</exception>
    public static FileLayout Of(string path, string? root, Terminal terminal)
    {
        var file = SiteSource.Open(path, root, terminal);
        var source = file.Root;
        if (!file.IsText) return new FileLayout(path, source, null, file.Read().Findings);

        var findings = new FindingList();
        var layout = new FileLayout(path, source, Formatter.Format(source, findings, file.Trees), findings);
        if (layout.IsChanged && file.Read() is var reading && HashOf(reading) != HashOf(reading.Again!(Changed(layout.Formatted!))))
            throw new InvalidOperationException($"{source.Path} would be another site in its layout");
        return layout;
    }

    /// <summary>What distinguishes the site of a file from others; null where it is not the file of a site, or the site has an error.</summary>
    private static string? HashOf(SiteReading reading) =>
        reading is { Site: { } site, Findings.HasErrors: false } ? SiteHash.Of(site) : null;

    private static Dictionary<string, SourceText> Changed(SourceText text) => new(StringComparer.Ordinal) { [text.Path] = text };
}
