using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Supplies, controllers and kinds of valve.</summary>
internal sealed class HardwareBinder(Declarations declarations, NameTable<Tariff> tariffs, bool hasPosition, Scope scope)
{
    /// <summary>Supplies by name.</summary>
    public NameTable<Supply> Supplies { get; } = new("supply", scope);

    /// <summary>Controllers by name.</summary>
    public NameTable<Controller> Controllers { get; } = new("controller", scope);

    /// <summary>Kinds of valve by name.</summary>
    public NameTable<Valve> Valves { get; } = new("valve", scope);

    /// <summary>Reads them all.</summary>
    public void Bind()
    {
        BindSupplies();
        foreach (var placed in declarations.Blocks("controller")) BindController(placed);
        foreach (var controller in Controllers.Things) CheckBatteryOf(controller);
        foreach (var placed in declarations.Blocks("valve")) BindValve(placed);
        if (Controllers.Things.Count == 0) Controllers.Add("controller", default, new Controller { Index = 0, Name = "controller", Origin = null });
    }

    /// <summary>Where a zone or a device is wired to; null, and reported, when that cannot be known.</summary>
    public Controller? ControllerOf(OutputValue output, SourceText source)
    {
        if (output.Controller is not null) return Controllers.Use(output.Controller, source);
        if (Controllers.Things.Count == 1) return UseOnly(Controllers);
        scope.Report(ReadingRules.Missing, output.Origin, "the controller is missing", $"one of {string.Join(", ", Controllers.Names)}",
            $"Write it as `output {output.Number} of {Controllers.Names.First()}`.");
        return null;
    }

    /// <summary>The supply that is named, or the only one; null where there is none.</summary>
    public Supply? SupplyOf(BoundBlock block, Property<ReferenceType> property)
    {
        if (block.Get(property) is { } name) return Supplies.Use(name, block.Source);
        if (block.Has(property) || Supplies.Things.Count == 0) return null;
        if (Supplies.Things.Count == 1) return UseOnly(Supplies);
        scope.Report(ReadingRules.Missing, block.Origin, $"\"{block.Name.Text}\" has no supply",
            $"one of {string.Join(", ", Supplies.Names)}", $"Add a line such as `supply {Supplies.Names.First()}`.");
        return null;
    }

    private static T UseOnly<T>(NameTable<T> table)
        where T : class
    {
        table.TryUse(table.Names.First(), out var only);
        return only!;
    }

    /// <summary>A supply is made after the one that feeds it.</summary>
    private void BindSupplies()
    {
        var blocks = declarations.Blocks("supply")
            .Select((placed, index) => (Block: BlockReader.Read(placed.Node, placed.Source, Schema.Supply.Block, scope), Index: index)).ToArray();
        var byName = blocks.ToDictionary(entry => entry.Block.Name.Text, StringComparer.Ordinal);
        var made = new Dictionary<string, Supply>(StringComparer.Ordinal);
        foreach (var entry in blocks) Make(entry.Block.Name.Text, []);
        foreach (var entry in blocks) Supplies.Add(entry.Block.Name.Text, entry.Block.Origin, made[entry.Block.Name.Text]);

        Supply? Make(string name, List<string> open)
        {
            if (made.TryGetValue(name, out var known)) return known;
            var (block, index) = byName[name];
            open.Add(name);
            Supply? feeder = null;
            if (block.Get(Schema.Supply.FedBy) is { } by)
            {
                if (open.Contains(by.Text))
                    scope.Report(ReadingRules.Loop, new Location(block.Source, by.Span),
                        $"supplies feed one another in a circle: {string.Join(", ", open.Append(by.Text))}", help: "Delete one of the `fed-by` lines.");
                else if (open.Count >= Limits.NameDepth)
                    scope.Report(ReadingRules.OverLimit, new Location(block.Source, by.Span), $"more than {Limits.NameDepth} supplies feed one another");
                else if (byName.ContainsKey(by.Text)) feeder = Make(by.Text, open);
                else scope.ReportUnknown(new Location(block.Source, by.Span), $"no supply is called \"{by.Text}\"", by.Text, byName.Keys);
            }

            return made[name] = SupplyFrom(block, index, feeder);
        }
    }

