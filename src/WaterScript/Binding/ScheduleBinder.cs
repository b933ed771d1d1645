using System.Collections.Immutable;
using NodaTime;
using WaterScript.Binding.Validation;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Schedules, and passes outside the calendar.</summary>
internal sealed class ScheduleBinder(StepBinder steps, NameTable<Scale> scales, bool hasPosition, Scope scope)
{
    private const int SecondsInDay = 86_400;

    private readonly StepSum _runs = StepSum.Runs();
    private readonly StepSum _seconds = StepSum.Seconds();

    /// <summary>A schedule.</summary>
    public Schedule Bind(PlacedNode<ScheduleNode> placed, int index)
    {
        var body = new ScheduleBody(placed, scope);
        var days = new DayBinder(scope, placed.Source);
        var isManual = body.One<ManualNode>() is not null;
        if (isManual) CheckManual(body);
        var dayLines = DaysOf(body, days);
        ImmutableArray<DayLine> exceptLines = [.. body.All<ExceptNode>().Select(except => new DayLine(body.At(except.Span), days.Bind(except.Days)))];
        var from = body.One<FromNode>();
        var repeat = body.One<RepeatPassesNode>() is { } repeated ? RepeatFrom(repeated, placed) : null;
        var schedule = new Schedule
        {
            Index = index,
            Name = placed.Node.Name.Text,
            Label = placed.Node.Label?.Value,
            Formerly = body.One<FormerlyNode>()?.Name.Text,
            FormerlyOrigin = body.One<FormerlyNode>() is { } formerly ? body.At(formerly.Name.Span) : null,
            Origin = body.Origin,
            IsManual = isManual,
            Days = [.. dayLines.SelectMany(line => line.Days)],
            DayLines = dayLines,
            Season = from is null ? null : days.Season(from.First, from.To, from.For),
            SeasonOrigin = from is null ? null : body.At(from.Span),
            Except = [.. exceptLines.SelectMany(line => line.Days)],
            ExceptLines = exceptLines,
            Starts = isManual ? [] : StartsOf(body, days),
            Repeat = repeat,
            Cut = body.One<CutNode>() is { } cut ? CutFrom(cut, placed) : null,
            Scale = body.One<UseScaleNode>() is { } use ? ScaleOf(use.Value, placed) : null,
            Note = body.One<NoteNode>()?.Text.Value,
            Steps = StepsOf(body),
        };
        CheckTogether(schedule, body);
        return schedule;
    }

    /// <summary>A pass outside the calendar: a schedule of one date.</summary>
    public Schedule? Extra(PlacedNode<ExtraNode> placed, int index)
    {
        var date = new DateReader(scope, placed.Source).Dated(placed.Node.Date);
        var moment = new MomentBinder(scope, placed.Source, hasPosition).Bind(placed.Node.Time);
        var bound = Limited(steps.Bind(placed.Node.Steps, placed.At(placed.Node.Span)), placed.At(placed.Node.Date.Span));
        if (moment is SunMoment)
            scope.Report(ReadingRules.Syntax, moment.Origin, "an extra pass starts at a clock time", help: "Write it as `extra 2026-07-18 21:00`.");
        if (date is not { } on || moment is not ClockMoment at) return null;
        var name = string.Create(System.Globalization.CultureInfo.InvariantCulture,
            $"extra-{on:uuuu-MM-dd}-{at.SecondOfDay / 3600:00}{at.SecondOfDay / 60 % 60:00}");
        return new Schedule
        {
            Index = index,
            Name = name,
            Label = placed.Node.Label?.Value,
            Origin = placed.At(placed.Node.Date.Span),
            ExtraBecause = placed.Node.Because.Value,
            Days = [new DateRange(on, on)],
            DayLines = [new DayLine(placed.At(placed.Node.Date.Span), [new DateRange(on, on)])],
            Starts = [new StartAt(1, at.Origin, [], at)],
            Steps = bound,
        };
    }

    private ImmutableArray<DayLine> DaysOf(ScheduleBody body, DayBinder days)
    {
        var every = body.One<EveryNode>();
        var on = body.All<OnNode>().ToArray();
        if (every is not null && on.Length > 0)
        {
            scope.Report(Finding.At(ReadingRules.Contradiction, body.At(on[0].Span), "both `every` and `on`") with
            {
                Others = [new Label(body.At(every.Span), "the other")],
                Help = "Keep one of the two.",
            });
        }

        if (every is not null) return days.Interval(every.Interval) is { } interval ? [new DayLine(body.At(every.Span), [interval])] : [];
        return [.. on.Select(node => new DayLine(body.At(node.Span), days.Bind(node.Days)))];
    }

