using System.Globalization;
using NodaTime.Text;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Proof;
using WaterScript.Wording;

namespace WaterScript.Cli.Commands;

/// <summary>What a check comes to, with what was looked at and what was not. Never a bare "fine".</summary>
internal static class Verdict
{
    private static readonly LocalDatePattern Day = LocalDatePattern.CreateWithInvariantCulture("d MMM uuuu");

    /// <summary>The verdict, in one line or, where something was not checked, two or three.</summary>
    public static IEnumerable<string> Of(CheckedSite site)
    {
        yield return $"{site.Name}: {TallyOf(site)}. Read {Phrases.Count(Math.Max(1, site.Reading.Files.Length), "file")}{Looked(site)}";
        if (site.Lint?.ConflictProof is { } conflictProof) yield return Decided(conflictProof);
        if (site.Lint is { NotChecked: var parts } && string.Join(", ", parts) is { Length: > 0 } unjudged) yield return $"Not checked: {unjudged}.";
    }

    private static string TallyOf(CheckedSite site)
    {
        var tally = FindingSummary.Of(site.Findings);
        if (!site.Accepted.IsEmpty) tally += string.Create(CultureInfo.InvariantCulture, $", {site.Accepted.Length} accepted");
        if (site.InBaseline > 0) tally += string.Create(CultureInfo.InvariantCulture, $", {site.InBaseline} in the baseline");
        return tally;
    }

    private static string Looked(CheckedSite site)
    {
        if (site.Lint is not { } lint) return "; the timetable was not checked because of these errors.";
        var model = site.Reading.Site!;
        var areas = RuleCategories.All.Skip(1).Select(RuleCategories.NameOf);
        return $" with {Phrases.Count(model.Zones.Length, "zone")} and {Phrases.Count(model.Schedules.Length, "schedule")}. " +
            $"{Dates(lint, string.Join(", ", areas))}";
    }

    /// <summary>The dates that were looked at, and from when on none was.</summary>
    private static string Dates(LintReport lint, string areas)
    {
        var (from, until) = (lint.Horizon.From, lint.Horizon.Until);
        if (until <= from) return $"Checked no date: nothing was looked at from {Day.Format(from)} on.";
        var text = $"Checked {Day.Format(from)} to {Day.Format(until.PlusDays(-1))}: {areas}.";
        return lint.IsCut ? $"{text} Nothing was looked at from {Day.Format(until)} on." : text;
    }

    /// <summary>What was decided beyond the dates that were looked at.</summary>
    private static string Decided(ConflictProof conflictProof)
    {
        var which = conflictProof.Moving.IsEmpty
            ? "whether schedules or passes ever meet"
            : $"whether schedules or passes ever meet, but for those whose times move ({string.Join(", ", conflictProof.Moving)})";
        return $"Decided up to {Day.Format(conflictProof.Until.PlusDays(-1))}: " +
            $"{which}{(conflictProof.IsWhole ? "" : "; not for all pairs, there were too many")}.";
    }
}
