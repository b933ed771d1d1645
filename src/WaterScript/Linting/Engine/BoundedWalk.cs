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
    /// <summary>The first, one over the dates that it came to, and two over fewer where what is found is too much to put into words.</summary>
    private const int MostWalks = 4;

    /// <summary>Whether all of the site has been checked, and only what happens on these dates is asked for.</summary>
    public bool IsRepeated { get; init; }

    /// <summary>Whether other sites have the other cores.</summary>
    public bool IsBesideOthers { get; init; }

    /// <summary>Nobody needs the answer any more.</summary>
    public CancellationToken Stop { get; init; }

    private WorkBudget _runs = new(units);
    private WorkBudget _outputs = new(units);
    private bool _isWalked;
    private long _work;

    /// <summary>What the checks found on the dates that were looked at; none were where the first date alone is too much.</summary>
    public LintReport Go()
    {
        var (horizon, greatest) = (asked, default((int Source, double Share)?));
        for (var walks = 0; walks < MostWalks && horizon.From < horizon.Until; walks++)
        {
            (_runs, _outputs, _isWalked) = (new WorkBudget(units, Stop), new WorkBudget(units, Stop), false);
            var context = new LintContext(Timetable.Of(site, horizon, _runs)) { IsCut = horizon != asked, IsRepeated = IsRepeated };
            var outputs = new LintContext(Timetable.Of(site, horizon, _outputs))
            {
                Trials = context.Trials,
                IsCut = context.IsCut,
                IsRepeated = IsRepeated,
                HasNoThread = IsBesideOthers,
            };
            try
            {
                return Report(context, outputs, greatest);
            }
            catch (WorkUsedUpException)
            {
                _work += _runs.Spent + _outputs.Spent;
                greatest ??= _outputs.IsUsedUp ? _outputs.Greatest : _runs.Greatest;
                horizon = horizon with { Until = _isWalked ? Middle(horizon) : Reached(context, outputs, horizon) };
            }
        }

        return Cut(new LintReport(horizon with { Until = horizon.From }, [], [], []) { Work = _work }, greatest);
    }

    private LintReport Report(LintContext context, LintContext outputs, (int Source, double Share)? greatest)
    {
        var walked = RuleWalk.Of(context, outputs, RuleCatalogue.Checks);
        _isWalked = true;
        // Findings are worded within the same budget again: what is expanded for them belongs to no date.
        _work += _runs.Spent + _outputs.Spent;
        _runs.Renew();
        _outputs.Renew();
        var manual = new ManualWalks(site, units, Stop);
        ImmutableArray<IRule> rules = [.. walked, .. manual.Checks()];
        ImmutableArray<Finding> found = [.. rules.SelectMany(rule => rule.Findings()), .. manual.Findings()];
        var report = new LintReport(context.Horizon, found, [], Gaps(rules))
        {
            ConflictProof = context.WholeCycle.ConflictProof,
            Collisions = found.Count(finding => RuleCatalogue.Collisions.Contains(finding.Rule)),
            Runs = context.Runs,
            Work = _work + _runs.Spent + _outputs.Spent + manual.Work,
        };
        return context.IsCut ? Cut(report, greatest) : report;
    }

    /// <summary>A rule is at work once for each manual schedule too, and says the same each time; the most dangerous comes first.</summary>
    private static ImmutableArray<Gap> Gaps(ImmutableArray<IRule> rules) =>
        [.. rules.SelectMany(rule => rule.NotChecked()).DistinctBy(gap => gap.Sentence).OrderBy(gap => gap.Concern)];

    private LintReport Cut(LintReport report, (int Source, double Share)? greatest) =>
        report with { IsCut = true, Findings = report.Findings.Add(TooMuchWork.FindingFor(site, asked, report.Horizon, greatest)) };

    /// <summary>
    /// The first date that is not looked at, before which all passes were over when the budget was used up. Runs are calculated ahead of what outputs do
    /// because of them, as far as the machine comes to it: where outputs are too much, nothing counts that only the other thread has seen.
    /// </summary>
    private LocalDate Reached(LintContext context, LintContext outputs, Horizon horizon)
    {
        var (day, longest) = _outputs.IsUsedUp ? (outputs.DayOf(outputs.LastRun), outputs.LongestPass) : (_runs.ReachedDay, context.LongestPass);
        day -= (int)(longest / ZoneClock.SecondsInDay);
        var (from, until) = (CivilDate.DayNumberOf(horizon.From), CivilDate.DayNumberOf(horizon.Until));
        return day >= until ? Middle(horizon) : CivilDate.FromDayNumber(Math.Max(from, day)).ToLocalDate();
    }

    /// <summary>Where not the walk is too much but what comes after it, half of the dates are left.</summary>
    private static LocalDate Middle(Horizon horizon) => horizon.From.PlusDays(Period.DaysBetween(horizon.From, horizon.Until) / 2);
}
