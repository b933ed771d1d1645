using WaterScript.Diagnostics;
using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>What a pass of a schedule does on any date: one plan for each share that its scale gives, made when first needed.</summary>
internal sealed class SchedulePlans(Schedule schedule, Site site, RunOrder order, WorkBudget? budget = null)
{
    private const int WorkOfPlan = 20, WorkOfPlannedRun = 100;

    private readonly ScaleTable _scale = ScaleTable.For(schedule, site);
    private readonly Dictionary<decimal, PassPlan> _plans = [];
    private readonly StepPaths _paths = new();
    private (decimal Percent, PassPlan? Plan) _last;
    private PassPlan? _longest;

    /// <summary>The longest that any pass lasts, in seconds.</summary>
    public long LongestSeconds => LongestPlan.Seconds;

    /// <summary>The plan at the greatest share. It is made before any other, so that steps are numbered alike whatever dates are asked for.</summary>
    public PassPlan LongestPlan => _longest ??= Plan(_scale.Greatest);

    /// <summary>What its passes do from a date on, each plan once.</summary>
    /// <param name="day">The date, in days since 1970-01-01.</param>
    public IEnumerable<PassPlan> From(int day) => _scale.From(day).Select(WithShare);

    /// <summary>Whether a pass at its longest waters a zone.</summary>
    public bool Waters(int zone)
    {
        foreach (var run in WithShare(_scale.Greatest).Runs)
        {
            if (run.Zone == zone) return true;
        }

        return false;
    }

    /// <summary>What a pass of a date does.</summary>
    /// <param name="day">The date that the pass belongs to, in days since 1970-01-01.</param>
    public PassPlan On(int day) => WithShare(PercentOn(day));

    /// <summary>The share of the written run times on a date, in per cent.</summary>
    public decimal PercentOn(int day) => _scale.PercentOn(day);

    /// <summary>What a pass would do at a share of the written times.</summary>
    public PassPlan At(decimal percent) => WithShare(percent);

    /// <summary>
    /// The path of a step by its number, which is the same on every date, the step as it is written, and whether a cycle splits it.
    /// </summary>
    public (string Path, WaterStep Step, bool IsPiece) StepOf(int step)
    {
        _ = LongestPlan;
        return _paths[step];
    }

    private PassPlan WithShare(decimal percent)
    {
        if (_last.Plan is { } last && _last.Percent == percent) return last;
        var longest = LongestPlan;
        if (!_plans.TryGetValue(percent, out var plan)) _plans[percent] = plan = percent == _scale.Greatest ? longest : Plan(percent);
        _last = (percent, plan);
        return plan;
    }

    private PassPlan Plan(decimal percent)
    {
        var plan = PassPlanner.Plan(schedule, percent, order, _paths);
        budget?.Spend(WorkOfPlan + (WorkOfPlannedRun * (long)(plan.Runs.Length + plan.LeftOut.Length)), schedule.Index);
        return plan;
    }
}
