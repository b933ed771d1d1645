using System.Globalization;
using System.Text;
using NodaTime.Text;
using WaterScript.Documents.Reports;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Writers;
using WaterScript.Quantities;

namespace WaterScript.Answers.Usage;

/// <summary>Water used, for programs: as JSON, or as a table (RFC 4180).</summary>
internal static class UsageJson
{
    /// <summary>Digits after the point: a millionth of a litre is nothing.</summary>
    private const int Digits = 6;

    /// <summary>Writes JSON.</summary>
    /// <param name="usage">The answer.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(WaterUsage usage, Stream output)
    {
        ArgumentNullException.ThrowIfNull(usage);
        JsonDocuments.Write(output, Of(usage), new UsageContext(JsonDocuments.Options()).UsageDocument);
    }

    /// <summary>Writes the rows as CSV, without totals.</summary>
    /// <param name="usage">The answer.</param>
    /// <param name="output">Stays open.</param>
    public static void WriteCsv(WaterUsage usage, Stream output)
    {
        ArgumentNullException.ThrowIfNull(usage);
        string[] cost = usage.Costs.Currency is null ? [] : ["cost"];
        Line(output, [.. usage.By.Select(axis => axis.Word), "volume_l", "depth_mm", "seconds", "openings", .. cost]);
        foreach (var row in usage.Rows)
        {
            var item = Of(row, usage);
            string[] numbers = [Number(item.Volume), Number(item.Depth), Number(item.Seconds), Number(item.Openings)];
            Line(output, [.. usage.By.Select(axis => NameOn(axis, item) ?? ""), .. numbers, .. cost.Select(_ => item.Cost ?? "")]);
        }
    }

    private static UsageDocument Of(WaterUsage usage) => new()
    {
        Site = usage.Site.Name,
        TimeZoneData = usage.Site.TimeZoneData,
        Sha256 = SiteHash.Of(usage.Site),
        From = LocalDatePattern.Iso.Format(usage.Horizon.From),
        Until = LocalDatePattern.Iso.Format(usage.Horizon.Until),
        By = usage.By.Select(axis => axis.Word),
        Rows = usage.Rows.Select(row => Of(row, usage)),
        Devices = usage.Devices.Select(use => new UsageDeviceItem
        {
            Name = use.Device.Name,
            Seconds = use.Seconds,
            Starts = use.Starts,
            Energy = use.WattHours?.ToDecimal(Digits),
        }),
        Meters = usage.Meters.Select(meter => UsageBills.Of(meter, usage.Site)),
        Allowances = usage.Allowances.Select(use => new UsageAllowanceItem
        {
            Restriction = use.Restriction.Name,
            Period = use.Line.Period.ToString().ToLowerInvariant(),
            From = UsagePeriods.Write(UsageAxis.Day, use.Start),
            Zone = use.Zone?.Name,
            Used = use.Litres.ToDecimal(Digits),
            Limit = Fraction.Of(use.Line.Volume!.Value).ToDecimal(Digits),
            Place = new PlaceItem(use.Line.Origin),
        }),
        Batteries = usage.Batteries.Select(use => new UsageBatteryItem
        {
            Controller = use.Owner.Name,
            Full = WattHours(use.Full),
            Drawn = WattHours(use.Drawn),
            Brought = use.Brought is { } brought ? WattHours(brought) : null,
            Least = use.Least is { } least ? WattHours(least) : null,
            LeastOn = use.Least is null ? null : UsagePeriods.Write(UsageAxis.Day, use.LeastOn),
            DaysWithoutSun = use.DaysWithoutSun,
            Place = new PlaceItem(use.Owner.Power!.Battery!.Origin),
        }),
        Missing = usage.Unmeasured.Select(zone => new UsageGapItem { Zone = zone.Name, What = "flow", Place = new PlaceItem(zone.Origin) }),
    };

    private static decimal WattHours(decimal joules) => Math.Round(BatteryUse.InWattHours(joules), Digits);

    private static UsageItem Of(UsageRow row, WaterUsage usage)
    {
        string? On(UsageAxis axis) => usage.By.IndexOf(axis) switch
        {
            0 => NameOf(axis, row.First, usage),
            1 => NameOf(axis, row.Second, usage),
            _ => null,
        };
        return new UsageItem
        {
            Day = On(UsageAxis.Day),
            Week = On(UsageAxis.Week),
            Month = On(UsageAxis.Month),
            Year = On(UsageAxis.Year),
            Zone = On(UsageAxis.Zone),
            Schedule = On(UsageAxis.Schedule),
            Supply = On(UsageAxis.Supply),
            Volume = row.IsUnknown ? null : row.Litres.ToDecimal(Digits),
            InPart = row is { IsInPart: true, IsUnknown: false } ? true : null,
            Depth = row.Depth?.ToDecimal(Digits),
            Seconds = row.Seconds,
            Openings = row.Openings,
            Cost = usage.Costs.Of(row, usage.By) is { } cost ? Fraction.Text(cost, usage.Costs.Currency!.Digits) : null,
        };
    }

    private static string? NameOf(UsageAxis axis, int place, WaterUsage usage) => axis switch
    {
        UsageAxis.Zone => usage.Site.Zones[place].Name,
        UsageAxis.Schedule => usage.Site.Schedules[place].Name,
        UsageAxis.Supply => place < usage.Site.Supplies.Length ? usage.Site.Supplies[place].Name : null,
        _ => UsagePeriods.Write(axis, place),
    };

    private static string? NameOn(UsageAxis axis, UsageItem item) => axis switch
    {
        UsageAxis.Zone => item.Zone,
        UsageAxis.Schedule => item.Schedule,
        UsageAxis.Supply => item.Supply,
        UsageAxis.Day => item.Day,
        UsageAxis.Week => item.Week,
        UsageAxis.Month => item.Month,
        _ => item.Year,
    };

    private static string Number(decimal? number) => number?.ToString(CultureInfo.InvariantCulture) ?? "";

    /// <summary>Names are of letters, digits and hyphens, so that no field has to be quoted.</summary>
    private static void Line(Stream output, IEnumerable<string> fields) => output.Write(Encoding.UTF8.GetBytes(string.Join(',', fields) + "\r\n"));
}
