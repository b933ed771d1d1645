using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;

namespace WaterScript.Documents.Charts;

/// <summary>What a picture of a site's watering shows, before anything of it has a size or a colour.</summary>
public sealed class Chart
{
    internal Chart(Site site, ImmutableArray<ChartDay> days, ImmutableArray<ChartFinding> findings, ImmutableArray<string> restrictions) =>
        (Site, Days, Findings, Restrictions) = (site, days, findings, restrictions);

    /// <summary>The site.</summary>
    internal Site Site { get; }

    /// <summary>The days, each from noon to noon.</summary>
    internal ImmutableArray<ChartDay> Days { get; }

    /// <summary>The findings that happen on these days, numbered from 1.</summary>
    internal ImmutableArray<ChartFinding> Findings { get; }

    /// <summary>Labels of the restrictions that forbid anything on these days.</summary>
    internal ImmutableArray<string> Restrictions { get; }

    /// <summary>How many runs it shows.</summary>
    public int RunCount => Days.Sum(day => day.Runs.Length);

    /// <summary>When, by which clocks, and how much in all: <c>Mon 18 May 2026 12:00 to Tue 19 May 2026 12:00, Europe/Vienna. 4 runs, …</c></summary>
    public string Summary => ChartWords.Summary(this);

    /// <summary>Whether there are more runs than <see cref="Limits.ChartRuns"/>.</summary>
    public bool IsTooLarge => RunCount > Limits.ChartRuns;

    /// <summary>The picture of a site.</summary>
    /// <param name="site">The site.</param>
    /// <param name="report">What its checks found.</param>
    /// <param name="span">The days to show.</param>
    public static Chart Of(Site site, LintReport report, ChartSpan span)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(report);
        ArgumentNullException.ThrowIfNull(span);
        return new ChartBuilder(site, report, span).Build();
    }
}

/// <summary>A finding that happens on the days of a chart.</summary>
/// <param name="Number">By which marks name it, from 1.</param>
/// <param name="Finding">The finding.</param>
internal sealed record ChartFinding(int Number, Finding Finding);
