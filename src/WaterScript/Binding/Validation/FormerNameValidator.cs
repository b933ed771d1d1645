using System.Collections.Immutable;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Binding.Validation;

/// <summary>
/// Former names of schedules: no schedule has one now, and no two had the same. One that breaks this is reported and taken out, so that no two schedules
/// have the same events in a calendar.
/// </summary>
internal static class FormerNameValidator
{
    /// <summary>The schedules with the former names that hold.</summary>
    public static ImmutableArray<Schedule> Check(ImmutableArray<Schedule> schedules, Scope scope)
    {
        var now = schedules.ToDictionary(schedule => schedule.Name, StringComparer.Ordinal);
        var before = new Dictionary<string, Location>(StringComparer.Ordinal);
        return [.. schedules.Select(schedule => Holds(schedule, now, before, scope) ? schedule : schedule with { Formerly = null, FormerlyOrigin = null })];
    }

    private static bool Holds(Schedule schedule, Dictionary<string, Schedule> now, Dictionary<string, Location> before, Scope scope)
    {
        if (schedule.Formerly is not { } name || schedule.FormerlyOrigin is not { } origin) return true;
        if (now.TryGetValue(name, out var other))
        {
            scope.Report(Finding.At(ReadingRules.Contradiction, origin,
                other == schedule ? $"\"{name}\" is its name now" : $"a schedule is called \"{name}\" now") with
            {
                Others = [new Label(other.Origin, "the schedule of that name")],
                Help = "Name what this schedule was called before, or delete the line.",
            });
            return false;
        }

        if (before.TryAdd(name, origin)) return true;
        scope.Report(Finding.At(ReadingRules.DuplicateName, origin, $"two schedules were called \"{name}\" before", "the second") with
        {
            Others = [new Label(before[name], "the first")],
            Help = "Delete one of the two lines: only one schedule keeps the events of that name.",
        });
        return false;
    }
}
