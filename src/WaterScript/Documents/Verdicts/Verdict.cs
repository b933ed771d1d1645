using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Binding;
using WaterScript.Calendars.TimeZones;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Fixes;
using WaterScript.Wording;

namespace WaterScript.Documents.Verdicts;

/// <summary>What the check of one site comes to: what was found, what the calendar proves, and what was not checked. Never a bare "fine".</summary>
internal static class Verdict
{
    private static readonly ImmutableArray<Concern> Numbers =
        [Concern.Flow, Concern.Power, Concern.Wires, Concern.Runoff, Concern.WaterNeed, Concern.Roots];

    /// <summary>The verdict, in one line to three.</summary>
    /// <param name="site">The site.</param>
    /// <param name="listsMissing">Whether all that was not checked is listed by zone, in as many lines as that takes.</param>
    public static IEnumerable<string> Of(CheckedSite site, bool listsMissing = false)
    {
        ArgumentNullException.ThrowIfNull(site);
        return site.Lint is { } lint ? OfChecked(site, lint, listsMissing) : OfUnread(site);
    }

    /// <summary>How many findings do not count: <c>, 2 accepted</c>.</summary>
    public static string NotCounted(int accepted, int inBaseline) =>
        (accepted > 0 ? string.Create(CultureInfo.InvariantCulture, $", {accepted} accepted") : "") +
        (inBaseline > 0 ? string.Create(CultureInfo.InvariantCulture, $", {inBaseline} in the baseline") : "");

    private static IEnumerable<string> OfUnread(CheckedSite site)
    {
        yield return $"{Begin(site)}.";
        var all = site.Findings.Length;
        yield return $"The timetable was not checked because of {(CountOfErrors(site) == 1 ? "this error" : "these errors")}.";
        if (SafeFixes.CountOf(site) is > 0 and var safe) yield return $"check --fix corrects {(safe < all ? $"{safe} of these {all}" : All(all))}.";
    }

    private static IEnumerable<string> OfChecked(CheckedSite site, LintReport lint, bool listsMissing)
    {
        var groups = GapGroup.Of(site.Reading.Site!, lint.NotChecked);
        yield return $"{Begin(site)}{Dates(site, lint, groups)}";
        if (CollisionLine.Of(site) is { } collisions) yield return collisions;
        if (listsMissing)
        {
            foreach (var line in MissingLines.Of(site)) yield return line;
        }
        else if (GapLine.Of([.. groups.Select(group => group.Words)]) is { } gaps)
        {
            yield return gaps;
        }
    }

    private static string All(int number) => number switch
    {
        1 => "it",
        2 => "both",
        _ => string.Create(CultureInfo.InvariantCulture, $"all {number}"),
    };

    private static int CountOfErrors(CheckedSite site) => site.Reading.Findings.Count(finding => finding.Severity == Severity.Error);

    private static string Begin(CheckedSite site)
    {
        var files = site.Reading.Files.Length;
        return $"{site.Name}: {FindingSummary.Of(site.Findings)}{(files > 1 ? $" in {VerdictWords.Number(files, "file")}" : "")}" +
            NotCounted(site.Accepted.Length, site.InBaseline);
    }

    /// <summary>The dates that were looked at, and from when on none was.</summary>
    private static string Dates(CheckedSite site, LintReport lint, ImmutableArray<GapGroup> groups)
    {
        var horizon = lint.Horizon;
        if (horizon.Until <= horizon.From) return ". No date was checked: the first is more work than a check may be.";
        var days = $"{VerdictWords.Date(horizon.From)} to {VerdictWords.Date(horizon.Until.PlusDays(-1))}";
        var rest = lint.IsCut ? $"; nothing from {VerdictWords.Date(horizon.Until)} on, at the limit of work" : "";
        var data = OtherData(site.Reading.Site!.TimeZoneData);
        if (!IsOnlyTimes(site, groups)) return $". Checked {days}{rest}{data}.";
        return $"{(site.Findings.IsEmpty ? ", but" : ";")} only days and times were checked, {days}{rest}{data}.";
    }

    /// <summary>The version of the time-zone data where it is not that of this program, which <c>--version</c> shows.</summary>
    private static string OtherData(string data) => data == TimeZoneVersion.Of(PackagedTimeZones.Provider) ? "" : $", with time-zone data {data}";

    /// <summary>Whether the site has no number of its water, power, ground and plants that a rule could judge by.</summary>
    private static bool IsOnlyTimes(CheckedSite site, ImmutableArray<GapGroup> groups)
    {
        var model = site.Reading.Site!;
        return model is { Supplies.IsEmpty: true, Restrictions.IsEmpty: true, Devices.IsEmpty: true }
            && model.Controllers.All(controller => controller.Power is null)
            && Numbers.All(concern => groups.Any(group => group.Concern == concern && group.IsWhole));
    }
}