    private ImmutableArray<Start> StartsOf(ScheduleBody body, DayBinder days)
    {
        var moments = new MomentBinder(scope, body.Source, hasPosition);
        var starts = ImmutableArray.CreateBuilder<Start>();
        foreach (var statement in body.Statements)
        {
            var (nodes, dayNodes) = statement switch
            {
                StartAtNode at => (at.Moments, at.On),
                FinishByNode by => (by.Moments, by.On),
                _ => ([], []),
            };
            var on = days.Bind(dayNodes);
            Location? onOrigin = dayNodes.IsEmpty ? null : body.At(TextSpan.Cover(dayNodes[0].Span, dayNodes[^1].Span));
            foreach (var moment in nodes.Select(node => moments.Bind(node)).OfType<Moment>())
            {
                starts.Add(statement is StartAtNode
                    ? new StartAt(starts.Count + 1, moment.Origin, on, moment) { OnOrigin = onOrigin }
                    : new FinishBy(starts.Count + 1, moment.Origin, on, moment) { OnOrigin = onOrigin });
            }

            if (statement is StartAfterNode after) starts.Add(AfterFrom(after, body, starts.Count + 1));
        }

        return starts.DrainToImmutable();
    }

    private StartAfter AfterFrom(StartAfterNode node, ScheduleBody body, int number) => new(
        number,
        body.At(node.Other.Span),
        node.Other.Text,
        node.Delay is null ? Duration.Zero : RowCursor.Length(scope, body.Source, node.Delay, "start after other + 10 min") ?? Duration.Zero);

    private Repeat? RepeatFrom(RepeatPassesNode node, PlacedNode<ScheduleNode> placed)
    {
        var origin = placed.At(node.Span);
        if (RowCursor.Length(scope, placed.Source, node.Every, "repeat every 45 min for 4 passes") is not { } every) return null;
        if (node.Passes is { } passes)
        {
            if (passes.Value < 1 || passes.Value != decimal.Truncate(passes.Value))
            {
                scope.Report(ReadingRules.OutOfRange, placed.At(passes.Span), $"{placed.Source.Slice(passes.Span)} is not a number of passes",
                    "a whole number, 1 or more");
                return null;
            }

            if (passes.Value > Limits.PassesPerDay) ReportTooManyPasses(origin);
            else if ((double)passes.Value * every.TotalDays > Limits.PassDays)
                scope.Report(ReadingRules.OverLimit, origin, $"passes of one date go on for more than {Limits.PassDays} days",
                    help: "Give the schedule more days in place of passes, such as `every 2 weeks on mon`.");
            else
                return new RepeatTimes(origin, every, (int)passes.Value);
            return null;
        }

        if (node.Until is null || new MomentBinder(scope, placed.Source, hasPosition).Bind(node.Until, mayBeEndOfDay: true) is not { } until) return null;
        if (LongestSpan(until, node.NextDay) / every.TotalSeconds <= Limits.PassesPerDay) return new RepeatUntil(origin, every, until, node.NextDay);
        ReportTooManyPasses(origin);
        return null;
    }

    /// <summary>From the start of a date to the moment, at most, in seconds.</summary>
    private static double LongestSpan(Moment until, bool nextDay)
    {
        var end = until switch
        {
            ClockMoment clock => clock.SecondOfDay,
            SunMoment sun => SecondsInDay + Math.Max(0, sun.Offset.TotalSeconds),
            _ => SecondsInDay,
        };
        return end + (nextDay ? SecondsInDay : 0);
    }

    private void ReportTooManyPasses(Location origin) =>
        scope.Report(ReadingRules.OverLimit, origin, $"more than {Limits.PassesPerDay} passes a day",
            help: "Repeat less often, or repeat steps inside a pass.");

    private Cut? CutFrom(CutNode node, PlacedNode<ScheduleNode> placed) =>
        new MomentBinder(scope, placed.Source, hasPosition).Bind(node.At, mayBeEndOfDay: true) is { } at
            ? new Cut(placed.At(node.Span), at, node.NextDay)
            : null;