    private Supply SupplyFrom(BoundBlock block, int index, Supply? feeder)
    {
        var contains = block.Get(Schema.Supply.Contains);
        var catches = block.Get(Schema.Supply.Catchment);
        if (contains is { } content && block.Get(Schema.Supply.Tank) is { } tank && content.Value.Amount.InBase > tank.InBase)
            scope.Report(ReadingRules.OutOfRange, block.Find(Schema.Supply.Contains)!.ValueOrigin, "more than the tank holds", $"the tank holds {tank}");
        CheckRefill(block);
        CheckTariff(block, feeder);
        var refill = block.Get(Schema.Supply.Refill);
        return new Supply
        {
            Index = index,
            Name = block.Name.Text,
            Label = block.Label,
            Origin = block.Origin,
            Flow = block.Get(Schema.Supply.Flow),
            MinimumFlow = block.Get(Schema.Supply.MinimumFlow),
            HasBypass = block.Has(Schema.Supply.Bypass),
            PressureTank = block.Get(Schema.Supply.PressureTank),
            Tank = block.Get(Schema.Supply.Tank),
            Contains = contains?.Part(value => value.Amount),
            ContainsOn = contains?.Part(value => value.On),
            Refill = refill?.Part(value => value.Flow),
            RefillFrom = refill?.Value.From,
            RefillTo = refill?.Value.To,
            CatchmentArea = catches?.Part(roof => roof.Amount),
            CatchmentPercent = catches?.Part(roof => roof.Percent),
            Reserve = block.Get(Schema.Supply.Reserve),
            Daily = block.Get(Schema.Supply.Daily),
            Change = block.Get(Schema.Supply.Change),
            FedBy = feeder,
            Backflow = block.Choice(Schema.Supply.Backflow, _ => BackflowProtection.Atmospheric),
            Tariff = tariffs.Use(block.Get(Schema.Supply.Tariff), block.Source),
            OtherUse = block.Get(Schema.Supply.OtherUse),
        };
    }

    /// <summary>A refill between levels fills a tank that has both of them, above what must stay in it.</summary>
    private void CheckRefill(BoundBlock block)
    {
        if (block.Get(Schema.Supply.Refill) is not { Value: { From: { } from, To: { } to } }) return;
        var place = block.Find(Schema.Supply.Refill)!.ValueOrigin;
        if (to.InBase <= from.InBase)
            scope.Report(ReadingRules.OutOfRange, place, $"the refill ends at {to}, and begins at {from}", "ends before it begins", "Exchange the two levels.");
        else if (block.Get(Schema.Supply.Tank) is { } tank && to.InBase > tank.InBase)
            scope.Report(ReadingRules.OutOfRange, place, "the refill ends above what the tank holds", $"the tank holds {tank}", $"Write `to {tank}` or less.");
        else if (block.Get(Schema.Supply.Reserve) is { } reserve && from.InBase < reserve.InBase)
            scope.Report(ReadingRules.OutOfRange, place, "the refill begins below the reserve", $"{reserve} must stay in it",
                $"Write `from {reserve}` or more.");
    }

    private void CheckTariff(BoundBlock block, Supply? feeder)
    {
        if (block.Find(Schema.Supply.OtherUse) is { } other && !block.Has(Schema.Supply.Tariff))
            scope.Report(ReadingRules.Missing, other.Origin, "other use of a supply without a tariff", "it counts for bills alone",
                "Add a line such as `tariff town`.");
        if (block.Find(Schema.Supply.Tariff) is not { Value: not null } own) return;
        for (var above = feeder; above is not null; above = above.FedBy)
        {
            if (above.Tariff is null) continue;
            scope.Report(Finding.At(ReadingRules.Contradiction, own.Origin, "the same water is paid for twice", "and here") with
            {
                Others = [new Label(above.Origin, "this supply feeds it, and has a tariff too")],
                Help = "Delete one of the two `tariff` lines.",
            });
            return;
        }
    }

