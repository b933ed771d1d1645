using System.Collections.Immutable;
using NodaTime.Text;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers.Deployed;

/// <summary>Where lists that are deployed come from, for programs.</summary>
internal static class DeployedJson
{
    /// <summary>Rows of a kind that are listed one by one.</summary>
    private const int MostRows = 10_000;

    /// <summary>Writes it.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(DeployedAnswer answer, Stream output)
    {
        ArgumentNullException.ThrowIfNull(answer);
        var (moments, cover) = (new SiteMoments(answer.Site), answer.Cover);
        var document = new DeployedDocument
        {
            Site = answer.Site.Name,
            TimeZoneData = answer.Site.TimeZoneData,
            Now = moments.At(cover.Now),
            AsWritten = answer.IsAsWritten,
            Same = answer.Lists.All(list => list.Comparison.IsSame),
            Ends = moments.At(cover.Ends),
            OverSoon = cover.IsOverSoon,
            FileRevision = answer.OfFile.Commit?.Name,
            Lists = answer.Lists.Select(list => Of(list, moments, cover.Now)),
            Holes = cover.Holes.Select(hole => new DeployedHoleItem
            {
                From = moments.At(hole.From),
                Until = moments.At(hole.Until),
                Controller = hole.Controller,
            }),
            Overlaps = cover.Overlaps.Select(overlap => new DeployedOverlapItem
            {
                From = moments.At(overlap.From),
                Until = moments.At(overlap.Until),
                Files = [overlap.One, overlap.Other],
            }),
        };
        JsonDocuments.Write(output, document, new DeployedContext(JsonDocuments.Options()).DeployedDocument);
    }

    private static DeployedListItem Of(TracedList traced, SiteMoments moments, long now)
    {
        var (comparison, list, origin) = (traced.Comparison, traced.Comparison.List, traced.Origin);
        var isFound = origin.Source != OriginSource.NotFound;
        var (found, nearest) = (isFound ? origin.Commit : null, isFound ? null : origin.Commit);
        return new DeployedListItem
        {
            File = traced.File,
            List = list.Kind.ToString().ToLowerInvariant(),
            From = LocalDatePattern.Iso.Format(comparison.Dates.From),
            Until = LocalDatePattern.Iso.Format(comparison.Dates.Until),
            Controller = list.Controller,
            Rows = list.Rows.Length,
            Sha256 = list.Hash,
            TimeZoneData = list.Notes.TimeZoneData,
            Revision = found?.Name,
            RevisionFirst = origin.First?.Name,
            Subject = found?.Subject,
            Committed = found?.Date is { } date ? LocalDatePattern.Iso.Format(date) : null,
            RevisionFrom = WordOf(origin.Source),
            RevisionUnknown = origin.Unknown,
            Nearest = nearest?.Name,
            NearestApart = nearest is null ? null : origin.Apart,
            Searched = origin.Source == OriginSource.NotFound ? origin.Searched : null,
            FileSha256 = comparison.File.Hash,
            SameFromNow = comparison.IsSameFrom(now),
            Same = comparison.IsSame,
            FirstDifferent = moments.At(comparison.FirstDifferent),
            OnlyInList = Of(comparison.OnlyInList, moments),
            OnlyInListInAll = InAll(comparison.OnlyInList),
            OnlyInFile = Of(comparison.OnlyInFile, moments),
            OnlyInFileInAll = InAll(comparison.OnlyInFile),
        };
    }

    private static string WordOf(OriginSource source) => source switch
    {
        OriginSource.List => "list",
        OriginSource.Search => "search",
        OriginSource.Compiled => "compiled",
        OriginSource.SameSources => "same sources",
        _ => "not found",
    };

    private static IEnumerable<DeployedRowItem> Of(ImmutableArray<DeployedListRow> rows, SiteMoments moments) =>
        rows.Take(MostRows).Select(row => new DeployedRowItem { At = moments.At(row.At), What = row.What });

    private static int? InAll(ImmutableArray<DeployedListRow> rows) => rows.Length > MostRows ? rows.Length : null;
}
