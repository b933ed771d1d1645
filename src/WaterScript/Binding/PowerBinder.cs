using System.Collections.Immutable;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Where the current of a controller comes from.</summary>
internal sealed class PowerBinder(bool hasPosition, Scope scope)
{
    private static readonly ImmutableArray<Property> OfBattery =
        [Schema.Power.Usable, Schema.Power.ColdLoss, Schema.Power.SolarPanel, Schema.Power.Renewed, Schema.Power.Autonomy];

    /// <summary>What a controller says of its power; null where it says nothing.</summary>
    public Power? PowerOf(PlacedNode<BlockNode> placed)
    {
        var nodes = placed.Node.Body.OfType<BlockNode>().Where(inner => inner.Kind.Text == "power").ToArray();
        if (nodes.Length == 0) return null;
        foreach (var second in nodes.Skip(1))
            scope.Report(ReadingRules.StatedTwice, placed.At(second.Kind.Span), "\"power\" is stated twice", "the second time", "Delete one of the two.");
        var block = BlockReader.Read(nodes[0], placed.Source, Schema.Power.Block, scope);
        CheckSources(block);
        var battery = block.Get(Schema.Power.Battery);
        return new Power
        {
            Origin = block.Origin,
            Transformer = block.Get(Schema.Power.Transformer)?.Part(pair => pair.First),
            TransformerVoltage = block.Get(Schema.Power.Transformer)?.Part(pair => pair.Second),
            Continuous = block.Get(Schema.Power.Continuous)?.Part(pair => pair.First),
            ContinuousVoltage = block.Get(Schema.Power.Continuous)?.Part(pair => pair.Second),
            Peak = block.Get(Schema.Power.Peak),
            Capacitor = block.Get(Schema.Power.Capacitor)?.Part(pair => pair.First),
            CapacitorVoltage = block.Get(Schema.Power.Capacitor)?.Part(pair => pair.Second),
            Recharge = block.Get(Schema.Power.Recharge)?.Part(recharge => recharge.Amount),
            RechargeEfficiencyPercent = block.Get(Schema.Power.Recharge)?.Part(recharge => recharge.Percent),
            Standby = block.Get(Schema.Power.Standby),
            Battery = battery is { Value.Of: null } own ? BatteryOf(block, own) : null,
            BatteryOf = battery is { Value.Of: { } name, Place: var place } ? new(new SharedBattery(name.Text), place) : null,
        };
    }

    private void CheckSources(BoundBlock block)
    {
        if (block.Has(Schema.Power.Transformer) && block.Has(Schema.Power.Continuous))
            scope.Report(ReadingRules.Contradiction, block.Find(Schema.Power.Continuous)!.Origin, "both a transformer and a continuous current",
                help: "Give one of the two.");
        if (block.Has(Schema.Power.Transformer) && block.Has(Schema.Power.Battery))
            scope.Report(ReadingRules.Contradiction, block.Find(Schema.Power.Battery)!.Origin, "both a transformer and a battery",
                help: "Give one of the two.");
        if (block.Find(Schema.Power.SolarPanel) is { } panel && !hasPosition)
            scope.Report(ReadingRules.Missing, panel.Origin, "a solar panel, and no location", "the place says how much sun there is",
                "Add the place to the site, such as `location 39.6 N 8.1 W 310 m`.");
        if (block.Has(Schema.Power.Battery))
        {
            if (block.Get(Schema.Power.Battery) is not { Value.Of: { } other }) return;
            foreach (var property in OfBattery.Where(block.Has))
                scope.Report(ReadingRules.Contradiction, block.Find(property)!.Origin, $"{property.Name} of a battery that another controller has",
                    help: $"Write it into the power block of controller {other.Text}.");
            return;
        }

        // One word that could not be read may have been the battery.
        if (scope.HasMisreadIn(new Location(block.Source, block.Node.Span))) return;
        foreach (var property in OfBattery.Add(Schema.Power.Standby).Where(block.Has))
            scope.Report(ReadingRules.Missing, block.Find(property)!.Origin, $"{property.Name} without a battery",
                help: $"Add a line such as `{Schema.Power.Battery.Form}`.");
    }

    private Battery BatteryOf(BoundBlock block, Placed<BatteryValue> written) => new()
    {
        Origin = written.Place,
        Capacity = written.Value.Capacity,
        Voltage = written.Value.Voltage,
        WrittenUsable = block.Get(Schema.Power.Usable),
        ColdLossPercent = block.Get(Schema.Power.ColdLoss),
        Panel = block.Get(Schema.Power.SolarPanel),
        Renewals = [.. (block.Get(Schema.Power.Renewed)?.Dates ?? []).Select(node => RenewalOf(node, block.Source)).OfType<Renewal>()],
        AutonomyDays = block.Get(Schema.Power.Autonomy),
    };

    private Renewal? RenewalOf(DateNode node, SourceText source)
    {
        var dates = new DateReader(scope, source);
        if (DateReader.IsYearly(node)) return dates.Yearly(node) is { } day ? new Renewal(Date: null, day) : null;
        return dates.Dated(node) is { } date ? new Renewal(date, default) : null;
    }
}
