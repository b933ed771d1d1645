using System.ComponentModel;
using WaterScript.Documents.Reports;
using WaterScript.Documents.Writers;

namespace WaterScript.Answers;

/// <summary>Where a comparison ended before its last date, for programs.</summary>
[Description("The comparison ended before its last date: it would have been more work than it may be."), Shape(Of = "over-limit")]
internal sealed record OverLimitItem
{
    [Description("All before this moment was compared."), Shape(Of = ShapeAttribute.Moment)]
    public required string ComparedUntil { get; init; }

    [Description("How many runs there were by then."), Shape(Least = 0)]
    public required long Runs { get; init; }

    [Description("The one that makes most of the work."), Shape(Of = ShapeAttribute.Name)]
    public required string Schedule { get; init; }

    public required PlaceItem Place { get; init; }

    /// <summary>Of a comparison; null where it did not end early.</summary>
    public static OverLimitItem? Of(ComparedInPart? part, SiteMoments moments) => part is null ? null : new OverLimitItem
    {
        ComparedUntil = moments.At(part.Until),
        Runs = part.Runs,
        Schedule = part.Most.Name,
        Place = new PlaceItem(part.Most.Origin),
    };
}
