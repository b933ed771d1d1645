using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Documents.Charts;

/// <summary>What a picture of a site's watering shows, before anything of it has a size or a colour.</summary>
internal sealed class Chart
{
    internal Chart(Site site, ImmutableArray<ChartDay> days, ImmutableArray<ChartFinding> findings) =>
        (Site, Days, Findings) = (site, days, findings);

    /// <summary>The site.</summary>
    internal Site Site { get; }

    /// <summary>The days, each from noon to noon.</summary>
    internal ImmutableArray<ChartDay> Days { get; }

    /// <summary>The findings that happen on these days, numbered from 1.</summary>
    internal ImmutableArray<ChartFinding> Findings { get; }
}

/// <summary>There are more runs than <see cref="Limits.ChartRuns"/>; a run counts on each day that it is drawn on.</summary>
internal sealed class ChartTooLargeException() : Exception("There are more runs than a picture can show.");
