using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Documents.Verdicts;

namespace WaterScript.Cli.Commands;

/// <summary>What a report for people shows.</summary>
internal sealed record TextReportOptions
{
    /// <summary>Whether what is accepted is shown too.</summary>
    public bool ShowsAccepted { get; init; }

    /// <summary>Whether all findings of a rule are shown, however many there are.</summary>
    public bool ShowsAll { get; init; }

    /// <summary>Whether all that was not checked is listed by zone.</summary>
    public bool ListsMissing { get; init; }

    /// <summary>Whether there is no verdict.</summary>
    public bool IsQuiet { get; init; }

    /// <summary>The only rules that are looked for; empty for all.</summary>
    public ImmutableArray<Rule> Rules { get; init; } = [];

    /// <summary>Columns of a line of the verdict.</summary>
    public int Columns { get; init; } = GapLine.Columns;
}
