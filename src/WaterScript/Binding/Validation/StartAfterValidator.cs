using System.Collections.Immutable;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;

namespace WaterScript.Binding.Validation;

/// <summary>
/// Schedules that start after others: the other exists, has a calendar, and does not lead back. A start that breaks this is
/// reported and taken out, so that no later stage goes round in a circle.
/// </summary>
internal sealed class StartAfterValidator
{
    private readonly Dictionary<string, Schedule> _schedules;
    private readonly Scope _scope;

    private StartAfterValidator(IEnumerable<Schedule> schedules, Scope scope)
    {
        _schedules = schedules.ToDictionary(schedule => schedule.Name, StringComparer.Ordinal);
        _scope = scope;
    }

    /// <summary>The schedules without starts that lead nowhere.</summary>
    public static ImmutableArray<Schedule> Check(IReadOnlyList<Schedule> schedules, Scope scope)
    {
        var check = new StartAfterValidator(schedules, scope);
        foreach (var schedule in schedules)
        {
            foreach (var start in schedule.Starts.OfType<StartAfter>().Where(start => !check.Exists(start))) check.Remove(schedule.Name, start);
        }

        var depths = check.Depths();
        while (depths.Count < schedules.Count && !scope.Findings.IsFull(schedules[0].Origin.Source))
        {
            check.BreakCircle(schedules.First(schedule => !depths.ContainsKey(schedule.Name)), depths);
            depths = check.Depths();
        }

        foreach (var schedule in schedules.Where(schedule => !depths.TryGetValue(schedule.Name, out var depth) || depth > Limits.NameDepth))
            check.Shorten(schedule.Name);
        return [.. schedules.Select(schedule => check._schedules[schedule.Name])];
    }

    private bool Exists(StartAfter start)
    {
        if (!_schedules.TryGetValue(start.Other, out var other) || other.IsExtra)
            _scope.ReportUnknown(start.Origin, $"no schedule is called \"{start.Other}\"", start.Other,
                _schedules.Values.Where(schedule => !schedule.IsExtra).Select(schedule => schedule.Name));
        else if (other.IsManual)
            _scope.Report(ReadingRules.Contradiction, start.Origin, $"\"{start.Other}\" is manual, so nothing can start after it",
                help: "Name a schedule that has a calendar.");
        else
            return true;
        return false;
    }

    /// <summary>How many schedules each rests on in a row; those that a circle holds up have none.</summary>
    private Dictionary<string, int> Depths()
    {
        var followers = _schedules.Values.SelectMany(schedule => schedule.Starts.OfType<StartAfter>().Select(start => (start.Other, schedule.Name)))
            .ToLookup(pair => pair.Other, pair => pair.Name, StringComparer.Ordinal);
        var waiting = _schedules.Values.ToDictionary(
            schedule => schedule.Name, schedule => schedule.Starts.OfType<StartAfter>().Count(), StringComparer.Ordinal);
        var depths = new Dictionary<string, int>(StringComparer.Ordinal);
        var ready = new Queue<(string Name, int Depth)>(waiting.Where(entry => entry.Value == 0).Select(entry => (entry.Key, 0)));
        while (ready.TryDequeue(out var next))
        {
            depths[next.Name] = next.Depth;
            foreach (var follower in followers[next.Name])
            {
                if (--waiting[follower] == 0) ready.Enqueue((follower, next.Depth + 1));
            }
        }

        return depths;
    }

    /// <summary>Follows starts that are held up until a schedule comes again; that one loses its start.</summary>
    private void BreakCircle(Schedule schedule, Dictionary<string, int> depths)
    {
        var path = new List<string>();
        while (!path.Contains(schedule.Name))
        {
            path.Add(schedule.Name);
            schedule = _schedules[HeldUp(schedule, depths).Other];
        }

        var start = HeldUp(schedule, depths);
        var circle = path.Skip(path.IndexOf(schedule.Name)).Append(schedule.Name);
        _scope.Report(ReadingRules.Loop, start.Origin, $"schedules start after one another in a circle: {string.Join(" after ", circle)}",
            help: "Give one of them a start of its own.");
        Remove(schedule.Name, start);
    }

    private StartAfter HeldUp(Schedule schedule, Dictionary<string, int> depths) =>
        _schedules[schedule.Name].Starts.OfType<StartAfter>().First(start => !depths.ContainsKey(start.Other));

    private void Shorten(string name)
    {
        foreach (var start in _schedules[name].Starts.OfType<StartAfter>())
        {
            _scope.Report(ReadingRules.OverLimit, start.Origin, $"more than {Limits.NameDepth} schedules start one after another",
                help: "Put their steps into one schedule.");
            Remove(name, start);
        }
    }

    private void Remove(string name, StartAfter start) =>
        _schedules[name] = _schedules[name] with { Starts = _schedules[name].Starts.Remove(start) };
}
