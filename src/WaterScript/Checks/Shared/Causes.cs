using System.Collections.Immutable;
using System.Globalization;

namespace WaterScript.Checks;

/// <summary>
/// Gathers what goes over a limit by cause: the step that does so alone, else the fewest schedules that do so together. That
/// two schedules meet a hundred times is one cause.
/// </summary>
internal sealed class Causes(Survey survey)
{
    private readonly Dictionary<(int Owner, string Key), Cause> _byKey = [];
    private readonly List<Cause> _all = [];

    /// <summary>All causes, in the order in which they are met.</summary>
    public IReadOnlyList<Cause> All => _all;

    /// <summary>Takes in a stretch in which the sum of the parts is over a limit.</summary>
    /// <param name="owner">Whose limit it is.</param>
    /// <param name="limit">The limit.</param>
    /// <param name="parts">What is open.</param>
    /// <param name="from">First second.</param>
    /// <param name="to">The second after the last, or <paramref name="from"/> for an instant.</param>
    public void Add(int owner, decimal limit, IReadOnlyList<Part> parts, long from, long to)
    {
        var places = AloneOver(parts, limit) is { } alone ? [alone] : TogetherOver(parts, limit);
        var key = (owner, places.Length == 1 ? $"step {Text(places[0].Number)}" : $"schedules {string.Join(' ', places.Select(place => Text(place.Schedule.Index)))}");
        if (!_byKey.TryGetValue(key, out var cause))
        {
            cause = new Cause { Owner = owner, Places = places, First = from };
            _byKey[key] = cause;
            _all.Add(cause);
        }

        cause.Add(from, to, parts.Sum(part => part.Amount), parts, survey);
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private StepPlace? AloneOver(IReadOnlyList<Part> parts, decimal limit) => parts
        .GroupBy(part => survey.Steps.Of(part.Asker))
        .FirstOrDefault(step => step.Sum(part => part.Amount) > limit)?.Key;

    /// <summary>One step of each schedule, the greatest first to be taken, so that they are as few as can be.</summary>
    private ImmutableArray<StepPlace> TogetherOver(IReadOnlyList<Part> parts, decimal limit)
    {
        var schedules = parts.GroupBy(part => part.Asker.Schedule)
            .Select(group => (Sum: group.Sum(part => part.Amount), Place: survey.Steps.Of(group.MaxBy(part => part.Amount).Asker)))
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
