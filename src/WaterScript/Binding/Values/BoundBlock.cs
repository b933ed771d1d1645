using NodaTime;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>A property that stands in a file, and its value.</summary>
/// <param name="Property">Which.</param>
/// <param name="Origin">The whole statement.</param>
/// <param name="ValueOrigin">The value alone.</param>
/// <param name="Value">The value; null when it could not be read.</param>
internal sealed record BoundProperty(Property Property, Location Origin, Location ValueOrigin, object? Value);

/// <summary>A block whose properties have been read.</summary>
internal sealed class BoundBlock(BlockNode node, SourceText source, IReadOnlyList<BoundProperty> properties)
{
    /// <summary>The block as written.</summary>
    public BlockNode Node => node;

    /// <summary>Its file.</summary>
    public SourceText Source => source;

    /// <summary>Its name, which a block that has none takes from its kind.</summary>
    public NameNode Name => node.Header.IsEmpty ? node.Kind : node.Header[0];

    /// <summary>Where its name stands.</summary>
    public Location Origin => new(source, Name.Span);

    /// <summary>Its label, or null.</summary>
    public string? Label => node.Label?.Value;

    /// <summary>What stands there, in order.</summary>
    public IReadOnlyList<BoundProperty> Properties => properties;

    /// <summary>The value of a property and its statement; null where it does not stand there or could not be read. So for every type of value.</summary>
    public Placed<Quantity>? Get(Property<AmountType> property) => Find(property) is { Value: Quantity value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<Duration>? Get(Property<TimeType> property) => Find(property) is { Value: Duration value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<Duration>? Get(Property<ShortTimeType> property) => Find(property) is { Value: Duration value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<Duration>? Get(Property<LeadType> property) => Find(property) is { Value: Duration value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<decimal>? Get(Property<ShareType> property) => Find(property) is { Value: decimal value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<decimal>? Get(Property<NumberType> property) => Find(property) is { Value: decimal value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<int>? Get(Property<CountType> property) => Find(property) is { Value: int value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<LocalDate>? Get(Property<DateType> property) => Find(property) is { Value: LocalDate value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<PairValue>? Get(Property<PairType> property) => Find(property) is { Value: PairValue value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<EmittersValue>? Get(Property<EmittersType> property) =>
        Find(property) is { Value: EmittersValue value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<OutputValue>? Get(Property<OutputType> property) =>
        Find(property) is { Value: OutputValue value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<ContentValue>? Get(Property<ContentType> property) =>
        Find(property) is { Value: ContentValue value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<RefillValue>? Get(Property<RefillType> property) =>
        Find(property) is { Value: RefillValue value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<ShareValue>? Get(Property<CatchType> property) => Find(property) is { Value: ShareValue value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<ReturnsValue>? Get(Property<ReturnsType> property) =>
        Find(property) is { Value: ReturnsValue value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<PressureTank>? Get(Property<PressureTankType> property) =>
        Find(property) is { Value: PressureTank value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<Wire>? Get(Property<WireType> property) => Find(property) is { Value: Wire value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<StartingCurrent>? Get(Property<StartingCurrentType> property) =>
        Find(property) is { Value: StartingCurrent value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<ShareValue>? Get(Property<RechargeType> property) =>
        Find(property) is { Value: ShareValue value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<BatteryValue>? Get(Property<BatteryType> property) =>
        Find(property) is { Value: BatteryValue value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<decimal>? Get(Property<ColdLossType> property) => Find(property) is { Value: decimal value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<SolarPanel>? Get(Property<SolarPanelType> property) =>
        Find(property) is { Value: SolarPanel value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<BillingCycle>? Get(Property<BillsType> property) =>
        Find(property) is { Value: BillingCycle value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<FixedCharge>? Get(Property<ChargeType> property) =>
        Find(property) is { Value: FixedCharge value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{AmountType})"/>
    public Placed<OtherUse>? Get(Property<OtherUseType> property) =>
        Find(property) is { Value: OtherUse value, Origin: var place } ? new(value, place) : null;

    /// <inheritdoc cref="Get(Property{ReferenceType})"/>
    public Currency? Get(Property<CurrencyType> property) => Find(property)?.Value as Currency;

    /// <summary>The value of a property that says itself where it stands, or none; null as for other values.</summary>
    public NameNode? Get(Property<ReferenceType> property) => Find(property)?.Value as NameNode;

    /// <inheritdoc cref="Get(Property{ReferenceType})"/>
    public string? Get(Property<WordType> property) => Find(property)?.Value as string;

    /// <inheritdoc cref="Get(Property{ReferenceType})"/>
    public NamesValue? Get(Property<ZoneNamesType> property) => Find(property)?.Value as NamesValue;

    /// <inheritdoc cref="Get(Property{ReferenceType})"/>
    public OutputsValue? Get(Property<OutputsType> property) => Find(property)?.Value as OutputsValue;

    /// <inheritdoc cref="Get(Property{ReferenceType})"/>
    public DateTimeZone? Get(Property<TimeZoneType> property) => Find(property)?.Value as DateTimeZone;

    /// <inheritdoc cref="Get(Property{ReferenceType})"/>
    public Position? Get(Property<PositionType> property) => Find(property)?.Value as Position;

    /// <inheritdoc cref="Get(Property{ReferenceType})"/>
    public ChangeOver? Get(Property<ChangeType> property) => Find(property)?.Value as ChangeOver;

    /// <inheritdoc cref="Get(Property{ReferenceType})"/>
    public DatesValue? Get(Property<RenewedType> property) => Find(property)?.Value as DatesValue;

    /// <inheritdoc cref="Get(Property{ReferenceType})"/>
    public ClimateMonth? Get(Property<WeatherType> property) => Find(property)?.Value as ClimateMonth;

    /// <summary>What the word of a property stands for, and its statement; null as for other values.</summary>
    public Placed<T>? Choice<T>(Property<WordType> property, Func<string, T> meaning)
        where T : struct => Find(property) is { Value: string word, Origin: var place } ? new(meaning(word), place) : null;

    /// <summary>A property as it stands there, or null.</summary>
    public BoundProperty? Find(Property property)
    {
        for (var i = 0; i < properties.Count; i++)
        {
            if (properties[i].Property.Is(property)) return properties[i];
        }

        return null;
    }

    /// <summary>Whether a property stands there.</summary>
    public bool Has(Property property) => Find(property) is not null;

    /// <summary>All that stands there of a property that may repeat.</summary>
    public IEnumerable<BoundProperty> All(Property property) => properties.Where(bound => bound.Property.Is(property));
}
