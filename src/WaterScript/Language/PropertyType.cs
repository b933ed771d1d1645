using System.Collections.Immutable;
using WaterScript.Quantities;

namespace WaterScript.Language;

/// <summary>What the value of a property is.</summary>
internal abstract record PropertyType
{
    /// <summary>The keys under which the described site has such a value; empty for a value whose keys the schema must say.</summary>
    /// <param name="word">The word of the property, with underscores.</param>
    /// <param name="help">Its line of help.</param>
    public abstract ImmutableArray<DescribedKey> KeysOf(string word, string help);

    /// <summary><c>minimum_flow_l_per_min</c>: the base unit of what is measured follows the word.</summary>
    protected static string KeyOf(string word, Dimension dimension) =>
        $"{word}_{Units.Of(dimension).First().Symbol.ToLowerInvariant().Replace("/", "_per_", StringComparison.Ordinal)}";
}

/// <summary>A value of which several things may be said, so that the schema gives its keys.</summary>
internal abstract record CompositeType : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [];
}

/// <summary>A quantity: <c>30 L/min</c>.</summary>
/// <param name="Dimension">What it measures.</param>
/// <param name="Bounds">In base units.</param>
internal sealed record AmountType(Dimension Dimension, Bounds Bounds) : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(KeyOf(word, Dimension), new NumberShape(Bounds), help)];
}

/// <summary>A length of time above zero in whole seconds: <c>40 min</c>.</summary>
internal sealed record TimeType : PropertyType
{
    /// <summary>The words before it: <c>within 20 s</c>, <c>gaps up to 60 s</c>.</summary>
    public ImmutableArray<string> Before { get; init; } = [];

    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) =>
        [new(KeyOf(string.Join('_', [word, .. Before]), Dimension.Time), new NumberShape(Bounds.Positive), help)];
}

/// <summary>A length of time to the millisecond: <c>50 ms</c>.</summary>
/// <param name="Bounds">In seconds.</param>
internal sealed record ShortTimeType(Bounds Bounds) : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) =>
        [new($"{word}_ms", new NumberShape(Bounds with { Least = 1000 * Bounds.Least, Most = 1000 * Bounds.Most }), help)];
}

/// <summary>A time before or after another: <c>5 s before zones</c>.</summary>
internal sealed record LeadType : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) =>
        [new(KeyOf($"{word}_after", Dimension.Time), new NumberShape(Bounds.None), $"{help.TrimEnd('.')}: after that, negative before.")];
}

/// <summary>A share in per cent: <c>80 %</c>.</summary>
/// <param name="Bounds">In per cent.</param>
internal sealed record ShareType(Bounds Bounds) : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new($"{word}_percent", new NumberShape(Bounds), help)];
}

/// <summary>A number without a unit: <c>0.9</c>.</summary>
/// <param name="Bounds">What it lies between.</param>
internal sealed record NumberType(Bounds Bounds) : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(word, new NumberShape(Bounds), help)];
}

/// <summary>A whole number from one on: <c>8</c>, <c>most 6 starts an hour</c>.</summary>
/// <param name="Most">The greatest.</param>
internal sealed record CountType(int Most) : PropertyType
{
    /// <summary>The word before it, or null.</summary>
    public string? Before { get; init; }

    /// <summary>What is counted, where that is written.</summary>
    public (string Several, string One)? Counted { get; init; }

    /// <summary>The words at the end.</summary>
    public ImmutableArray<string> After { get; init; } = [];

    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(word, new CountShape(Most), help)];
}

/// <summary>Nothing more than the word: <c>bypass</c>.</summary>
internal sealed record FlagType : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(word, new TrueShape(), help)];
}

/// <summary>The name of something else in the site.</summary>
/// <param name="What">Of what: <c>the name of a supply</c>.</param>
internal sealed record ReferenceType(string What) : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(word, DefinedShape.NameOfSource, help)];
}

/// <summary>One of some words.</summary>
/// <param name="What">What they are: <c>a kind of heads</c>.</param>
/// <param name="Words">The words.</param>
internal sealed record WordType(string What, ImmutableArray<string> Words) : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(word, new WordShape(Words), help)];
}

/// <summary>Names of zones and groups: <c>lawn, beds</c>.</summary>
internal sealed record ZoneNamesType : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(word, new ListShape(DefinedShape.NameOfSource), help)];
}

/// <summary>A date.</summary>
internal sealed record DateType : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(word, DefinedShape.Date, help)];
}

/// <summary>A time zone by its IANA name.</summary>
internal sealed record TimeZoneType : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(word, new TextShape(), help)];
}

/// <summary>A place on Earth: <c>39.6 N 8.1 W 310 m</c>.</summary>
internal sealed record PositionType : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(word, new DefinedShape("location"), help)];
}

/// <summary>Two quantities above zero: <c>40 VA at 24 V</c>.</summary>
/// <param name="First">What the first measures.</param>
/// <param name="FirstHelp">One line of help on the first.</param>
/// <param name="Second">What the second measures.</param>
/// <param name="SecondHelp">One line of help on the second.</param>
internal sealed record PairType(Dimension First, string FirstHelp, Dimension Second, string SecondHelp) : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) =>
        [new(KeyOf(word, First), new NumberShape(Bounds.Positive), FirstHelp), new(KeyOf(word, Second), new NumberShape(Bounds.Positive), SecondHelp)];
}

