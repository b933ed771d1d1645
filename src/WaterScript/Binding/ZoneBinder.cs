using System.Collections.Immutable;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Zones, and the pumps, masters and injectors that run because of them.</summary>
internal sealed class ZoneBinder(Declarations declarations, HardwareBinder hardware, GroundBinder ground, Scope scope)
{
    /// <summary>How far flow, area and rate may disagree, in per cent.</summary>
    private const decimal RateTolerance = 5;

    /// <summary>Zones by name.</summary>
    public NameTable<Zone> Zones { get; } = new("zone", scope);

    /// <summary>Names of the zones with a mistake in their block: what seems to lack there may be what could not be read.</summary>
    public HashSet<string> Misread { get; } = new(StringComparer.Ordinal);

    /// <summary>Reads the zones.</summary>
    public void BindZones()
    {
        foreach (var placed in declarations.Blocks("zone")) BindZone(BlockReader.Read(placed.Node, placed.Source, Schema.Zone.Block, scope));
    }

    /// <summary>Reads pumps, masters and injectors, in order of the file.</summary>
    /// <param name="lists">Resolves the zones that they name.</param>
    public ImmutableArray<Device> BindDevices(ZoneListBinder lists)
    {
        var devices = ImmutableArray.CreateBuilder<Device>();
        foreach (var placed in declarations.All<BlockNode>())
        {
            var device = placed.Node.Kind.Text switch
            {
                "pump" => DeviceFrom(placed, DeviceKind.Pump, Schema.Pump.Block, devices.Count, lists),
                "master" => DeviceFrom(placed, DeviceKind.Master, Schema.Master.Block, devices.Count, lists),
                "injector" => DeviceFrom(placed, DeviceKind.Injector, Schema.Injector.Block, devices.Count, lists),
                _ => null,
            };
            if (device is not null) devices.Add(device);
        }

        return devices.DrainToImmutable();
    }

    /// <summary>Whether a valve of a zone takes water from a supply at once: a tank on the way stands between them.</summary>
    private static bool DrawsFrom(Zone zone, Supply? supply)
    {
        if (zone.IsHandWatered) return false;
        if (zone.Supply == supply) return true;
        for (var on = zone.Supply; on is { Tank: null, FedBy: not null }; on = on.FedBy)
        {
            if (on.FedBy == supply) return true;
        }

        return false;
    }

    private void BindZone(BoundBlock block)
    {
        var output = block.Get(Schema.Zone.Output);
        var controller = output is null ? null : hardware.ControllerOf(output.Value.Value, block.Source);
        var isHandWatered = block.Has(Schema.Zone.HandWatered);
        CheckPairs(block);
        var zone = new Zone
        {
            Index = Zones.Things.Count,
            Name = block.Name.Text,
            Label = block.Label,
            Origin = block.Origin,
            Controller = isHandWatered ? null : controller ?? hardware.Controllers.Things.First(),
            WrittenOutput = isHandWatered ? null : output?.Part(value => value.Number),
            Valve = hardware.Valves.Use(block.Get(Schema.Zone.Valve), block.Source),
            Supply = hardware.SupplyOf(block, Schema.Zone.Supply),
            Flow = block.Get(Schema.Zone.Flow),
            Emitters = block.Get(Schema.Zone.Emitters)?.Part(emitters => emitters.Count),
            EmitterFlow = block.Get(Schema.Zone.Emitters)?.Part(emitters => emitters.Flow),
            Area = block.Get(Schema.Zone.Area),
            Rate = block.Get(Schema.Zone.Rate),
            Method = block.Get(Schema.Zone.Method) is { } method ? Enum.Parse<IrrigationMethod>(method, ignoreCase: true) : IrrigationMethod.Unknown,
            EfficiencyPercent = block.Get(Schema.Zone.Efficiency),
            UniformityPercent = block.Get(Schema.Zone.Uniformity),
            Returns = ReturnsOf(block),
            Soil = ground.SoilOf(block, Schema.Zone.Soil),
            SoilLine = block.Properties.FirstOrDefault(line => line.Property == Schema.Zone.Soil)?.Origin,
            SlopePercent = block.Get(Schema.Zone.Slope),
            Plants = ground.PlantsOf(block, Schema.Zone.Plants),
            WatersNoPlants = ground.IsWithoutPlants(block, Schema.Zone.Plants),
            WrittenTrim = block.Get(Schema.Zone.Trim),
            Longest = block.Get(Schema.Zone.Longest),
            Shortest = block.Get(Schema.Zone.Shortest),
            Rest = block.Get(Schema.Zone.Rest),
            NeverDryFor = block.Get(Schema.Zone.NeverDryFor),
            Wire = block.Get(Schema.Zone.Wire),
            IsSpare = block.Has(Schema.Zone.Spare),
        };
        CheckRate(zone, block);
        Zones.Add(zone.Name, zone.Origin, zone);
        if (scope.HasFindingIn(new Location(block.Source, block.Node.Span))) Misread.Add(zone.Name);
    }

