using WaterScript.Model;

namespace WaterScript.Timetables;

/// <summary>What a pass of a schedule does on any date: one plan for each share that its scale gives, made when first needed.</summary>
internal sealed class SchedulePlans(Schedule schedule, Site site, RunOrder order)
{
    private readonly ScaleTable _scale = ScaleTable.For(schedule, site);
    private readonly Dictionary<decimal, PassPlan> _plans = [];
    private (decimal Percent, PassPlan? Plan) _last;
    private IReadOnlyList<string>? _stepPaths;

    /// <summary>The longest that any pass lasts, in seconds.</summary>
    public long LongestSeconds => WithShare(_scale.Greatest).Seconds;

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
    public PassPlan On(int day) => WithShare(_scale.PercentOn(day));

    /// <summary>The paths of the steps, which are the same on every date.</summary>
    public IReadOnlyList<string> StepPaths => _stepPaths ??= WithShare(_scale.Greatest).StepPaths;

    private PassPlan WithShare(decimal percent)
    {
        if (_last.Plan is { } last && _last.Percent == percent) return last;
        if (!_plans.TryGetValue(percent, out var plan)) _plans[percent] = plan = PassPlanner.Plan(schedule, percent, order);
        _last = (percent, plan);
        return plan;
    }
}
