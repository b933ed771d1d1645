using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;

namespace WaterScript.Linting.Engine;

/// <summary>One pass of each manual schedule, whenever somebody may start it; together they have a budget of work.</summary>
/// <param name="site">The site.</param>
/// <param name="units">The most work of a walk over all dates; these have a share of it.</param>
/// <param name="stop">Nobody needs the answer any more.</param>
internal sealed class ManualWalks(Site site, long units, CancellationToken stop = default)
{
    private const int Share = 4;

    private readonly WorkBudget _budget = new(units / Share, stop);
    private Schedule? _tooMuch;

    /// <summary>The work that it took.</summary>
    public long Work => _budget.Spent;

    /// <summary>The checks, when they have seen their pass.</summary>
    public IEnumerable<IRule> Checks()
    {
        var kinds = RuleCatalogue.Checks.Where(kind => kind.VisitsManual).ToArray();
        foreach (var schedule in site.Schedules.Where(schedule => schedule.IsManual))
        {
            if (Walked(schedule, kinds) is not { } rules) yield break;
            foreach (var rule in rules) yield return rule;
        }
    }

    /// <summary>What is to be said where not all of them could be looked at; to be asked after <see cref="Checks"/>.</summary>
    public IEnumerable<Finding> Findings()
    {
        if (_tooMuch is not { } schedule) yield break;
        yield return Finding.At(ReadingRules.OverLimit, schedule.Origin, "the check of manual schedules ends here, at its limit of work", "is not checked") with
        {
            Details = "This schedule and the manual ones after it were not checked.",
            Help = "Repeat less often, or delete manual schedules that nobody needs.",
        };
    }

    private ImmutableArray<IRule>? Walked(Schedule schedule, RuleRegistration[] kinds)
    {
        try
        {
            var timetable = LintContext.TimetableOf(site, schedule, _budget);
            if (!timetable.Passes().Any()) return [];
            var context = new LintContext(timetable, schedule);
            return RuleWalk.Of(context, context, kinds);
        }
        catch (WorkUsedUpException)
        {
            _tooMuch = schedule;
            return null;
        }
    }
}
