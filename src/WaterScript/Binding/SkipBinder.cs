using System.Collections.Immutable;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Syntax;

namespace WaterScript.Binding;

/// <summary>Passes that are left out on a date: an <c>except</c> for its schedules, with a reason.</summary>
/// <param name="scope">Where findings go.</param>
internal sealed class SkipBinder(Scope scope)
{
    /// <summary>The schedules without what is skipped of them.</summary>
    public ImmutableArray<Schedule> Bind(IEnumerable<PlacedNode<SkipNode>> skips, ImmutableArray<Schedule> schedules)
    {
        ArgumentNullException.ThrowIfNull(skips);
        var bound = schedules.ToBuilder();
        foreach (var placed in skips)
        {
            var days = DaysOf(placed);
            foreach (var name in placed.Node.Schedules)
            {
                if (Find(name, placed, bound) is { } schedule && !days.IsEmpty)
                    bound[schedule.Index] = With(schedule, new DayLine(placed.At(placed.Node.Span), days) { Because = placed.Node.Because.Value });
            }
        }

        return bound.ToImmutable();
    }

    private static Schedule With(Schedule schedule, DayLine skip) =>
        schedule with { Except = schedule.Except.AddRange(skip.Days), ExceptLines = schedule.ExceptLines.Add(skip) };

    /// <summary>A schedule with a calendar; null, and reported, where there is none of that name.</summary>
    private Schedule? Find(NameNode name, PlacedNode<SkipNode> placed, IReadOnlyList<Schedule> schedules)
    {
        var named = schedules.Where(schedule => !schedule.IsExtra).ToList();
        if (named.Find(schedule => schedule.Name == name.Text) is not { } schedule)
        {
            scope.ReportUnknown(placed.At(name.Span), $"no schedule is called \"{name.Text}\"", name.Text, named.Select(each => each.Name));
            return null;
        }

        if (placed.Node.Schedules.First(other => other.Text == name.Text) is var first && first.Span != name.Span)
        {
            scope.Report(Finding.At(ReadingRules.StatedTwice, placed.At(name.Span), $"schedule {name.Text} is named twice", "the second time") with
            {
                Others = [new Label(placed.At(first.Span), "the first time")],
                Help = "Delete one of the two.",
            });
            return null;
        }

        if (!schedule.IsManual) return schedule;
        scope.Report(Finding.At(ReadingRules.Contradiction, placed.At(name.Span), "a manual schedule has no calendar") with
        {
            Others = [new Label(schedule.Origin, "manual")],
            Help = "Delete its name here.",
        });
        return null;
    }

    /// <summary>Dates with a year, and nothing else: what comes back is an <c>except</c> of the schedule.</summary>
    private ImmutableArray<DaySet> DaysOf(PlacedNode<SkipNode> placed)
    {
        var days = new DayBinder(scope, placed.Source);
        var all = ImmutableArray.CreateBuilder<DaySet>();
        foreach (var node in placed.Node.Days)
        {
            var bound = days.Bind([node]);
            if (bound.All(day => day is DateRange)) all.AddRange(bound);
            else
                scope.Report(ReadingRules.Contradiction, placed.At(node.Span), "a skip is for dates with a year, and these come back",
                    help: "Write dates such as `2026-07-04`; for days that come back write `except` in the schedule.");
        }

        return all.ToImmutable();
    }
}
