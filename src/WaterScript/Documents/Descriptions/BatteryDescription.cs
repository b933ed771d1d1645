using NodaTime.Text;
using WaterScript.Documents.Writers;
using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Documents.Descriptions;

/// <summary>The battery that a controller lives on, as written.</summary>
internal static class BatteryDescription
{
    /// <summary>Writes the entries of a battery, or of the controller that has it.</summary>
    public static void Write(DocumentWriter writer, Power power)
    {
        var battery = power.Battery;
        writer.Entry(Schema.Power.Battery.Keys[0].Name, Measure.Rounded(battery?.Capacity.InBase));
        writer.Entry(Schema.Power.Battery.Keys[1].Name, Measure.Rounded(battery?.Voltage.InBase));
        writer.Entry(Schema.Power.Battery.Keys[2].Name, power.BatteryOf?.Value.Controller);
        writer.Entry(Schema.Power.Standby, power.Standby);
        if (battery is null) return;
        writer.Entry(Schema.Power.Usable, battery.WrittenUsable);
        writer.Entry(Schema.Power.ColdLoss.Keys[0].Name, Measure.Rounded(battery.ColdLossPercent?.Value));
        writer.Entry(Schema.Power.SolarPanel.Keys[0].Name, Measure.Rounded(battery.Panel?.Value.Power.InBase));
        writer.Entry(Schema.Power.SolarPanel.Keys[1].Name, Measure.Rounded(battery.Panel?.Value.Tilt?.InBase));
        writer.Entry(Schema.Power.SolarPanel.Keys[2].Name, Measure.Rounded(battery.Panel?.Value.EfficiencyPercent));
        if (!battery.Renewals.IsEmpty)
            writer.List(Schema.Power.Renewed.Keys[0].Name, battery.Renewals, renewal => writer.Text(Written(renewal)), Layout.OneLine);
        writer.Entry(Schema.Power.Autonomy.Keys[0].Name, battery.AutonomyDays?.Value);
    }

    private static string Written(Renewal renewal) => renewal.Date is { } date ? LocalDatePattern.Iso.Format(date) : DayDescription.Text(renewal.Day);
}
