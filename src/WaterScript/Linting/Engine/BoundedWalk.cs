using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Linting.Engine;

/// <summary>
/// The walk of all checks over as many dates as a budget of work allows. Where it is used up before the last date, the walk begins anew and ends where the
/// first one came to: then each rule has seen all of the dates that it speaks of, as if nobody had asked for more.
/// </summary>
/// <param name="site">The site.</param>
/// <param name="asked">The dates to look at.</param>
/// <param name="units">The most work of a walk.</param>
internal sealed class BoundedWalk(Site site, Horizon asked, long units)
{
    private WorkBudget _runs = new(units);
    private WorkBudget _outputs = new(units);
    private long _work;

    /// <summary>What the checks found on the dates that were looked at; none were where the first date alone is too much.</summary>
    public LintReport Go()
    {
        var (horizon, greatest) = (asked, default((int Source, double Share)?));
        while (horizon.From < horizon.Until)
        {
            (_runs, _outputs) = (new WorkBudget(units), new WorkBudget(units));
            var context = new LintContext(Timetable.Of(site, horizon, _runs)) { IsCut = horizon != asked };
            var outputs = new LintContext(Timetable.Of(site, horizon, _outputs)) { Trials = context.Trials, IsCut = context.IsCut };
            try
            {
                return Report(context, outputs, greatest);
            }
            catch (WorkUsedUpException)
            {
                _work += _runs.Spent + _outputs.Spent;
                greatest ??= _runs.Greatest ?? _outputs.Greatest;
                horizon = horizon with { Until = Reached(context, outputs, horizon) };
            }
        }

        return Cut(new LintReport(horizon, [], [], []) { Work = _work }, greatest);
    }

    private LintReport Report(LintContext context, LintContext outputs, (int Source, double Share)? greatest)
    {
        var walked = Linter.Walked(context, outputs, RuleCatalogue.Checks);
        // Findings are worded within the same budget again: what is expanded for them belongs to no date.
        _work += _runs.Spent + _outputs.Spent;
        _runs.Renew();
        _outputs.Renew();
        var manual = new ManualWalks(site, units);
        ImmutableArray<IRule> rules = [.. walked, .. manual.Checks()];
        ImmutableArray<Finding> found = [.. rules.SelectMany(rule => rule.Findings()), .. manual.Findings()];
        var report = new LintReport(context.Horizon, found, [], [.. rules.SelectMany(rule => rule.NotChecked()).Distinct()])
        {
            ConflictProof = context.WholeCycle.ConflictProof,
            Work = _work + _runs.Spent + _outputs.Spent + manual.Work,
        };
        return context.IsCut ? Cut(report, greatest) : report;
    }

    private LintReport Cut(LintReport report, (int Source, double Share)? greatest) =>
        report with { IsCut = true, Findings = report.Findings.Add(TooMuchWork.FindingFor(site, asked, report.Horizon, greatest)) };

    /// <summary>The first date that is not looked at; where only what comes after the walk is too much, half of the dates are left.</summary>
    private LocalDate Reached(LintContext context, LintContext outputs, Horizon horizon)
    {
        var (from, until) = (CivilDate.DayNumberOf(horizon.From), CivilDate.DayNumberOf(horizon.Until));
        var day = until;
        if (_runs.IsUsedUp) day = Math.Min(day, _runs.ReachedDay);
        if (_outputs.IsUsedUp) day = Math.Min(day, outputs.DayOf(outputs.LastRun));
        return CivilDate.FromDayNumber(day >= until ? from + ((until - from) / 2) : Math.Max(from, day)).ToLocalDate();
    }
}
