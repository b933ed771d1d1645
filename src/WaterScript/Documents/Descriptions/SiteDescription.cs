using NodaTime;
using NodaTime.Text;
using WaterScript.Agronomy;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Writers;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Documents.Descriptions;

/// <summary>What a site is, once understood: names resolved, quantities in units derived from the SI that their keys name.</summary>
internal sealed class SiteDescription(Site site)
{
    /// <summary>Writes the entries of the site itself.</summary>
    public void WriteSite(DocumentWriter writer)
    {
        writer.Entry("name", site.Name);
        writer.Entry("label", site.Label);
        writer.Entry(Schema.Site.TimeZone.Key, site.TimeZone.Id);
        writer.Entry(Schema.Site.Effective, site.Effective);
        if (site.Position is { } position) writer.Map(Schema.Site.Location.Key, () => WritePosition(writer, position), Layout.OneLine);
    }

    /// <summary>Writes what the site consists of, from its supplies to its schedules.</summary>
    public void WriteParts(DocumentWriter writer)
    {
        if (!site.Tariffs.IsEmpty) writer.List("tariffs", site.Tariffs, tariff => writer.Map(() => TariffDescription.Write(writer, tariff)));
        writer.List("supplies", site.Supplies, supply => writer.Map(() => WriteSupply(writer, supply)));
        writer.List("controllers", site.Controllers, controller => writer.Map(() => WriteController(writer, controller)));
        writer.List("valves", site.Valves, valve => writer.Map(() => WriteValve(writer, valve)));
        writer.List("pumps", site.Devices, device => writer.Map(() => WriteDevice(writer, device)));
        writer.List("zones", site.Zones, zone => writer.Map(() => WriteZone(writer, zone)));
        new GroundDescription(site, writer).Write();
        if (!site.Scales.IsEmpty) writer.List("scales", site.Scales, scale => writer.Map(() => WriteScale(writer, scale)));
        if (!site.Holds.IsEmpty) writer.List("holds", site.Holds, hold => writer.Map(() => WriteHold(writer, hold)));
        if (!site.ClosedSeasons.IsEmpty) writer.List("closed", site.ClosedSeasons, closed => writer.Map(() => WriteClosed(writer, closed)));
        new ScheduleDescription(site, writer).Write();
    }

    private static void WritePosition(DocumentWriter writer, Position position)
    {
        writer.Entry("latitude", Measure.Rounded((decimal)position.Latitude));
        writer.Entry("longitude", Measure.Rounded((decimal)position.Longitude));
        writer.Entry("height_m", Base(position.Height));
    }

    private static void WriteSupply(DocumentWriter writer, Supply supply)
    {
        writer.Entry("name", supply.Name);
        writer.Entry("label", supply.Label);
        writer.Entry(Schema.Supply.Flow, supply.Flow);
        writer.Entry(Schema.Supply.MinimumFlow, supply.MinimumFlow);
        writer.Entry(Schema.Supply.Bypass, supply.HasBypass);
        writer.Entry(Schema.Supply.PressureTank, supply.PressureTank?.Value);
        writer.Entry(Schema.Supply.Tank, supply.Tank);
        writer.Entry(Schema.Supply.Contains, supply.Contains, supply.ContainsOn);
        writer.Entry(Schema.Supply.Refill.Keys[0].Name, Base(supply.Refill));
        writer.Entry(Schema.Supply.Refill.Keys[1].Name, Base(supply.RefillFrom));
        writer.Entry(Schema.Supply.Refill.Keys[2].Name, Base(supply.RefillTo));
        writer.Entry(Schema.Supply.Catchment, supply.CatchmentArea, supply.CatchmentPercent);
        writer.Entry(Schema.Supply.Reserve, supply.Reserve);
        writer.Entry(Schema.Supply.Daily, supply.Daily);
        if (supply.Change is { } change) writer.Entry(Schema.Supply.Change.Keys[change.IsOverlap ? 1 : 0].Name, Measure.Seconds(change.Length));
        writer.Entry(Schema.Supply.FedBy, supply.FedBy?.Name);
        writer.EntryIf(Schema.Supply.Backflow.Key, supply.HasAtmosphericBackflow);
        writer.Entry(Schema.Supply.Tariff, supply.Tariff?.Name);
        if (supply.OtherUse is { Value: var use }) TariffDescription.Write(writer, use);
    }

