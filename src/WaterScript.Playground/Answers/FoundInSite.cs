using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Documents.Reports;
using WaterScript.Editing;
using WaterScript.Editing.Changes;
using WaterScript.Linting.Engine;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Playground.Answers;

/// <summary>What is found in a site, each with what can be done about it.</summary>
/// <param name="site">The site.</param>
internal sealed class FoundInSite(CheckedSite site)
{
    /// <summary>Behind so many nobody looks for what can be done.</summary>
    private const int MostWithActions = 200;

    private readonly Dictionary<SourceText, AcceptPlaces> _acceptPlaces = [];

    /// <summary>All of it, in the order of the report, then what is accepted.</summary>
    public IEnumerable<FindingAnswer> All() => EditorFinding.Of(site).Index().Select(entry => Answer(entry.Item, entry.Index < MostWithActions));

    /// <summary>A change, for the page.</summary>
    public static ActionAnswer Answer(EditorAction action) => new(action.Title, action.Kind, action.IsPreferred, [.. action.Edits.Select(Answer)]);

    /// <summary>A replacement, for the page.</summary>
    public static EditAnswer Answer(TextEdit edit) =>
        new(edit.Location.Source.Path, edit.Location.Span.Start, edit.Location.Span.End, edit.Replacement);

    private FindingAnswer Answer(EditorFinding found, bool withActions) => new(
        FindingSummary.WordOf(found.Finding.Severity), found.Finding.Rule.Slug, Answer(found.Place, ""), found.Message)
    {
        Help = DisplayLine.CleanLine(FindingText.Help(found.Finding)),
        Related = [.. found.Related.Select(label => Answer(label.Location, DisplayLine.CleanLine(label.Text)))],
        IsPale = found.IsOfNoEffect,
        IsAccepted = found.AcceptedBy is not null,
        Actions = withActions ? [.. ActionsOf(found).Select(Answer)] : [],
    };

    private IEnumerable<EditorAction> ActionsOf(EditorFinding found)
    {
        ImmutableArray<EditorFinding> one = [found];
        return FileOf(found.Place.Source) is { } file
            ? FindingActions.Fixes(one).Concat(FindingActions.Accepts(one, PlacesIn(file)))
            : FindingActions.Fixes(one);
    }

    private AcceptPlaces PlacesIn(FileNode file)
    {
        if (!_acceptPlaces.TryGetValue(file.Source, out var places)) _acceptPlaces[file.Source] = places = new AcceptPlaces(file);
        return places;
    }

    private FileNode? FileOf(SourceText source) => site.Reading.Files.FirstOrDefault(file => ReferenceEquals(file.Source, source));

    private static PlaceAnswer Answer(Location place, string words) => new(place.Source.Path, place.Span.Start, place.Span.End, words);
}
