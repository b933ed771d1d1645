using NodaTime;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics.Reading;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Restrictions: local rules as the user read them.</summary>
internal sealed class RestrictionBinder(ZoneListBinder lists, bool hasPosition, Scope scope)
{
    private const string AtMostForm = "at most 3 days a week, at most 15 min a day per zone, at most 19 mm a day per zone, at most 20 m3 a month, or " +
        "at most 1 zone at a time";

    /// <summary>A restriction.</summary>
    public Restriction Bind(PlacedNode<RestrictionNode> placed)
    {
        var body = placed.Node.Body;
        var days = new DayBinder(scope, placed.Source);
        foreach (var second in body.Where(node => node is FromNode or WeekStartsNode).GroupBy(node => node.GetType()).SelectMany(group => group.Skip(1)))
            scope.Report(ReadingRules.StatedTwice, placed.At(second.Span), "stated twice", "the second time", "Delete one of the two.");
        var season = body.OfType<FromNode>().FirstOrDefault() is { } from ? days.Season(from.First, from.To, from.For) : null;
        return new Restriction
        {
            Name = placed.Node.Name.Text,
            Label = placed.Node.Label?.Value,
            Origin = placed.At(placed.Node.Name.Span),
            Zones = [.. body.OfType<ForZonesNode>().SelectMany(node => lists.Set(node.Zones, placed.Source)).DistinctBy(zone => zone.Index)],
            Season = season,
            AllowedDays = [.. body.OfType<AllowDaysNode>().SelectMany(node => days.Bind(node.Days))],
            DaysOrigin = body.FirstOrDefault(node => node is AllowDaysNode or ExceptNode) is { } first ? placed.At(first.Span) : null,
            Except = [.. body.OfType<ExceptNode>().SelectMany(node => days.Bind(node.Days))],
            AllowedHours = [.. body.OfType<AllowHoursNode>().Select(node => HoursOf(node, placed)).OfType<Hours>()],
            AtMost = [.. body.OfType<AtMostNode>().Select(node => AtMostOf(node, placed, season)).OfType<AtMost>()],
            Exempt = [.. body.OfType<ExemptNode>().Select(node => ExemptionOf(node, placed, days))],
            WeekStarts = body.OfType<WeekStartsNode>().FirstOrDefault() is { } week ? days.Weekday(week.Weekday) ?? IsoDayOfWeek.Monday : IsoDayOfWeek.Monday,
        };
    }

    private Hours? HoursOf(AllowHoursNode node, PlacedNode<RestrictionNode> placed)
    {
        var moments = new MomentBinder(scope, placed.Source, hasPosition);
        var from = moments.Bind(node.From);
        var to = moments.Bind(node.To, mayBeEndOfDay: true);
        return from is null || to is null ? null : new Hours(placed.At(node.Span), from, to);
    }

    private Exemption ExemptionOf(ExemptNode node, PlacedNode<RestrictionNode> placed, DayBinder days) => new(
        placed.At(node.Span),
        lists.Set(node.Zones, placed.Source),
        node.From is null ? null : days.Season(node.From, node.To, node.For));

    private AtMost? AtMostOf(AtMostNode node, PlacedNode<RestrictionNode> placed, Season? season)
    {
        var row = new RowCursor(scope, placed.Source, node.Value, AtMostForm);
        var limit = LimitOf(row, placed.At(node.Span));
        row.End();
        if (row.HasFailed || limit?.Period != LimitPeriod.Season || HasEnd(season)) return row.HasFailed ? null : limit;
        if (!placed.Node.Body.OfType<FromNode>().Any(from => scope.HasFindingIn(placed.At(from.Span)))) ReportEndless(limit.Origin);
        return null;
    }

    private static bool HasEnd(Season? season) =>
        season is not null && (season.Span is not DateRange range || range.Last != LocalDate.MaxIsoValue);

    private void ReportEndless(Location origin) => scope.Report(ReadingRules.Missing, origin, "the season has no first and last date",
        "counted over the restriction's own dates", "Add a line such as `from 1 jun to 30 sep`.");

    private static AtMost? LimitOf(RowCursor row, Location origin)
    {
        if (row.AcceptCount("days", "day") is { } days) return row.Expect("a") && row.Expect("week") ? Limit(row, origin, LimitKind.DaysAWeek, days) : null;
        if (row.AcceptCount("zones", "zone") is { } zones)
            return row.Expect("at") && row.Expect("a") && row.Expect("time") ? new AtMost(origin, LimitKind.ZonesAtATime, zones, PerZone: false) : null;
        if (row.AcceptCount("times", "time") is { } times)
        {
            row.Scope.Report(ReadingRules.Syntax, row.Location, "times are not counted here, but days", "days of a week on which there is water",
                $"Write at most {times} {(times == 1 ? "day" : "days")} a week");
            row.Rest();
            return null;
        }

        if (row.AnyQuantity() is not { } amount || !row.Expect("a")) return null;
        if (amount.Dimension == Dimension.Volume) return VolumeLimit(row, origin, amount);
        if (!row.Expect("day")) return null;
        if (amount.Dimension == Dimension.Time) return Limit(row, origin, LimitKind.TimeADay, amount.InBase);
        if (amount.Dimension == Dimension.Depth) return Limit(row, origin, LimitKind.DepthADay, amount.InBase);
        row.Scope.Report(ReadingRules.WrongUnit, row.Location, $"{amount} a day is not a limit here", "a time, a depth or a volume is needed",
            $"Write it as `{AtMostForm}`.");
        return null;
    }

    /// <summary><c>20 m3 a month per zone</c></summary>
    private static AtMost? VolumeLimit(RowCursor row, Location origin, Quantity volume)
    {
        if (row.OneOf("day", "week", "month", "season", "year") is not { } word) return null;
        var period = word switch
        {
            "day" => LimitPeriod.Day,
            "week" => LimitPeriod.Week,
            "month" => LimitPeriod.Month,
            "season" => LimitPeriod.Season,
            _ => LimitPeriod.Year,
        };
        return Limit(row, origin, LimitKind.Volume, volume.InBase) with { Period = period, Volume = volume };
    }

    private static AtMost Limit(RowCursor row, Location origin, LimitKind kind, decimal amount) =>
        new(origin, kind, amount, row.Accept("per") && row.Expect("zone"));
}