    private void BindController(PlacedNode<BlockNode> placed)
    {
        var block = BlockReader.Read(placed.Node, placed.Source, Schema.Controller.Block, scope);
        Controllers.Add(block.Name.Text, block.Origin, new Controller
        {
            Index = Controllers.Things.Count,
            Name = block.Name.Text,
            Label = block.Label,
            Origin = block.Origin,
            Outputs = block.Get(Schema.Controller.Outputs),
            WrittenStagger = block.Get(Schema.Controller.StaggerTime),
            AtMostZones = block.Get(Schema.Controller.AtMost),
            WrittenMayOverlap = block.Choice(Schema.Controller.Schedules, word => word == "may-overlap"),
            ClockWithin = block.Get(Schema.Controller.Clock),
            Power = new PowerBinder(hasPosition, scope).PowerOf(placed),
        });
    }

    /// <summary>A battery that is shared is that of a controller which has one itself.</summary>
    private void CheckBatteryOf(Controller controller)
    {
        if (controller.Power?.BatteryOf is not { Value.Controller: var name } shared) return;
        var owners = Controllers.Things.Where(other => other.Power?.Battery is not null).Select(other => other.Name).ToArray();
        if (!Controllers.Names.Contains(name)) scope.ReportUnknown(shared.Place, $"no controller is called \"{name}\"", name, owners);
        else if (!owners.Contains(name))
            scope.Report(ReadingRules.Contradiction, shared.Place, $"controller {name} has no battery of its own",
                help: $"Write the battery there, such as `{Schema.Power.Battery.Form}`, or name the controller that has it.");
    }

    private void BindValve(PlacedNode<BlockNode> placed)
    {
        var (name, type) = (placed.Node.Header[0], placed.Node.Header[1]);
        var origin = placed.At(name.Span);
        if (type.Text == "latching") Valves.Add(name.Text, origin, Latching(placed, origin));
        else if (type.Text == "non-latching") Valves.Add(name.Text, origin, NonLatching(placed, origin));
        else
        {
            scope.TakeUnread(name.Text);
            scope.ReportUnknown(placed.At(type.Span), $"no type of valve is called \"{type.Text}\"", type.Text, (string[])["latching", "non-latching"]);
        }
    }

    private LatchingValve Latching(PlacedNode<BlockNode> placed, Location origin)
    {
        var block = BlockReader.Read(placed.Node, placed.Source, Schema.LatchingValve.Block, scope);
        var pulse = block.Get(Schema.LatchingValve.PulseTime);
        var moves = block.Get(Schema.LatchingValve.ResponseTime);
        if (moves?.Value > pulse?.Value)
            scope.Report(ReadingRules.OutOfRange, block.Find(Schema.LatchingValve.ResponseTime)!.ValueOrigin, "the plunger moves after the pulse is over",
                help: "Make the pulse longer, or correct `response-time`.");
        return new LatchingValve(block.Name.Text, block.Label, origin)
        {
            Pulse = pulse,
            ResponseTime = moves,
            Coil = block.Get(Schema.LatchingValve.Coil),
            MinimumVoltage = block.Get(Schema.LatchingValve.MinimumVoltage),
        };
    }

    private NonLatchingValve NonLatching(PlacedNode<BlockNode> placed, Location origin)
    {
        var block = BlockReader.Read(placed.Node, placed.Source, Schema.NonLatchingValve.Block, scope);
        return new NonLatchingValve(block.Name.Text, block.Label, origin)
        {
            Inrush = block.Get(Schema.NonLatchingValve.Inrush),
            Holding = block.Get(Schema.NonLatchingValve.Holding),
            MinimumVoltage = block.Get(Schema.NonLatchingValve.MinimumVoltage),
        };
    }
}