    private static void WriteController(DocumentWriter writer, Controller controller)
    {
        writer.Entry("name", controller.Name);
        writer.Entry("label", controller.Label);
        writer.Entry(Schema.Controller.Outputs, controller.Outputs);
        writer.Entry(Schema.Controller.StaggerTime, controller.Stagger);
        writer.Entry(Schema.Controller.AtMost, controller.AtMostZones);
        if (controller.SchedulesMayOverlap is { } mayOverlap) writer.Entry(Schema.Controller.Schedules.Key, mayOverlap);
        writer.Entry(Schema.Controller.Clock, controller.ClockWithin);
        if (controller.Power is { } power) writer.Map("power", () => WritePower(writer, power));
    }

    private static void WritePower(DocumentWriter writer, Power power)
    {
        writer.Entry(Schema.Power.Transformer, power.Transformer, power.TransformerVoltage);
        writer.Entry(Schema.Power.Continuous, power.Continuous, power.ContinuousVoltage);
        writer.Entry(Schema.Power.Peak, power.Peak);
        writer.Entry(Schema.Power.Capacitor, power.Capacitor, power.CapacitorVoltage);
        writer.Entry(Schema.Power.Recharge, power.Recharge, power.RechargeEfficiencyPercent);
        BatteryDescription.Write(writer, power);
    }

    private static void WriteValve(DocumentWriter writer, Valve valve)
    {
        writer.Entry("name", valve.Name);
        writer.Entry("label", valve.Label);
        switch (valve)
        {
            case LatchingValve latching:
                writer.Entry("kind", "latching");
                writer.Entry(Schema.LatchingValve.PulseTime, latching.Pulse);
                writer.Entry(Schema.LatchingValve.ResponseTime, latching.ResponseTime);
                writer.Entry(Schema.LatchingValve.Coil, latching.Coil);
                writer.Entry(Schema.LatchingValve.MinimumVoltage, latching.MinimumVoltage);
                break;
            case NonLatchingValve nonLatching:
                writer.Entry("kind", "non-latching");
                writer.Entry(Schema.NonLatchingValve.Inrush, nonLatching.Inrush);
                writer.Entry(Schema.NonLatchingValve.Holding, nonLatching.Holding);
                writer.Entry(Schema.NonLatchingValve.MinimumVoltage, nonLatching.MinimumVoltage);
                break;
            default:
                throw new ArgumentOutOfRangeException(nameof(valve), valve, "a kind of valve that no output describes");
        }
    }

    private static void WriteDevice(DocumentWriter writer, Device device)
    {
        writer.Entry("name", device.Name);
        writer.Entry("label", device.Label);
        writer.Entry("kind", OpeningFields.WordOf(device.Kind));
        WriteOutput(writer, Schema.Device.Output, device.Controller, device.WrittenOutput);
        if (!device.FurtherOutputs.IsEmpty)
            writer.List(Schema.Device.Output.Keys[2].Name, device.FurtherOutputs, further => writer.Map(
                () => WriteOutput(writer, Schema.Device.Output, further.Controller, further.Number), Layout.OneLine));
        writer.Entry(Schema.Device.Supply, device.Supply?.Name);
        writer.List(Schema.Device.Zones.Key, device.Zones, zone => writer.Text(zone.Name), Layout.OneLine);
        writer.Entry(Schema.Device.Flow, device.Flow);
        writer.Entry(Schema.Device.Motor, device.Motor);
        writer.Entry(Schema.Device.Load, device.Load);
        writer.Entry(Schema.Device.Valve, device.Valve?.Name);
        writer.Entry(Schema.Device.Inrush, device.Inrush);
        writer.Entry(Schema.Device.MinimumVoltage, device.MinimumVoltage);
        writer.Entry(Schema.Device.Wire, device.Wire);
        writer.Entry(Schema.Device.Starts, device.StartsAfter);
        writer.Entry(Schema.Device.Stops, device.StopsAfter);
        writer.Entry(Schema.Device.Bridges, device.Bridges);
        writer.Entry(Schema.Device.AtMost, device.StartsAnHour);
        writer.Entry(Schema.Injector.After, device.After);
        writer.Entry(Schema.Injector.Rinse, device.Rinse);
        writer.Entry(Schema.Injector.Doses, device.Doses);
    }

