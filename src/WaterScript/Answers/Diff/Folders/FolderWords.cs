using System.Globalization;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Folders;

/// <summary>What changes in the sites of a folder, for people.</summary>
internal static class FolderWords
{
    /// <summary>Writes it as text.</summary>
    public static void Write(FolderChanges changes, PlainLines lines)
    {
        ArgumentNullException.ThrowIfNull(changes);
        ArgumentNullException.ThrowIfNull(lines);
        if (changes.Note.Length > 0) lines.Sentence(changes.Note);
        foreach (var written in changes.Written) lines.Line(written);
        foreach (var site in changes.Sites)
        {
            lines.Line(Head(site));
            if (site.Changes is { } known) ChangesText.Write(known, lines);
            lines.Line();
        }

        if (!IsOfPartAlone(changes)) lines.Line(Sum(changes));
    }

    /// <summary>Writes it as a comment on a change.</summary>
    public static void Write(FolderChanges changes, MarkdownLines lines)
    {
        ArgumentNullException.ThrowIfNull(changes);
        ArgumentNullException.ThrowIfNull(lines);
        if (changes.Note.Length > 0) lines.Sentence(changes.Note);
        if (!changes.Written.IsEmpty) lines.Part("Written otherwise", changes.Written);
        foreach (var site in changes.Sites)
        {
            lines.Title(Head(site));
            if (site.Changes is { } known) ChangesMarkdown.Write(known, lines);
        }

        if (!IsOfPartAlone(changes)) lines.Sentence(Sum(changes));
    }

    private static bool IsOfPartAlone(FolderChanges changes) => changes.Note.Length > 0 && changes.Sites.IsEmpty;

    private static string Head(SiteChanges site)
    {
        var moved = site.OldPath is { } old ? $" (was {old})" : "";
        return site.Why.Length > 0 ? $"{site.Path}{moved}: {site.Why}" : site.Path + moved;
    }

    private static string Sum(FolderChanges changes)
    {
        var counts = changes.Sites.CountBy(site => site.Word).ToDictionary();
        if (changes.Untouched > 0) counts["untouched"] = changes.Untouched;
        var words = counts.OrderBy(count => count.Key, StringComparer.Ordinal)
            .Select(count => string.Create(CultureInfo.InvariantCulture, $"{count.Value} {count.Key}"));
        return counts.Count == 0 ? "No sites." : $"{Phrases.Count(changes.Sites.Length + changes.Untouched, "site")}: {string.Join(", ", words)}.";
    }
}
