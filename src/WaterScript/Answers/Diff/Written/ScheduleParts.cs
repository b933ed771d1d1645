using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Answers.Diff.Written;

/// <summary>What a schedule is, apart from its name: its days, its starts, its steps.</summary>
internal sealed class ScheduleParts
{
    /// <summary>The likeness of two that say the same.</summary>
    public const int MostAlike = 3;

    private readonly string _days;
    private readonly string _starts;
    private readonly string _steps;
    private readonly string _zones;
    private readonly bool _isManual;

    /// <param name="schedule">The schedule.</param>
    /// <param name="nameOf">What a name is called in the other version; null where no name is another.</param>
    public ScheduleParts(Schedule schedule, Func<string, string>? nameOf)
    {
        ArgumentNullException.ThrowIfNull(schedule);
        string Keys(IEnumerable<Location> places) => string.Join('\n', places.Select(place => WrittenText.KeyOf(WrittenText.Of(place), nameOf)));
        (Name, _isManual) = (schedule.Name, schedule.IsManual);
        _days = Keys(schedule.DayLines.Concat(schedule.ExceptLines).Select(line => line.Origin).Append(schedule.SeasonOrigin ?? default)
            .Where(place => place.Source is not null));
        _starts = Keys(schedule.Starts.Select(start => start.Origin));
        _steps = Keys(schedule.Steps.Select(step => step.Origin));
        _zones = string.Join('\n', Waterings.ZonesIn(schedule.Steps).Select(zone => nameOf?.Invoke(zone.Name) ?? zone.Name).Order(StringComparer.Ordinal));
    }

    /// <summary>Its name.</summary>
    public string Name { get; }

    /// <summary>How much two are alike; 0 where they are two different ones.</summary>
    public int Likeness(ScheduleParts other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (_isManual != other._isManual) return 0;
        if (_steps == other._steps)
        {
            if (_days == other._days && _starts == other._starts) return MostAlike;
            return _days == other._days || _starts == other._starts ? 2 : 0;
        }

        return !_isManual && _days == other._days && _starts == other._starts && _zones == other._zones ? 1 : 0;
    }
}
