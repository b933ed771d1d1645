using System.Collections.Immutable;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Documents.Verdicts;
using WaterScript.Editing;
using WaterScript.Editing.Cards;
using WaterScript.Editing.Changes;
using WaterScript.Editing.Completion;
using WaterScript.Editing.Outline;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Playground.Answers;

/// <summary>A site as a page has it: read at once, checked when that is asked for. The same code answers here as in editors.</summary>
internal sealed class OpenSite
{
    /// <summary>More characters are not read while somebody types.</summary>
    private const int MostCharacters = 2_000_000;

    private readonly Lazy<CheckedSite> _check;
    private readonly Dictionary<string, ImmutableArray<Lexeme>> _lexemes = new(StringComparer.Ordinal);

    private OpenSite(SiteReading reading, string root, Instant now)
    {
        Reading = reading;
        _check = new Lazy<CheckedSite>(() => CheckedSite.Of(root, reading));
        Edited = new EditedSite(reading, () => CheckIfKnown?.Lint, now);
    }

    /// <summary>What reading it gave.</summary>
    public SiteReading Reading { get; }

    /// <summary>What checking it gives; reading alone where that has errors.</summary>
    public CheckedSite Check => _check.Value;

    /// <summary>What an editor shows of it.</summary>
    public EditedSite Edited { get; }

    private CheckedSite? CheckIfKnown => _check.IsValueCreated ? _check.Value : null;

    /// <summary>Reads a site.</summary>
    /// <exception cref="QuestionException">It is no site, or too large.</exception>
    public static OpenSite Of(PageQuestion asked, Instant now, IDateTimeZoneProvider timeZones)
    {
        if (asked is not { Root: { } root, Files: { } files } || !files.TryGetValue(root, out var text) || files.Values.Any(each => each is null))
            throw new QuestionException("there is no root file");
        if (!files.Keys.All(IsInside)) throw new QuestionException("a path goes down from the folder of the site");
        if (files.Values.Sum(each => (long)each.Length) > MostCharacters) throw new QuestionException("This is too large to check while typing.");
        return new OpenSite(SiteReader.Read(SourceText.From(root, text), root, new PageFiles(files), timeZones), root, now);
    }

    /// <summary>Colours, and what reading finds.</summary>
    public ReadAnswer Read()
    {
        var colours = new Dictionary<string, int[]>(StringComparer.Ordinal);
        foreach (var file in Reading.Files)
        {
            colours[file.Source.Path] = [.. Colours.Of(file, LexemesOf(file.Source), Edited.Names)
                .SelectMany(colour => new[] { colour.Span.Start, colour.Span.Length, (int)colour.Kind, (int)colour.Modifiers })];
        }

        var findings = new FoundInSite(new CheckedSite(Reading.Files[0].Source.Path, Reading, Lint: null));
        return new ReadAnswer(colours, [.. findings.All()]);
    }

    /// <summary>What a check finds.</summary>
    public CheckAnswer CheckAnswer()
    {
        var found = new FoundInSite(Check);
        return new CheckAnswer(
            Check.Name,
            Check.Worst is { } worst ? FindingSummary.WordOf(worst) : null,
            [.. found.All()],
            [.. Verdict.Of(Check)],
            SafeFixes.CountOf(Check));
    }

    /// <summary>All fixes that leave the watering as it is meant, each tried; null where there is none.</summary>
    public ActionsAnswer? FixAll() =>
        SafeFixAction.Of(Check, Reading.Files[0].Source) is { } all ? new ActionsAnswer([FoundInSite.Answer(all)]) : null;

    /// <summary>What is shown where somebody points; null where there is nothing to say.</summary>
    public HoverAnswer? Hover(PageQuestion asked)
    {
        if (FileOf(asked) is not { } file) return null;
        return CardFinder.At(Edited, file, LexemesOf(file.Source), OffsetIn(file.Source, asked.From)) is { } card
            ? new HoverAnswer(card.Span.Start, card.Span.End, card.Lines)
            : null;
    }

    /// <summary>What may come next; null where nothing is offered.</summary>
    public CompletionAnswer? Complete(PageQuestion asked)
    {
        if (FileOf(asked) is not { } file) return null;
        var offset = OffsetIn(file.Source, asked.From);
        var offers = OfferFinder.At(Edited, file.Source, LexemesOf(file.Source), offset, [.. FoundAround(file, offset)]);
        return offers is null
            ? null
            : new CompletionAnswer(offers.Replaced.Start, offers.Replaced.End,
                [.. offers.Items.Select(offer => new OfferAnswer(offer.Label, offer.Detail, NameOf(offer.Kind), offer.Snippet, offer.AlsoCalled))]);
    }

    /// <summary>What can be done at a place.</summary>
    public ActionsAnswer? Actions(PageQuestion asked)
    {
        if (FileOf(asked) is not { } file) return null;
        var from = OffsetIn(file.Source, asked.From);
        var span = TextSpan.FromBounds(from, Math.Max(from, OffsetIn(file.Source, asked.To)));
        return new ActionsAnswer([.. Editing.Changes.Actions.At(Check, Edited.Names, file, span).Select(FoundInSite.Answer)]);
    }

    /// <summary>What lays a file out; nothing where it has an error.</summary>
    public EditsAnswer? Format(PageQuestion asked) =>
        FileOf(asked) is { } file ? new EditsAnswer([.. Layout.Of(file.Source).Select(FoundInSite.Answer)]) : null;

    private static bool IsInside(string path) => path.IndexOfAny(['\\', ':', '\0']) < 0 && path.Split('/').All(part => part is not ("" or "." or ".."));

    private FileNode? FileOf(PageQuestion asked) => Reading.Files.FirstOrDefault(file => file.Source.Path == asked.File);

    private static int OffsetIn(SourceText source, int offset) => Math.Clamp(offset, 0, source.Text.Length);

    private ImmutableArray<Lexeme> LexemesOf(SourceText source)
    {
        if (!_lexemes.TryGetValue(source.Path, out var lexemes)) _lexemes[source.Path] = lexemes = Lexemes.Of(source);
        return lexemes;
    }

    /// <summary>The rules of what is found in the statement around a place, as far as it is known.</summary>
    private IEnumerable<string> FoundAround(FileNode file, int offset)
    {
        var around = file.Statements.FirstOrDefault(each => each.Span.Start <= offset && offset <= each.Span.End)?.Span
            ?? new TextSpan(0, file.Source.Text.Length);
        return (CheckIfKnown?.Findings ?? []).Where(finding => finding.Rule.CanBeAccepted && ReferenceEquals(finding.Primary.Location.Source, file.Source)
            && around.Contains(finding.Primary.Location.Span)).Select(finding => finding.Rule.Slug);
    }

    private static string NameOf(OfferKind kind) => kind switch
    {
        OfferKind.Word => "keyword",
        OfferKind.Property => "property",
        OfferKind.Name => "variable",
        OfferKind.Unit => "constant",
        OfferKind.Snippet => "class",
        OfferKind.File => "text",
        _ => "enum",
    };

    /// <summary>The files of a page.</summary>
    private sealed class PageFiles(IReadOnlyDictionary<string, string> files) : ISourceReader
    {
        public SourceText? Read(string path) => files.TryGetValue(path, out var text) ? SourceText.From(path, text) : null;
    }
}
