using NodaTime;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Syntax.Tokens;

namespace WaterScript.Binding;

/// <summary>Holds and closed seasons.</summary>
internal sealed class HoldBinder(ZoneListBinder lists, Scope scope)
{
    /// <summary>A hold; null when its dates could not be read.</summary>
    public Hold? Bind(PlacedNode<HoldNode> placed)
    {
        var node = placed.Node;
        var zones = node.Zones is null ? [] : lists.Set(node.Zones, placed.Source);
        if (node.Zones is not null && zones.IsEmpty) return null;
        if (MomentOf(node.From, node.FromTime, placed) is not { } from) return null;
        var origin = placed.At(node.Span);
        if (node.UntilLifted) return new Hold(origin, zones, from, Until: null, For: null, node.Because.Value);
        if (node.For is not null)
            return RowCursor.Length(scope, placed.Source, node.For, "hold from 2026-07-01 for 3 days because \"new seed\"") is { } length
                ? new Hold(origin, zones, from, Until: null, length, node.Because.Value)
                : null;
        if (node.To is null || EndOf(node.To, node.ToTime, placed) is not { } until) return null;
        if (until > from) return new Hold(origin, zones, from, until, For: null, node.Because.Value);
        scope.Report(ReadingRules.OutOfRange, placed.At(node.To.Span), "the hold ends before it begins", help: "Exchange the two dates.");
        return null;
    }

    /// <summary>A closed season; null when its dates could not be read.</summary>
    public ClosedSeason? Bind(PlacedNode<ClosedNode> placed)
    {
        var dates = new DateReader(scope, placed.Source);
        if (new[] { placed.Node.From, placed.Node.To }.FirstOrDefault(end => !DateReader.IsYearly(end)) is { } dated)
        {
            scope.Report(ReadingRules.Contradiction, placed.At(dated.Span), "a closed season comes back every year, and this day does not",
                help: "Write both days without a year, such as `closed from 1 nov to 15 mar`; a span of one year is a hold.");
            return null;
        }

        var from = dates.Yearly(placed.Node.From);
        var to = dates.Yearly(placed.Node.To);
        return from is { } first && to is { } last
            ? new ClosedSeason(placed.At(placed.Node.Span), new YearlyRange(first, last), placed.Node.Because.Value)
            : null;
    }

    private LocalDateTime? EndOf(DateNode date, MomentNode? time, PlacedNode<HoldNode> placed)
    {
        if (time is not null) return MomentOf(date, time, placed);
        return new DateReader(scope, placed.Source).Dated(date) is { } last ? last.PlusDays(1).AtMidnight() : null;
    }

    private LocalDateTime? MomentOf(DateNode date, MomentNode? time, PlacedNode<HoldNode> placed)
    {
        var day = new DateReader(scope, placed.Source).Dated(date);
        if (time is null) return day?.AtMidnight();
        var moment = time.Base.Kind == TokenKind.Clock ? new MomentBinder(scope, placed.Source, hasPosition: false).Bind(time) : null;
        if (moment is null && time.Base.Kind != TokenKind.Clock)
            scope.Report(ReadingRules.Syntax, placed.At(time.Span), "a hold begins and ends at clock times", help: "Write a time, such as `06:30`.");
        return day is { } on && moment is ClockMoment clock ? on.AtMidnight().PlusSeconds(clock.SecondOfDay) : null;
    }
}
