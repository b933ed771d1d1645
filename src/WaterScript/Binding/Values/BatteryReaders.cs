using System.Collections.Immutable;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax;

namespace WaterScript.Binding.Values;

/// <summary>A battery as written: its numbers, or the controller that has it.</summary>
internal readonly record struct BatteryValue(Quantity Capacity, Quantity Voltage, NameNode? Of);

/// <summary>Dates as written, separated by commas.</summary>
internal sealed record DatesValue(ImmutableArray<DateNode> Dates);

/// <summary>Reads what is said of batteries.</summary>
internal static class BatteryReaders
{
    /// <summary>Reads a value of a battery; null when it could not be read, which is reported.</summary>
    public static object? ValueOf(PropertyType type, RowCursor row) => type switch
    {
        BatteryType => Battery(row),
        ColdLossType => ColdLoss(row),
        SolarPanelType => Panel(row),
        _ => Renewals(row),
    };

    private static BatteryValue? Battery(RowCursor row)
    {
        if (row.Accept("of")) return row.Name("the name of a controller") is { } name ? new BatteryValue(default, default, name) : null;
        return row.Quantity(Dimension.Charge, Bounds.Positive) is { } capacity && row.Expect("at")
            && row.Quantity(Dimension.Voltage, Bounds.Positive) is { } voltage
            ? new BatteryValue(capacity, voltage, Of: null)
            : null;
    }

    private static decimal? ColdLoss(RowCursor row) =>
        row.Percent(ColdLossType.Bounds) is { } percent && row.Expect("per") && row.Expect("C") ? percent : null;

    private static SolarPanel? Panel(RowCursor row)
    {
        if (row.Quantity(Dimension.Power, Bounds.Positive) is not { } power) return null;
        var (tilt, efficiency) = (default(Quantity?), default(decimal?));
        if (row.Accept("tilt") && (tilt = row.Quantity(Dimension.Angle, SolarPanelType.Tilt)) is null) return null;
        if (row.Accept("efficiency") && (efficiency = row.Percent(Bounds.ShareOfWhole)) is null) return null;
        return new SolarPanel(power, tilt, efficiency);
    }

    private static DatesValue? Renewals(RowCursor row)
    {
        if (!row.Expect("on")) return null;
        var dates = ImmutableArray.CreateBuilder<DateNode>();
        do
        {
            if (row.DateAsWritten() is not { } date) return null;
            dates.Add(date);
        }
        while (row.AcceptNextOfList());
        return new DatesValue(dates.DrainToImmutable());
    }
}