    private ScaleUse? ScaleOf(RowNode row, PlacedNode<ScheduleNode> placed)
    {
        var cursor = new RowCursor(scope, placed.Source, row, "scale 80 %");
        var origin = placed.At(row.Span);
        if (cursor.IsAtNumber)
        {
            var percent = cursor.Percent(new Bounds(0, 1_000));
            cursor.End();
            return cursor.HasFailed ? null : new ScaleUse(origin, null, percent);
        }

        var name = cursor.Name("the name of a scale");
        cursor.End();
        return !cursor.HasFailed && scales.Use(name, placed.Source) is { } scale ? new ScaleUse(origin, scale.Name, null) : null;
    }

    private ImmutableArray<Step> StepsOf(ScheduleBody body) =>
        body.One<StepsNode>() is { } node ? Limited(steps.Bind(node.Steps, body.At(node.Span)), body.Origin) : [];

    /// <summary>Steps that come to too many runs are not expanded, whoever asks.</summary>
    private ImmutableArray<Step> Limited(ImmutableArray<Step> bound, Location origin)
    {
        if (_runs.Of(bound) > Limits.RunsPerPass)
            scope.Report(ReadingRules.OverLimit, origin, $"a pass of more than {Limits.RunsPerPass} runs",
                help: "Repeat less often, or let the schedule repeat its passes.");
        else if (_seconds.Of(bound) > (decimal)Limits.PassDays * SecondsInDay)
            scope.Report(ReadingRules.OverLimit, origin, $"a pass of more than {Limits.PassDays} days",
                help: "Write several schedules, each with days of its own.");
        else
            return bound;
        return [];
    }

    private void CheckManual(ScheduleBody body)
    {
        foreach (var statement in body.Statements.Where(statement =>
            statement is not (ManualNode or StepsNode or UseScaleNode or NoteNode or FormerlyNode or AcceptNode)))
        {
            scope.Report(Finding.At(ReadingRules.Contradiction, body.At(statement.Span), "a manual schedule has no calendar") with
            {
                Others = [new Label(body.At(body.One<ManualNode>()!.Span), "manual")],
                Help = "Delete this line, or the word `manual`.",
            });
        }
    }

    private void CheckTogether(Schedule schedule, ScheduleBody body)
    {
        if (body.One<StepsNode>() is null) Missing(body, "steps", "steps { water lawn for 10 min }");
        if (schedule.IsManual) return;
        if (!body.HasAny<StartAtNode, FinishByNode, StartAfterNode>()) Missing(body, "start", "start at 06:00");
        if (!body.HasAny<EveryNode, OnNode, StartAfterNode>()) Missing(body, "day", "every day");
        if (schedule.Repeat is RepeatUntil until)
        {
            foreach (var start in schedule.Starts) CheckUntil(start, until, body);
        }

        if (schedule.Cut is { } cut)
        {
            foreach (var start in schedule.Starts.OfType<StartAt>()) CheckOrder(start, cut.At, cut.NextDay, cut.Origin, "the cut comes before the start");
        }
    }

    private void CheckUntil(Start start, RepeatUntil until, ScheduleBody body)
    {
        if (start is FinishBy)
        {
            scope.Report(Finding.At(ReadingRules.Contradiction, until.Origin, "both `finish by` and repeats until a moment") with
            {
                Others = [new Label(start.Origin, "finish by")],
                Help = "Write how many passes, such as `repeat every 45 min for 4 passes`.",
            });
        }
        else if (start is StartAt at)
        {
            CheckOrder(at, until.Until, until.NextDay, until.Origin, "the repeats end before the start");
        }
    }

    private void CheckOrder(StartAt start, Moment end, bool nextDay, Location origin, string heading)
    {
        if (nextDay || start.Moment is not ClockMoment from || end is not ClockMoment to || to.SecondOfDay >= from.SecondOfDay) return;
        var after = new Location(end.Origin.Source, new TextSpan(end.Origin.Span.End, 0));
        scope.Report(Finding.At(ReadingRules.Contradiction, end.Origin, heading, "is earlier than the start") with
        {
            Others = [new Label(start.Origin, "the start")],
            Help = "Write `next day` after it, or correct one of the two times.",
            Fix = Fix.Unsafe("write next day", after, " next day"),
        });
    }

    /// <summary>Where a statement of the schedule could not be read, what is missing may be just that one.</summary>
    private void Missing(ScheduleBody body, string what, string form)
    {
        if (scope.Findings.Any(finding => finding.Severity == Severity.Error && body.Contains(finding.Primary.Location))) return;
        scope.Report(ReadingRules.Missing, body.Origin, $"schedule \"{body.Name}\" has no {what}", help: $"Add a line such as `{form}`.");
    }
}