    private static void WriteZone(DocumentWriter writer, Zone zone)
    {
        writer.Entry("name", zone.Name);
        writer.Entry("label", zone.Label);
        WriteOutput(writer, Schema.Zone.Output, zone.Controller, zone.WrittenOutput);
        writer.Entry(Schema.Zone.HandWatered, zone.IsHandWatered);
        writer.Entry(Schema.Zone.Valve, zone.Valve?.Name);
        writer.Entry(Schema.Zone.Supply, zone.Supply?.Name);
        writer.Entry(Schema.Zone.Flow.Key, Measure.Rounded(zone.LitresPerMinute));
        writer.Entry(Schema.Zone.Emitters.Key, Measure.Rounded(zone.Emitters));
        writer.Entry(Schema.Zone.Area, zone.Area);
        writer.Entry(Schema.Zone.Rate.Key, Measure.Rounded(zone.MillimetresPerHour));
        writer.Entry(Schema.Zone.Method, WordOf(zone.Method));
        writer.Entry(Schema.Zone.Efficiency, zone.EfficiencyPercent);
        writer.Entry(Schema.Zone.Uniformity, zone.UniformityPercent);
        writer.Entry(Schema.Zone.Returns.Keys[0].Name, Measure.Rounded(zone.Returns?.Value.Percent));
        writer.Entry(Schema.Zone.Returns.Keys[1].Name, zone.Returns?.Value.Supply.Name);
        writer.Entry(Schema.Zone.Soil, zone.Soil?.Name);
        writer.Entry(Schema.Zone.Slope, zone.SlopePercent);
        writer.Entry(Schema.Zone.Plants, zone.WatersNoPlants ? PlantTable.None : zone.Plants?.Name);
        writer.Entry(Schema.Zone.Trim, zone.TrimPercent);
        writer.Entry(Schema.Zone.Longest, zone.Longest);
        writer.Entry(Schema.Zone.Shortest, zone.Shortest);
        writer.Entry(Schema.Zone.Rest, zone.Rest);
        writer.Entry(Schema.Zone.NeverDryFor, zone.NeverDryFor);
        writer.Entry(Schema.Zone.Wire, zone.Wire);
        writer.Entry(Schema.Zone.Spare, zone.IsSpare);
    }

    private static void WriteScale(DocumentWriter writer, Scale scale)
    {
        writer.Entry("name", scale.Name);
        writer.Entry("label", scale.Label);
        switch (scale)
        {
            case MonthlyScale monthly:
                writer.Map(Schema.Scale.Months[0].Key, () => MonthShares.Write(writer, monthly.Percents), Layout.OneLine);
                break;
            case DatedScale dated:
                writer.List(Schema.Scale.Since.Key, dated.Since, since => writer.Map(() => WriteSince(writer, since.From, since.Percent), Layout.OneLine));
                break;
            default:
                writer.EntryIf(Schema.Scale.By.Key, true);
                break;
        }
    }

    private static void WriteSince(DocumentWriter writer, LocalDate from, decimal percent)
    {
        writer.Entry("from", LocalDatePattern.Iso.Format(from));
        writer.Entry("percent", Measure.Rounded(percent));
    }

    private static void WriteHold(DocumentWriter writer, Hold hold)
    {
        if (!hold.Zones.IsEmpty) writer.List("zones", hold.Zones, zone => writer.Text(zone.Name), Layout.OneLine);
        writer.Entry("from", LocalDateTimePattern.ExtendedIso.Format(hold.From));
        if (hold.Until is { } until) writer.Entry("until", LocalDateTimePattern.ExtendedIso.Format(until));
        writer.Entry("for_s", Measure.Seconds(hold.For));
        writer.Entry("because", hold.Because);
    }

    private static void WriteClosed(DocumentWriter writer, ClosedSeason closed)
    {
        writer.Map("days", () => DayDescription.Write(writer, closed.Days, countedFrom: ""), Layout.OneLine);
        writer.Entry("because", closed.Because);
    }

    private static void WriteOutput(DocumentWriter writer, Property property, Controller? controller, int? output)
    {
        writer.Entry(property.Keys[0].Name, controller?.Name);
        writer.Entry(property.Keys[1].Name, output);
    }

    private static string? WordOf(IrrigationMethod method) => method switch
    {
        IrrigationMethod.Drip => "drip",
        IrrigationMethod.Bubbler => "bubbler",
        IrrigationMethod.Spray => "spray",
        IrrigationMethod.Rotor => "rotor",
        IrrigationMethod.Mist => "mist",
        _ => null,
    };

    private static decimal? Base(Quantity? quantity) => Measure.Rounded(quantity?.InBase);
}
