using System.Collections.Immutable;
using System.Globalization;
using WaterScript.Simulation;

namespace WaterScript.Linting.Engine;

/// <summary>
/// Gathers what goes over a limit by cause: the step that does so alone, else the fewest schedules that do so together. That
/// two schedules meet a hundred times is one cause.
/// </summary>
internal sealed class Overloads(LintContext context)
{
    private readonly Dictionary<(int Owner, string Key), Overload> _byKey = [];
    private readonly List<Overload> _all = [];

    /// <summary>All causes, in the order in which they are met.</summary>
    public IReadOnlyList<Overload> All => _all;

    /// <summary>Takes in a stretch in which the sum of the parts is over a limit.</summary>
    /// <param name="owner">Whose limit it is.</param>
    /// <param name="limit">The limit.</param>
    /// <param name="contributions">What is open.</param>
    /// <param name="from">First second.</param>
    /// <param name="to">The second after the last, or <paramref name="from"/> for an instant.</param>
    public void Add(int owner, decimal limit, IReadOnlyList<Contribution> contributions, long from, long to)
    {
        var places = AloneOver(contributions, limit) is { } alone ? [alone] : TogetherOver(contributions, limit);
        var key = (owner, places.Length == 1 ? $"step {Text(places[0].Number)}"
            : $"schedules {string.Join(' ', places.Select(place => Text(place.Schedule.Index)))}");
        if (!_byKey.TryGetValue(key, out var overload))
        {
            overload = new Overload { Owner = owner, Places = places };
            _byKey[key] = overload;
            _all.Add(overload);
        }

        overload.Add(from, to, contributions.Sum(contribution => contribution.Amount), contributions, context);
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private StepPlace? AloneOver(IReadOnlyList<Contribution> contributions, decimal limit) => contributions
        .GroupBy(contribution => context.Steps.Of(contribution.Origin))
        .FirstOrDefault(step => step.Sum(contribution => contribution.Amount) > limit)?.Key;

    /// <summary>One step of each schedule, the greatest first to be taken, so that they are as few as can be.</summary>
    private ImmutableArray<StepPlace> TogetherOver(IReadOnlyList<Contribution> contributions, decimal limit)
    {
        var schedules = contributions.GroupBy(contribution => contribution.Origin.Schedule)
            .Select(group => (Sum: group.Sum(contribution => contribution.Amount),
                Place: context.Steps.Of(group.MaxBy(contribution => contribution.Amount).Origin)))
            .OrderByDescending(schedule => schedule.Sum).ThenBy(schedule => schedule.Place.Schedule.Index);
        var taken = ImmutableArray.CreateBuilder<StepPlace>();
        var sum = 0m;
        foreach (var schedule in schedules)
        {
            taken.Add(schedule.Place);
            sum += schedule.Sum;
            if (sum > limit) break;
        }

        return [.. taken.OrderBy(place => place.Schedule.Index)];
    }
}
