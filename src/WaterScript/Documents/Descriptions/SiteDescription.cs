using NodaTime;
using NodaTime.Text;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Writers;
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
        writer.Entry("timezone", site.TimeZone.Id);
        writer.Entry("effective", LocalDatePattern.Iso.Format(site.Effective));
        if (site.Position is { } position) writer.Map("location", () => WritePosition(writer, position), Layout.OneLine);
    }

    /// <summary>Writes what the site consists of, from its supplies to its schedules.</summary>
    public void WriteParts(DocumentWriter writer)
    {
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
        writer.Entry("flow_l_per_min", Base(supply.Flow));
        writer.Entry("minimum_flow_l_per_min", Base(supply.MinimumFlow));
        writer.EntryIf("bypass", supply.HasBypass);
        writer.Entry("vessel_l", Base(supply.Vessel));
        writer.Entry("tank_l", Base(supply.Tank));
        writer.Entry("contains_l", Base(supply.Contains));
        if (supply.ContainsOn is { } date) writer.Entry("contains_on", LocalDatePattern.Iso.Format(date));
        writer.Entry("refill_l_per_min", Base(supply.Refill));
        writer.Entry("catches_m2", Base(supply.CatchArea));
        writer.Entry("catches_percent", Measure.Rounded(supply.CatchPercent));
        writer.Entry("reserve_l", Base(supply.Reserve));
        writer.Entry("daily_l", Base(supply.Daily));
        if (supply.Change is { } change) writer.Entry(change.IsOverlap ? "change_overlap_s" : "change_gap_s", Measure.Seconds(change.Length));
        writer.Entry("fed_by", supply.FedBy?.Name);
        writer.EntryIf("atmospheric_backflow", supply.HasAtmosphericBackflow);
    }

    private static void WriteController(DocumentWriter writer, Controller controller)
    {
        writer.Entry("name", controller.Name);
        writer.Entry("label", controller.Label);
        writer.Entry("outputs", controller.Outputs);
        writer.Entry("spacing_ms", Measure.Milliseconds(controller.Spacing));
        writer.Entry("at_most_zones", controller.AtMostZones);
        if (controller.SchedulesMayOverlap is { } mayOverlap) writer.Entry("schedules_may_overlap", mayOverlap);
        writer.Entry("clock_within_s", Measure.Seconds(controller.ClockWithin));
        if (controller.Power is { } power) writer.Map("power", () => WritePower(writer, power));
    }

    private static void WritePower(DocumentWriter writer, Power power)
    {
        writer.Entry("transformer_va", Base(power.Transformer));
        writer.Entry("transformer_v", Base(power.TransformerVoltage));
        writer.Entry("continuous_a", Base(power.Continuous));
        writer.Entry("continuous_v", Base(power.ContinuousVoltage));
        writer.Entry("peak_a", Base(power.Peak));
        writer.Entry("store_uf", Base(power.Store));
        writer.Entry("store_v", Base(power.StoreVoltage));
        writer.Entry("recharge_w", Base(power.Recharge));
        writer.Entry("recharge_efficiency_percent", Measure.Rounded(power.RechargeEfficiencyPercent));
    }

    private static void WriteValve(DocumentWriter writer, Valve valve)
    {
        writer.Entry("name", valve.Name);
        writer.Entry("label", valve.Label);
        writer.Entry("kind", valve is LatchingValve ? "latching" : "non-latching");
        if (valve is LatchingValve latching)
        {
            writer.Entry("pulse_ms", Measure.Milliseconds(latching.Pulse));
            writer.Entry("moves_in_ms", Measure.Milliseconds(latching.MovesIn));
            writer.Entry("coil_ohm", Base(latching.Coil));
        }
        else if (valve is NonLatchingValve nonLatching)
        {
            writer.Entry("inrush_a", Base(nonLatching.Inrush));
            writer.Entry("holding_a", Base(nonLatching.Holding));
        }

        writer.Entry("works_from_v", Base(valve.WorksFrom));
    }

    private static void WriteDevice(DocumentWriter writer, Device device)
    {
        writer.Entry("name", device.Name);
        writer.Entry("label", device.Label);
        writer.Entry("kind", OpeningFields.WordOf(device.Kind));
        WriteOutput(writer, device.Controller, device.Output);
        writer.Entry("supply", device.Supply?.Name);
        writer.List("zones", device.Zones, zone => writer.Text(zone.Name), Layout.OneLine);
        writer.Entry("load_a", Base(device.Load));
        writer.Entry("valve", device.Valve?.Name);
        writer.Entry("starts_after_s", Measure.Seconds(device.StartsAfter));
        writer.Entry("stops_after_s", Measure.Seconds(device.StopsAfter));
        writer.Entry("stays_on_through_s", Measure.Seconds(device.StaysOnThrough));
        writer.Entry("starts_an_hour", device.StartsAnHour);
        writer.Entry("after_s", Measure.Seconds(device.After));
        writer.Entry("rinse_s", Measure.Seconds(device.Rinse));
    }

    private static void WriteZone(DocumentWriter writer, Zone zone)
    {
        writer.Entry("name", zone.Name);
        writer.Entry("label", zone.Label);
        WriteOutput(writer, zone.Controller, zone.Output);
        writer.Entry("valve", zone.Valve?.Name);
        writer.Entry("supply", zone.Supply?.Name);
        writer.Entry("flow_l_per_min", Measure.Rounded(zone.LitresPerMinute));
        writer.Entry("emitters", Measure.Rounded(zone.Emitters));
        writer.Entry("area_m2", Base(zone.Area));
        writer.Entry("rate_mm_per_h", Measure.Rounded(zone.MillimetresPerHour));
        writer.Entry("heads", WordOf(zone.Heads));
        writer.Entry("efficiency_percent", Measure.Rounded(zone.EfficiencyPercent));
        writer.Entry("uniformity_percent", Measure.Rounded(zone.UniformityPercent));
        writer.Entry("soil", zone.Soil?.Name);
        writer.Entry("slope_percent", Measure.Rounded(zone.SlopePercent));
        writer.Entry("plants", zone.Plants?.Name);
        writer.Entry("trim_percent", Measure.Rounded(zone.TrimPercent));
        writer.Entry("longest_s", Measure.Seconds(zone.Longest));
        writer.Entry("shortest_s", Measure.Seconds(zone.Shortest));
        writer.Entry("rest_s", Measure.Seconds(zone.Rest));
        writer.Entry("never_dry_for_s", Measure.Seconds(zone.NeverDryFor));
        writer.Entry("wire_m", Base(zone.WireLength));
        writer.Entry("wire_mm2", Base(zone.WireSection));
        writer.EntryIf("spare", zone.IsSpare);
    }

    private static void WriteScale(DocumentWriter writer, Scale scale)
    {
        writer.Entry("name", scale.Name);
        writer.Entry("label", scale.Label);
        switch (scale)
        {
            case MonthlyScale monthly:
                writer.Map("months_percent", () => MonthShares.Write(writer, monthly.Percents), Layout.OneLine);
                break;
            case DatedScale dated:
                writer.List("since", dated.Since, since => writer.Map(() => WriteSince(writer, since.From, since.Percent), Layout.OneLine));
                break;
            default:
                writer.EntryIf("by_climate", true);
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

    private static void WriteOutput(DocumentWriter writer, Controller controller, int output)
    {
        writer.Entry("controller", controller.Name);
        if (output > 0) writer.Entry("output", output);
    }

    private static string? WordOf(Heads heads) => heads switch
    {
        Heads.Drip => "drip",
        Heads.Bubbler => "bubbler",
        Heads.Spray => "spray",
        Heads.Rotor => "rotor",
        Heads.Mist => "mist",
        _ => null,
    };

    private static decimal? Base(Quantity? quantity) => Measure.Rounded(quantity?.InBase);
}
