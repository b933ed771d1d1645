using System.Collections.Immutable;
using NodaTime;
using WaterScript.Agronomy;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Soils, plants, the climate and scales.</summary>
internal sealed class GroundBinder(Declarations declarations, Scope scope)
{
    /// <summary>Soils of the file's own.</summary>
    public NameTable<Soil> Soils { get; } = new("soil", scope);

    /// <summary>Plants of the file's own.</summary>
    public NameTable<Plants> Plants { get; } = new("plants", scope);

    /// <summary>Scales.</summary>
    public NameTable<Scale> Scales { get; } = new("scale", scope);

    /// <summary>The climate, or null.</summary>
    public Climate? Climate { get; private set; }

    /// <summary>Reads them all.</summary>
    public void Bind()
    {
        foreach (var placed in declarations.Blocks("soil")) BindSoil(Read(placed, Schema.Soil.Block));
        foreach (var placed in declarations.Blocks("plants")) BindPlants(Read(placed, Schema.Plants.Block));
        foreach (var placed in declarations.Blocks("climate")) BindClimate(Read(placed, Schema.Climate.Block));
        foreach (var placed in declarations.Blocks("scale")) BindScale(Read(placed, Schema.Scale.Block));
    }

    /// <summary>The soil of a name, the file's own before a built-in one; null, and reported, when there is none.</summary>
    public Soil? SoilOf(BoundBlock block, Property<ReferenceType> property) => Named(block, property, Soils, SoilTable.All, soil => soil.Name);

    /// <summary>The plants of a name, the file's own before built-in ones; null, and reported, when there are none.</summary>
    public Plants? PlantsOf(BoundBlock block, Property<ReferenceType> property) =>
        IsWithoutPlants(block, property) ? null : Named(block, property, Plants, PlantTable.All, plants => plants.Name);

    /// <summary>Whether a zone is said to water no plants; plants of the file's own that are called so are plants.</summary>
    public bool IsWithoutPlants(BoundBlock block, Property<ReferenceType> property) =>
        block.Get(property)?.Text == PlantTable.None && Plants.Find(PlantTable.None) is null;

    private T? Named<T>(BoundBlock block, Property<ReferenceType> property, NameTable<T> own, ImmutableArray<T> builtIn, Func<T, string> nameOf)
        where T : class
    {
        if (block.Get(property) is not { } name) return null;
        if (own.TryUse(name.Text, out var found)) return found;
        if (builtIn.FirstOrDefault(known => nameOf(known) == name.Text) is { } known) return known;
        scope.ReportUnknown(new Location(block.Source, name.Span), $"no {property.Name} is called \"{name.Text}\"", name.Text, own.Names,
            builtIn.Select(nameOf));
        return null;
    }

    private BoundBlock Read(PlacedNode<BlockNode> placed, BlockSchema schema) => BlockReader.Read(placed.Node, placed.Source, schema, scope);

    private void BindSoil(BoundBlock block) => Soils.Add(block.Name.Text, block.Origin, SoilTable.Completed(new Soil(
        block.Name.Text, block.Label, block.Origin, block.Get(Schema.Soil.Intake), block.Get(Schema.Soil.Holds),
            block.Get(Schema.Soil.Ponds) is { } ponds ? [ponds] : [])));

    private void BindPlants(BoundBlock block)
    {
        decimal? everyMonth = block.Get(Schema.Plants.Coefficient);
        var months = Schema.Plants.Months.Select(month => (decimal?)block.Get(month)).ToImmutableArray();
        if (everyMonth is not null && months.Any(month => month is not null))
            scope.Report(ReadingRules.Contradiction, block.Find(Schema.Plants.Coefficient)!.Origin, "one coefficient for all months, and lines for single ones",
                help: "Give one of the two.");
        var coefficients = everyMonth is null && months.All(month => month is null) ? [] : months.Select(month => month ?? everyMonth).ToImmutableArray();
        Plants.Add(block.Name.Text, block.Origin, PlantTable.Completed(new Plants(
            block.Name.Text, block.Label, block.Origin, coefficients, block.Get(Schema.Plants.Roots), block.Get(Schema.Plants.Depletion))));
    }

    private void BindClimate(BoundBlock block) => Climate = new Climate(block.Origin, [.. Schema.Climate.Months.Select(block.Get)])
    {
        IsByTheSea = block.Has(Schema.Climate.Coast),
    };

    private void BindScale(BoundBlock block)
    {
        var since = block.All(Schema.Scale.Since).ToArray();
        if (block.Properties.Count == 0 && scope.HasMisreadIn(new Location(block.Source, block.Node.Span)))
        {
            scope.TakeUnread(block.Name.Text);
            return;
        }

        if (block.Properties.Count == 0)
            scope.Report(ReadingRules.Missing, block.Origin, $"scale \"{block.Name.Text}\" has no shares", help: "Add lines such as `jul 110 %`.");
        else CheckOneWay(block);
        Scale scale = block.Has(Schema.Scale.By) ? new ClimateScale(block.Name.Text, block.Label, block.Origin)
            : since.Length > 0 ? Dated(block, since)
            : new MonthlyScale(block.Name.Text, block.Label, block.Origin, [.. Schema.Scale.Months.Select(month => (decimal?)block.Get(month))])
            {
                Lines = [.. Schema.Scale.Months.Select(month => block.Properties.FirstOrDefault(line => line.Property == month)?.Origin)],
            };
        Scales.Add(block.Name.Text, block.Origin, scale);
    }

    private void CheckOneWay(BoundBlock block)
    {
        var first = block.Properties[0];
        if (block.Properties.FirstOrDefault(line => WayOf(line) != WayOf(first)) is not { } other) return;
        scope.Report(Finding.At(ReadingRules.Contradiction, other.Origin, $"scale \"{block.Name.Text}\" mixes lines for months, for dates and by climate") with
        {
            Others = [new Label(first.Origin, "it begins with this")],
            Help = "Use one kind of line.",
        });
    }

    /// <summary>The lines for months are one way to give a scale; the others have a property each.</summary>
    private static Property? WayOf(BoundProperty line) => Schema.Scale.Months.Contains(line.Property) ? null : line.Property;

    private DatedScale Dated(BoundBlock block, IEnumerable<BoundProperty> lines)
    {
        var since = new SortedDictionary<LocalDate, decimal>();
        foreach (var line in lines)
        {
            if (line.Value is SinceValue value && !since.TryAdd(value.From, value.Percent))
                scope.Report(ReadingRules.StatedTwice, line.Origin, "two shares from the same date", help: "Delete one of the two.");
        }

        return new DatedScale(block.Name.Text, block.Label, block.Origin, [.. since.Select(entry => (entry.Key, entry.Value))]);
    }
}
