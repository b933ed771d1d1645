using System.Collections.Immutable;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Linting.Fixes;
using WaterScript.Simulation;

namespace WaterScript.Linting.Engine;

/// <summary>A site that was read and, when that gave no error, looked at.</summary>
/// <param name="Path">The root file, as findings show it.</param>
/// <param name="Reading">What reading gave.</param>
/// <param name="Lint">What looking at it gave; null when reading gave an error.</param>
internal sealed record CheckedSite(string Path, SiteReading Reading, LintReport? Lint)
{
    /// <summary>What people call it.</summary>
    public string Name => Reading.Site?.DisplayName ?? Path;

    /// <summary>All that counts: of reading, then of what the site does.</summary>
    public ImmutableArray<Finding> Findings { get; init; } = [.. Reading.Findings, .. Lint?.Findings ?? []];

    /// <summary>What the user accepts.</summary>
    public ImmutableArray<AcceptedFinding> Accepted => Lint?.Accepted ?? [];

    /// <summary>How many findings do not count because a baseline has them.</summary>
    public int InBaseline { get; init; }

    /// <summary>How many findings of files that it shares stand with a site before it.</summary>
    public int Shared { get; init; }

    /// <summary>The gravest finding; null when there is none.</summary>
    public Severity? Worst => Findings.Length == 0 ? null : Findings.Max(finding => finding.Severity);

    /// <summary>Looks at a site.</summary>
    /// <param name="path">The root file, as findings show it.</param>
    /// <param name="reading">What reading gave.</param>
    /// <param name="from">First date to look at; null for the site's first.</param>
    /// <param name="share">The most work is that of a check by so many, for answers that look at several sites; 1 or more.</param>
    /// <param name="stop">Nobody needs the answer any more.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    public static CheckedSite Of(string path, SiteReading reading, LocalDate? from = null, int share = 1, CancellationToken stop = default) =>
        Untried(path, reading, from, share, stop: stop).Tried(from, share, stop: stop);

    /// <summary>Looks at a site while others are looked at, so that there is no core to spare for it: on one thread.</summary>
    /// <param name="path">The root file, as findings show it.</param>
    /// <param name="reading">What reading gave.</param>
    /// <param name="from">First date to look at; null for the site's first.</param>
    public static CheckedSite BesideOthers(string path, SiteReading reading, LocalDate? from = null) =>
        Untried(path, reading, from, isBesideOthers: true).Tried(from, isBesideOthers: true);

    /// <summary>The site with those of its fixes that do no harm.</summary>
    /// <inheritdoc cref="Untried"/>
    public CheckedSite Tried(LocalDate? from, int share = 1, bool isBesideOthers = false, CancellationToken stop = default) =>
        this with { Findings = new FixTrial(this, reading => Untried(Path, reading, from, share, isBesideOthers, stop)).Findings() };

    /// <summary>Looks at a site whose fixes nobody is shown.</summary>
    /// <param name="path">The root file, as findings show it.</param>
    /// <param name="reading">What reading gave.</param>
    /// <param name="from">First date to look at; null for the site's first.</param>
    /// <param name="share">The most work is that of a check by so many; 1 or more.</param>
    /// <param name="isBesideOthers">Whether other sites have the other cores.</param>
    /// <param name="stop">Nobody needs the answer any more.</param>
    public static CheckedSite Untried(
        string path, SiteReading reading, LocalDate? from = null, int share = 1, bool isBesideOthers = false, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(reading);
        var lint = reading is { Site: { } site, Findings.HasErrors: false }
            ? Linter.Check(site, CheckHorizon.Of(site, from), Limits.CheckWorkOf(site.SourceLength) / share, isBesideOthers, stop)
            : null;
        return new CheckedSite(path, reading, lint);
    }
}
