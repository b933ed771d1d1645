using WaterScript.Answers.Diff;
using WaterScript.Answers.Diff.Folders;
using WaterScript.Answers.Diff.Pages;
using WaterScript.Cli.Files;
using WaterScript.Documents.Charts;
using WaterScript.Text;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.Commands.Comparing;

/// <summary>Writes what changes, and gives the status.</summary>
/// <param name="form">How it is written.</param>
/// <param name="output">Where to.</param>
/// <param name="isPage">Whether it is a page for a screen, in no such form.</param>
internal sealed class DiffReport(ReportForm form, OutputFile output, bool isPage = false)
{
    /// <summary>Whether it is a page for a screen.</summary>
    public bool IsPage => isPage;

    /// <summary>Whether a path is that of a page.</summary>
    public static bool IsPagePath(string? path) => Path.GetExtension(path)?.ToUpperInvariant() is ".HTML" or ".HTM";

    /// <summary>Writes what changes in a site as a page.</summary>
    /// <param name="changes">What changes.</param>
    /// <param name="old">The files of the old version.</param>
    /// <param name="new">The files of the new one.</param>
    /// <param name="terminal">Where progress is shown.</param>
    /// <returns>The status.</returns>
    public int WritePage(WateringChanges changes, IReadOnlyList<SourceText> old, IReadOnlyList<SourceText> @new, Terminal terminal)
    {
        var page = SiteLoader.Answer(changes.New, "Drawing", () =>
        {
            var stream = new MemoryStream();
            try
            {
                ChangePage.Write(changes, old, @new, stream);
            }
            catch (ChartTooLargeException)
            {
                throw new CommandException("there are more runs in a week than a picture can show; leave out the .html for a report");
            }

            return stream;
        }, terminal);
        output.Write(old.Concat(@new), page.WriteTo);
        return changes.IsAnythingChanged || changes.InPart is not null ? ExitCode.Findings : ExitCode.Success;
    }

    /// <summary>Writes what changes in a site.</summary>
    /// <param name="changes">What changes.</param>
    /// <param name="sources">The files that were read, which stay.</param>
    /// <returns>The status.</returns>
    public int Write(WateringChanges changes, IEnumerable<SourceText> sources)
    {
        output.Write(sources, stream => Write(stream, () => ChangesJson.Write(changes, stream), lines => ChangesText.Write(changes, lines),
            lines => ChangesMarkdown.Write(changes, lines)));
        return changes.IsAnythingChanged || changes.InPart is not null ? ExitCode.Findings : ExitCode.Success;
    }

    /// <summary>Writes what changes in the sites of a folder.</summary>
    /// <returns>The status.</returns>
    public int Write(FolderChanges changes)
    {
        output.Write([], stream => Write(stream, () => SiteChangesItem.Write(changes, stream), lines => FolderWords.Write(changes, lines),
            lines => FolderWords.Write(changes, lines)));
        if (changes.Sites.Any(site => site.Changes is null)) return ExitCode.CannotRun;
        return !changes.Written.IsEmpty || changes.Sites.Any(site => site.Word != "same") ? ExitCode.Findings : ExitCode.Success;
    }

    private void Write(Stream stream, Action json, Action<PlainLines> text, Action<MarkdownLines> markdown)
    {
        if (form == ReportForm.Json) json();
        else if (form == ReportForm.Markdown) MarkdownLines.WriteTo(stream, markdown);
        else PlainLines.WriteTo(stream, text);
    }
}
