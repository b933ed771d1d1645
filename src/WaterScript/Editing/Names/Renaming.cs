using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Binding;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Editing.Names;

/// <summary>Another name for something, in all files of a site.</summary>
/// <param name="Edits">What changes; empty where it is refused.</param>
/// <param name="Refused">Why it is refused, as one sentence; null where it is not.</param>
internal sealed record Renaming(ImmutableArray<TextEdit> Edits, string? Refused)
{
    /// <summary>Those of them that only keep, or give up, the former name of a schedule.</summary>
    public ImmutableArray<TextEdit> OfFormerName { get; init; } = [];

    /// <summary>How many comments still say the old name.</summary>
    public int Comments { get; init; }

    /// <summary>The place of a name that may be changed; null where there is none.</summary>
    public static NameUse? At(NameIndex names, SourceText source, int offset) =>
        names.At(source, offset) is { } use && names.DeclarationOf(use.Kind, use.Name) is not null ? use : null;

    /// <summary>Gives something another name.</summary>
    /// <param name="reading">The site.</param>
    /// <param name="names">Its names.</param>
    /// <param name="use">A place of the name.</param>
    /// <param name="name">The new name.</param>
    /// <param name="keepsFormerName">Whether a schedule keeps its former name, so that calendars know it.</param>
    public static Renaming Of(SiteReading reading, NameIndex names, NameUse use, string name, bool keepsFormerName = true)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(names);
        if (WhyNot(reading, names, use, name) is { } why) return new Renaming([], why);
        if (name == use.Name) return new Renaming([], Refused: null);
        var former = names.DeclarationOf(use.Kind, use.Name) is { } declared ? FormerName.Edits(declared, name, keepsFormerName) : [];
        ImmutableArray<TextEdit> edits = [.. names.UsesOf(use.Kind, use.Name).Select(place => new TextEdit(place.Where, name)), .. former];
        if (Changes.SameWatering.WhyNot(reading, edits) is { } because) return new Renaming([], $"{use.Name} stays: {because}");
        return new Renaming(edits, Refused: null) { OfFormerName = former, Comments = CommentsThatSay(use.Name, reading) };
    }

    private static int CommentsThatSay(string name, SiteReading reading) => reading.Files.Sum(file => file.Comments.Count(comment =>
        Says(file.Source.Text.AsSpan(comment.Start, comment.Length), name)));

    /// <summary>Whether a text has a name as a word of its own.</summary>
    private static bool Says(ReadOnlySpan<char> text, string name)
    {
        for (var at = text.IndexOf(name, StringComparison.Ordinal); at >= 0;)
        {
            var end = at + name.Length;
            if ((at == 0 || !IsOfName(text[at - 1])) && (end == text.Length || !IsOfName(text[end]))) return true;
            var next = text[end..].IndexOf(name, StringComparison.Ordinal);
            at = next < 0 ? -1 : end + next;
        }

        return false;
    }

    private static bool IsOfName(char letter) => char.IsLetterOrDigit(letter) || letter == '-';

    private static string? WhyNot(SiteReading reading, NameIndex names, NameUse use, string name)
    {
        if (!Language.Names.IsWellFormed(name)) return $"\"{DisplayLine.CleanLine(name)}\" is not a name: small letters, digits, hyphens";
        if (names.DeclarationOf(use.Kind, name) is { } other && other.Name != use.Name) return $"{other.Word} {name} already exists ({PlaceOf(other.Where)})";
        if (use.Kind == NameKind.Zone && name == "all") return "\"all\" stands for all zones";
        if (use.Kind == NameKind.Let && LanguageWords.Contains(name)) return $"\"{name}\" is a word of the language";
        return reading.Files.FirstOrDefault(file => reading.Findings.Any(finding => IsSyntaxOf(file, finding))) is { } broken
            ? $"{broken.Source.Path} cannot be read: fix its errors first"
            : null;
    }

    private static bool IsSyntaxOf(FileNode file, Finding finding) =>
        finding.Severity == Severity.Error && finding.Rule == Diagnostics.Reading.ReadingRules.Syntax
            && ReferenceEquals(finding.Primary.Location.Source, file.Source);

    private static string PlaceOf(Location place) => string.Create(CultureInfo.InvariantCulture, $"{place.Source.Path}:{place.Start.Line}");
}