/// <summary>A number of emitters and the flow of one: <c>12 at 4 L/h</c>.</summary>
internal sealed record EmittersType : CompositeType;

/// <summary>An output, and the controller that has it: <c>2 of shed</c>.</summary>
internal sealed record OutputType : CompositeType;

/// <summary>Outputs, each of another controller: <c>8 of shed, 4 of barn</c>.</summary>
internal sealed record OutputsType : CompositeType;

/// <summary>What a tank holds on a date: <c>200 L on 2026-05-01</c>.</summary>
internal sealed record ContentType : CompositeType;

/// <summary>A flow, and perhaps the levels between which it fills a tank: <c>12 L/min from 500 L to 2 m3</c>.</summary>
internal sealed record RefillType : CompositeType;

/// <summary>A roof and a share: <c>18 m2 at 80 %</c>.</summary>
internal sealed record CatchType : CompositeType;

/// <summary>A share of the water, and the supply whose tank it comes back to: <c>60 % to cistern</c>.</summary>
internal sealed record ReturnsType : CompositeType;

/// <summary>A volume, and the pressures between which a pump fills it: <c>24 L from 2 bar to 3.5 bar</c>.</summary>
internal sealed record PressureTankType : CompositeType;

/// <summary>A length and a section of wire, and how it is made and laid: <c>60 m 1.5 mm2 flexible shared-return</c>.</summary>
internal sealed record WireType : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) =>
    [
        new(KeyOf(word, Dimension.Length), new NumberShape(Bounds.Positive), "Length of its wire, one way."),
        new(KeyOf(word, Dimension.WireSection), new NumberShape(Bounds.Positive), "Section of its wire."),
        new($"{word}_flexible", new TrueShape(), "Whether its conductors are flexible, of class 5 of IEC 60228.") { Form = $"{word} 60 m 1.5 mm2 flexible" },
        new($"{word}_shared_return", new TrueShape(), "Whether it returns through one conductor with others of its controller.")
        {
            Form = $"{word} 60 m 1.5 mm2 shared-return",
        },
    ];
}

/// <summary>A current for a time to the millisecond: <c>2.4 A for 1 s</c>.</summary>
internal sealed record StartingCurrentType : PropertyType
{
    /// <summary>How long it may last, in seconds: a motor that has not started by then is blocked.</summary>
    public static Bounds Bounds { get; } = new(Least: 0, Most: 60, IsAboveLeast: true);

    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) =>
    [
        new(KeyOf(word, Dimension.Current), new NumberShape(Language.Bounds.Positive), "Current as its motor starts."),
        new($"{word}_ms", new NumberShape(Bounds with { Most = 1000 * Bounds.Most }), "For how long."),
    ];
}

/// <summary>A power and a share: <c>2 W efficiency 80 %</c>.</summary>
internal sealed record RechargeType : CompositeType;

/// <summary>A gap or an overlap: <c>gap 5 s</c>.</summary>
internal sealed record ChangeType : CompositeType
{
    /// <summary>How long it may last, in seconds: valves hand over in minutes, and a pass of many parts has to end.</summary>
    public static Bounds Bounds { get; } = new(Least: 0, Most: 86_400, IsAboveLeast: true);
}

/// <summary>A share from a date on: <c>2026-07-06 85 %</c>.</summary>
/// <param name="Bounds">In per cent.</param>
internal sealed record SinceType(Bounds Bounds) : CompositeType;

/// <summary>Means of a month: <c>16.1 C to 27.9 C, rain 4 mm</c>.</summary>
internal sealed record WeatherType : CompositeType;

/// <summary>A currency by its code: <c>EUR</c>.</summary>
internal sealed record CurrencyType : PropertyType
{
    /// <inheritdoc/>
    public override ImmutableArray<DescribedKey> KeysOf(string word, string help) => [new(word, new TextShape(), help)];
}

/// <summary>A number of months and a date: <c>every 2 months from 2026-01-15</c>.</summary>
/// <param name="Most">The greatest number.</param>
internal sealed record BillsType(int Most) : CompositeType;

/// <summary>An amount of money for a length of time: <c>4.50 a month</c>.</summary>
internal sealed record ChargeType : CompositeType;

/// <summary>An amount of money for a volume: <c>2.60 per m3 above 20 m3 from 1 may to 30 sep</c>.</summary>
internal sealed record PriceType : CompositeType;

/// <summary>A volume over a length of time: <c>12 m3 a month</c>.</summary>
internal sealed record OtherUseType : CompositeType;

/// <summary>A battery, or the controller that has it: <c>12 Ah at 12 V</c>, <c>of box</c>.</summary>
internal sealed record BatteryType : CompositeType;

/// <summary>A share for each degree: <c>1 % per C</c>.</summary>
internal sealed record ColdLossType : CompositeType
{
    /// <summary>In per cent a degree.</summary>
    public static Bounds Bounds { get; } = new(Least: 0, Most: 10, IsAboveLeast: true);
}

/// <summary>A panel, its angle and its efficiency: <c>10 W tilt 35 deg efficiency 60 %</c>.</summary>
internal sealed record SolarPanelType : CompositeType
{
    /// <summary>From flat on the ground to upright, in degrees.</summary>
    public static Bounds Tilt { get; } = new(Least: 0, Most: 90);
}

/// <summary>Dates of one year or of every year: <c>on 1 apr, 2027-09-15</c>.</summary>
internal sealed record RenewedType : CompositeType;