    private void CheckPairs(BoundBlock block)
    {
        Exclude(block, Schema.Zone.Efficiency, Schema.Zone.Uniformity, "both efficiency and uniformity");
        Exclude(block, Schema.Zone.Flow, Schema.Zone.Emitters, "both flow and emitters");
        foreach (var wired in new Property[] { Schema.Zone.Output, Schema.Zone.Valve, Schema.Zone.Wire, Schema.Zone.Spare })
            Exclude(block, Schema.Zone.HandWatered, wired, $"both hand-watered and {wired.Name}");
        if (block.Get(Schema.Zone.Shortest)?.Value > block.Get(Schema.Zone.Longest)?.Value)
            scope.Report(ReadingRules.Contradiction, block.Find(Schema.Zone.Shortest)!.Origin, "`shortest` is longer than `longest`",
                help: "Exchange the two, or correct one.");
    }

    /// <summary>What runs back to a tank; null, and reported, where there is none, or more would than is left.</summary>
    private Placed<WaterReturn>? ReturnsOf(BoundBlock block)
    {
        if (block.Get(Schema.Zone.Returns) is not { } line || hardware.Supplies.Use(line.Value.Supply, block.Source) is not { } supply) return null;
        if (supply.Tank is null)
        {
            scope.Report(Finding.At(ReadingRules.Contradiction, new Location(block.Source, line.Value.Supply.Span), $"supply {supply.Name} has no tank",
                "nothing can come back to it") with
            {
                Others = [new Label(supply.Origin, "the supply")],
                Help = "Name a supply that has a `tank`, or delete this line.",
            });
            return null;
        }

        if (block.Get(Schema.Zone.Efficiency) is { } efficiency && efficiency.Value + line.Value.Percent > 100)
            scope.Report(Finding.At(ReadingRules.Contradiction, line.Place, "more than all of its water",
                $"{line.Value.Percent.ToString(System.Globalization.CultureInfo.InvariantCulture)} % come back") with
            {
                Others = [new Label(efficiency.Place, "and plants use this")],
                Help = "Correct one of the two: together they are at most 100 %.",
            });
        return line.Part(value => new WaterReturn(value.Percent, supply));
    }

    private void Exclude(BoundBlock block, Property first, Property second, string heading)
    {
        if (block.Find(first) is not { } one || block.Find(second) is not { } other) return;
        scope.Report(Finding.At(ReadingRules.Contradiction, other.Origin, heading) with
        {
            Others = [new Label(one.Origin, "the other")],
            Help = "Give one of the two.",
        });
    }

    private void CheckRate(Zone zone, BoundBlock block)
    {
        if (zone.Rate is not { } rate || zone.Area is null || (zone with { Rate = null }).MillimetresPerHour is not { } calculated) return;
        if (Math.Abs(rate.InBase - calculated) <= calculated * RateTolerance / 100) return;
        scope.Report(
            ReadingRules.Contradiction,
            block.Find(Schema.Zone.Rate)!.ValueOrigin,
            "the rate does not follow from flow and area",
            string.Create(System.Globalization.CultureInfo.InvariantCulture, $"flow and area make {calculated:0.##} mm/h"),
            "Delete the rate, or correct the flow or the area.");
    }

