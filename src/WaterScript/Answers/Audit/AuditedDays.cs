using System.Collections.Immutable;
using WaterScript.Model;

namespace WaterScript.Answers.Audit;

/// <summary>What became of the waterings of a schedule that belong to one date.</summary>
/// <param name="Schedule">The schedule; null where the list of the device does not name it.</param>
/// <param name="Day">The date, in days since 1970-01-01.</param>
/// <param name="Counts">How many there are of each class that there is, in order of the classes.</param>
internal sealed record AuditedDay(Schedule? Schedule, int Day, ImmutableArray<(AuditClass Class, int Count)> Counts);

/// <summary>Counts waterings by schedule and date.</summary>
internal sealed class AuditedDays
{
    private static readonly int Classes = Enum.GetValues<AuditClass>().Length;

    private readonly Dictionary<(int Day, int Schedule), (Schedule? Schedule, int[] Counts)> _days = [];
    private readonly Dictionary<int, SeenDays> _more = [];
    private long _moreCount;

    /// <summary>Takes one in.</summary>
    public void Add(Schedule? schedule, int day, AuditClass kind)
    {
        var index = schedule?.Index ?? -1;
        if (!_days.TryGetValue((day, index), out var known))
        {
            if (_days.Count == AuditReport.MostDays)
            {
                AddMore(index, day);
                return;
            }

            _days[(day, index)] = known = (schedule, new int[Classes]);
        }

        known.Counts[(int)kind]++;
    }

    /// <summary>The first of them, by date, then in order of the file.</summary>
    public AuditList<AuditedDay> InOrder() => new(
        [
            .. _days.OrderBy(day => day.Key).Select(day => new AuditedDay(
                day.Value.Schedule, day.Key.Day, [.. day.Value.Counts.Select((count, index) => ((AuditClass)index, count)).Where(each => each.count > 0)])),
        ],
        _days.Count + _moreCount);

    private void AddMore(int schedule, int day)
    {
        if (!_more.TryGetValue(schedule, out var days)) _more[schedule] = days = new SeenDays();
        if (days.Add(day)) _moreCount++;
    }
}
