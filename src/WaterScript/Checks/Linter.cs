using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Checks;

/// <summary>Looks at what a site would do, before a valve moves.</summary>
public static class Linter
{
    /// <summary>Looks at a site that was read without an error.</summary>
    /// <param name="site">The site.</param>
    /// <param name="horizon">The dates to look at.</param>
    public static LintReport Check(Site site, Horizon horizon)
    {
        var survey = new Survey(Timetable.Of(site, horizon));
        var outputs = new Survey(Timetable.Of(site, horizon)) { Trials = survey.Trials };
        ImmutableArray<ICheck> checks = [.. Walked(survey, outputs, Catalogue.Checks), .. OfManual(site)];
        ImmutableArray<Finding> found = [.. checks.SelectMany(check => check.Findings())];
        var judged = Acceptances.Apply(site.Acceptances, [.. InOrder(found)], horizon.From);
        return new LintReport(horizon, [.. InOrder(judged.Open)], judged.Accepted, [.. checks.SelectMany(check => check.NotChecked()).Distinct()]) { Proof = survey.WholeCycle.Proof };
    }

    /// <summary>One pass of each manual schedule, whenever somebody may start it.</summary>
    private static IEnumerable<ICheck> OfManual(Site site)
    {
        var kinds = Catalogue.Checks.Where(kind => kind.SeesManual).ToArray();
        foreach (var schedule in site.Schedules.Where(schedule => schedule.IsManual))
        {
            var timetable = Survey.TimetableOf(site, schedule);
            if (!timetable.Passes().Any()) continue;
            var survey = new Survey(timetable, schedule);
            foreach (var check in Walked(survey, survey, kinds)) yield return check;
        }
    }

    private static ImmutableArray<ICheck> Walked(Survey survey, Survey outputs, IEnumerable<CheckKind> kinds)
    {
        ImmutableArray<ICheck> checks = [.. kinds.Select(kind => kind.Begin(kind.SeesOutputs ? outputs : survey))];
        new Walk(survey, outputs, checks).Go();
        return checks;
    }

    private static IEnumerable<Finding> InOrder(IEnumerable<Finding> findings) =>
        findings.OrderBy(finding => finding.Primary.Location.Source.Path, StringComparer.Ordinal).ThenBy(finding => finding.Primary.Location.Span.Start);
}