    private Device? DeviceFrom(PlacedNode<BlockNode> placed, DeviceKind kind, BlockSchema schema, int index, ZoneListBinder lists)
    {
        var block = BlockReader.Read(placed.Node, placed.Source, schema, scope);
        if (OutputsOf(block) is not { } outputs) return null;
        Exclude(block, Schema.Device.Supply, Schema.Device.Zones, "both a supply and zones");
        Exclude(block, Schema.Device.Load, Schema.Device.Valve, "both a load and a valve");
        Exclude(block, Schema.Device.Valve, Schema.Device.Inrush, "both a valve and an inrush");
        Exclude(block, Schema.Device.Valve, Schema.Device.MinimumVoltage, "both a valve and a minimum voltage");
        var zones = block.Get(Schema.Device.Zones) is { } names ? ZonesOf(names.Names, block, lists) : default;
        var supply = block.Has(Schema.Device.Zones) ? null : hardware.SupplyOf(block, Schema.Device.Supply);
        return new Device
        {
            Index = index,
            Kind = kind,
            Name = block.Name.Text,
            Label = block.Label,
            Origin = block.Origin,
            Controller = outputs is [var first, ..] ? first.Controller : hardware.Controllers.Things.First(),
            WrittenOutput = outputs is [{ Number: var number }, ..] ? number : null,
            FurtherOutputs = [.. outputs.Skip(1)],
            Zones = zones.IsDefault ? [.. Zones.Things.Where(zone => DrawsFrom(zone, supply))] : zones,
            Supply = supply,
            Flow = block.Get(Schema.Device.Flow),
            Motor = block.Get(Schema.Device.Motor),
            Load = block.Get(Schema.Device.Load),
            Valve = hardware.Valves.Use(block.Get(Schema.Device.Valve), block.Source),
            Inrush = block.Get(Schema.Device.Inrush),
            MinimumVoltage = block.Get(Schema.Device.MinimumVoltage),
            Wire = block.Get(Schema.Device.Wire),
            WrittenStart = block.Get(Schema.Device.Starts),
            WrittenStop = block.Get(Schema.Device.Stops),
            WrittenBridges = block.Get(Schema.Device.Bridges),
            StartsAnHour = block.Get(Schema.Device.AtMost),
            After = kind == DeviceKind.Injector ? block.Get(Schema.Injector.After) : null,
            Rinse = kind == DeviceKind.Injector ? block.Get(Schema.Injector.Rinse) : null,
            Doses = kind == DeviceKind.Injector ? block.Get(Schema.Injector.Doses) : null,
        };
    }

    /// <summary>The zones that a device names; one that somebody waters by hand is reported and left out.</summary>
    private ImmutableArray<Zone> ZonesOf(ImmutableArray<NameNode> names, BoundBlock block, ZoneListBinder lists)
    {
        var zones = lists.Set(names, block.Source);
        if (!zones.Any(zone => zone.IsHandWatered)) return zones;
        foreach (var name in names)
        {
            if (lists.Set([name], block.Source).FirstOrDefault(zone => zone.IsHandWatered) is not { } zone) continue;
            scope.Report(Finding.At(ReadingRules.Contradiction, new Location(block.Source, name.Span),
                $"zone {zone.Name} is hand-watered", $"no {block.Node.Kind.Text} follows it") with
            {
                Others = [new Label(zone.Origin, "the zone")],
                Help = zone.Name == name.Text ? "Delete it here." : $"Name the others of {name.Text} one by one.",
            });
        }

        return zones.RemoveAll(zone => zone.IsHandWatered);
    }

    /// <summary>What a device is wired to; null, and reported, when that cannot be known.</summary>
    private ImmutableArray<FurtherOutput>? OutputsOf(BoundBlock block)
    {
        var outputs = ImmutableArray.CreateBuilder<FurtherOutput>();
        var line = block.Find(Schema.Device.Output);
        foreach (var written in block.Get(Schema.Device.Output)?.Outputs ?? [])
        {
            if (hardware.ControllerOf(written, block.Source) is not { } controller) return null;
            var place = written.Origin.Span == line!.ValueOrigin.Span ? line.Origin : written.Origin;
            if (outputs.FirstOrDefault(other => other.Controller.Index == controller.Index) is not { } other)
                outputs.Add(new FurtherOutput(controller, new(written.Number, place)));
            else
                ReportTwice(block.Name.Text, written.Number, controller, place, other);
        }

        return outputs.DrainToImmutable();
    }

    private void ReportTwice(string name, int number, Controller controller, Location place, FurtherOutput other) =>
        scope.Report(Finding.At(ReadingRules.Contradiction, place, $"two outputs of controller {controller.Name} switch {name}", "the second") with
        {
            Others = [new Label(other.Number.Place, "the first")],
            Help = number == other.Number.Value ? "Delete one of the two." : "Name one output of each controller; delete one of the two.",
        });
}
