using System.Collections.Immutable;
using WaterScript.Quantities;

namespace WaterScript.Language;

/// <summary>
/// The one table of what may stand in the blocks of the language. The binder reads values by it; the reference, the described site of a
/// timetable and its JSON Schema follow from it.
/// </summary>
internal static partial class Schema
{
    /// <summary>Every kind of block, in the order of the reference.</summary>
    public static ImmutableArray<BlockSchema> Blocks =>
    [
        Site.Block, Supply.Block, Tariff.Block, Controller.Block, Power.Block, LatchingValve.Block, NonLatchingValve.Block, Pump.Block,
        Master.Block, Injector.Block, Zone.Block, Soil.Block, Plants.Block, Climate.Block, Scale.Block,
    ];

    private static readonly Bounds Pulse = new(0, 10, IsAboveLeast: true);
    private static readonly Bounds Stagger = new(0, 600);
    private static readonly Bounds ScaleShare = new(0, 1_000);
    private static readonly Bounds EmitterCount = new(1, 1_000_000);

    /// <summary>From a square centimetre: a rate calculated from less is no rate of any garden.</summary>
    private static readonly Bounds Ground = new(Least: 0.0001m);

    private const int MostOutputs = 4_096;

    private static readonly ImmutableArray<DescribedKey> OutputKeys =
    [
        new("controller", DefinedShape.NameOfSource, "The controller that it is wired to.") { IsAlways = true },
        new("output", new CountShape(MostOutputs), "Output of the controller."),
    ];

    private static readonly ImmutableArray<DescribedKey> ZoneOutputKeys =
    [
        OutputKeys[0] with { IsAlways = false, Help = "The controller that it is wired to; missing where somebody waters it by hand." },
        OutputKeys[1],
    ];

    private static AmountType Amount(Dimension dimension, Bounds? bounds = null) => new(dimension, bounds ?? Bounds.Positive);

    private static ReferenceType Reference(string what) => new(what);

    private static WordType Word(string what, params ImmutableArray<string> words) => new(what, words);

    private static ImmutableArray<Property<T>> EachMonth<T>(string form, string help, T type, Func<string, DescribedKey> keyOf)
        where T : PropertyType => [.. MonthNames.All.Select(month => new Property<T>(month, $"{month} {form}", help, type) { Keys = [keyOf(month)] })];

    internal static class Site
    {
        public static readonly Property<TimeZoneType> TimeZone =
            new("timezone", "timezone Europe/Lisbon", "Time zone of every clock time, by its IANA name.", new())
            {
                IsRequired = true,
                IsAlwaysDescribed = true
            };
        public static readonly Property<DateType> Effective =
            new("effective", "effective 2026-03-01", "Nothing runs before the start of this date.", new()) { IsRequired = true, IsAlwaysDescribed = true };
        public static readonly Property<PositionType> Location =
            new("location", "location 39.6 N 8.1 W 310 m", "Where it lies; the height may be left out. Sun times and climate need it.", new());
        public static readonly Property<ReferenceType> Scale =
            new("scale", "scale year", "The scale of all schedules without one of their own.", Reference("the name of a scale"))
            {
                Default = "100 %",
                Keys = [new("scale", DefinedShape.NameOfSource) { Section = "schedules" }],
            };
        public static readonly BlockSchema Block =
            new("site", "The site: one in all files together.", [TimeZone, Effective, Location, Scale]) { Section = "site" };
    }

    internal static class Supply
    {
        private const string RefillWithLevels = "refill 12 L/min from 500 L to 2 m3";

        public static readonly Property<AmountType> Flow =
            new("flow", "flow 30 L/min", "The most that it gives, measured with zones open.", Amount(Dimension.Flow));
        public static readonly Property<AmountType> MinimumFlow =
            new("minimum-flow", "minimum-flow 8 L/min", "The least that its pump may be asked for.", Amount(Dimension.Flow));
        public static readonly Property<FlagType> Bypass = new("bypass", "bypass", "A bypass takes what is under the minimum.", new());
        public static readonly Property<PressureTankType> PressureTank =
            new("pressure-tank", "pressure-tank 24 L from 2 bar to 3.5 bar", "A pressure tank, and where its pump cuts in and out on the gauge.", new())
            {
                Keys =
            [
                new("pressure_tank_l", new NumberShape(Bounds.Positive), "Volume of its pressure tank.") { Form = "pressure-tank 24 L" },
                new("pressure_tank_from_bar", new NumberShape(Bounds.NotNegative), "Pressure at which the pump cuts in."),
                new("pressure_tank_to_bar", new NumberShape(Bounds.Positive), "Pressure at which the pump cuts out."),
            ],
            };
        public static readonly Property<AmountType> Tank = new("tank", "tank 8 m3", "Volume of its tank.", Amount(Dimension.Volume));
        public static readonly Property<ContentType> Contains =
            new("contains", "contains 200 L on 2026-05-01", "What the tank holds at the start of a date.", new())
            {
                Default = "full at the start",
                Keys =
            [
                new("contains_l", new NumberShape(Bounds.NotNegative), "What the tank holds on `contains_on`."),
                new("contains_on", DefinedShape.Date, "The start of that date."),
            ],
            };
        public static readonly Property<RefillType> Refill = new("refill", "refill 4 L/min", "Flow into the tank.", new())
        {
            Keys =
            [
                new("refill_l_per_min", new NumberShape(Bounds.NotNegative), "Flow into the tank."),
                new("refill_from_l", new NumberShape(Bounds.NotNegative), "Level down to which the tank falls before it begins.") { Form = RefillWithLevels },
                new("refill_to_l", new NumberShape(Bounds.Positive), "Level at which it ends.") { Form = RefillWithLevels },
            ],
        };
        public static readonly Property<CatchType> Catchment =
            new("catchment", "catchment 18 m2 at 80 %", "Roof that rain is caught from, and the share that reaches the tank.", new())
            {
                Keys =
            [
                new("catchment_m2", new NumberShape(Bounds.Positive), "Roof area that rain is caught from."),
                new("catchment_percent", new NumberShape(Bounds.ShareOfWhole), "Share of that rain that reaches the tank."),
            ],
            };
        public static readonly Property<AmountType> Reserve =
            new("reserve", "reserve 100 L", "What must stay in the tank.", Amount(Dimension.Volume, Bounds.NotNegative)) { Default = "0 L" };
        public static readonly Property<AmountType> Daily = new("daily", "daily 2 m3", "The most in a day, from local midnight.", Amount(Dimension.Volume));
        public static readonly Property<ChangeType> Change =
            new("change-over", "change-over gap 5 s", "What stands between two waterings of a pass: a gap, or an overlap.", new())
            {
                Default = "nothing",
                Keys =
            [
                new("change_over_gap_s", new NumberShape(ChangeType.Bounds), "Nothing is open for so long between two waterings."),
                new("change_over_overlap_s", new NumberShape(ChangeType.Bounds), "Both are open for so long between two waterings.")
                {
                    Form = "change-over overlap 5 s"
                },
            ],
            };
        public static readonly Property<ReferenceType> FedBy = new("fed-by", "fed-by main", "The supply that feeds it.", Reference("the name of a supply"));
        public static readonly Property<WordType> Backflow =
            new("backflow", "backflow atmospheric", "Its protection against backflow.", Word("a kind of backflow protection", "atmospheric"))
            {
                Keys = [new("atmospheric_backflow", new TrueShape(), "Whether an atmospheric vacuum breaker stands behind it.")],
            };
        public static readonly Property<ReferenceType> Tariff = new("tariff", "tariff town", "What its water costs.", Reference("the name of a tariff"));
        public static readonly Property<OtherUseType> OtherUse =
            new("other-use", "other-use 12 m3 a month", "What else goes through its meter, a day, month or year.", new())
            {
                Default = "none",
                Keys =
            [
                new("other_use_l", new NumberShape(Bounds.NotNegative), "What else goes through its meter in an `other_use_per`."),
                new("other_use_per", new WordShape(["day", "month", "year"]), "Over what it is spread evenly.") { Form = "other-use 1 m3 a day" },
            ],
            };
        public static readonly BlockSchema Block = new(
            "supply", "Where water comes from.",
            [Flow, MinimumFlow, Bypass, PressureTank, Tank, Contains, Refill, Catchment, Reserve, Daily, Change, FedBy, Backflow, Tariff, OtherUse])
        {
            Section = "supplies",
        };
    }

    internal static class Controller
    {
        public static readonly Property<CountType> Outputs = new("outputs", "outputs 8", "Number of its outputs.", new(MostOutputs));
        public static readonly Property<ShortTimeType> StaggerTime =
            new("stagger", "stagger 300 ms", "Time between two openings.", new(Stagger)) { Default = "0 s", IsAlwaysDescribed = true };
        public static readonly Property<CountType> AtMost =
            new("at", "at most 2 zones", "The most zones at once.", new(MostOutputs) { Before = "most", Counted = ("zones", "zone") })
            {
                Keys = [new("at_most_zones", new CountShape(MostOutputs), "The most zones at once.")],
            };
        public static readonly Property<WordType> Schedules =
            new("schedules", "schedules never-overlap", "Whether two schedules may run at once on it; not said, it is reported as advice.",
            Word("a word about schedules", "may-overlap", "never-overlap"))
            {
                Keys = [new("schedules_may_overlap", new TrueOrFalseShape(), "Whether two schedules may run at once on it.")],
            };
        public static readonly Property<TimeType> Clock = new("clock", "clock within 20 s", "How far its clock may be off.", new() { Before = ["within"] });
        public static readonly BlockSchema Block =
            new("controller", "What switches outputs.", [Outputs, StaggerTime, AtMost, Schedules, Clock]) { Inner = ["power"], Section = "controllers" };
    }

    /// <summary>What pumps, masters and injectors have in common.</summary>
    internal static class Device
    {
        public static readonly Property<OutputsType> Output =
            new("output", "output 8 of shed", "The outputs it is wired to, one of each controller; that may be left out where there is one.", new())
            {
                Keys =
            [
                .. OutputKeys,
                new("further_outputs", new ListShape(new DefinedShape("wired_output"), Least: 1), "The outputs of other controllers that switch it, too.")
                {
                    Form = "output 8 of shed, 4 of hut",
                },
            ],
            };
        public static readonly Property<ReferenceType> Supply =
            new("supply", "supply cistern", "It serves the zones of this supply.", Reference("the name of a supply"));
        public static readonly Property<ZoneNamesType> Zones = new("zones", "zones lawn, beds", "It serves these zones.", new()) { IsAlwaysDescribed = true };
        public static readonly Property<AmountType> Flow =
            new("flow", "flow 40 L/min", "The most that it gives or lets through.", Amount(Dimension.Flow));
        public static readonly Property<AmountType> Motor =
            new("motor", "motor 1.1 kW", "Power that its motor draws while it is on.", Amount(Dimension.Power));
        public static readonly Property<AmountType> Load = new("load", "load 60 mA", "Current that its output carries.", Amount(Dimension.Current));
        public static readonly Property<ReferenceType> Valve = new("valve", "valve ac24", "Its kind of valve.", Reference("the name of a valve"));
        public static readonly Property<StartingCurrentType> Inrush =
            new("inrush", "inrush 2.4 A for 1 s", "Current as its motor starts, and for how long.", new());
        public static readonly Property<AmountType> MinimumVoltage =
            new("minimum-voltage", "minimum-voltage 19 V", "Voltage that it needs to start.", Amount(Dimension.Voltage));
        public static readonly Property<WireType> Wire =
            new("wire", "wire 20 m 2.5 mm2", "Length of its wire, one way, and section.", new());
        public static readonly Property<LeadType> Starts =
            new("starts", "starts 5 s before zones", "When it starts, before or after its first zone opens.", new())
            {
                Default = "with them",
                IsAlwaysDescribed = true
            };
        public static readonly Property<LeadType> Stops =
            new("stops", "stops 10 s after zones", "When it stops, before or after its last zone closes.", new())
            {
                Default = "with them",
                IsAlwaysDescribed = true
            };
        public static readonly Property<TimeType> Bridges =
            new("bridges", "bridges gaps up to 60 s", "Gaps of up to this length leave it on.", new() { Before = ["gaps", "up", "to"] })
            {
                Default = "none",
                IsAlwaysDescribed = true
            };
        public static readonly Property<CountType> AtMost =
            new("at", "at most 6 starts an hour", "The most starts an hour.",
            new(3_600) { Before = "most", Counted = ("starts", "start"), After = ["an", "hour"] })
            {
                Keys = [new("starts_an_hour", new CountShape(3_600), "The most starts an hour.")],
            };
        public static readonly ImmutableArray<Property> All =
            [Output, Supply, Zones, Flow, Motor, Load, Valve, Inrush, MinimumVoltage, Wire, Starts, Stops, Bridges, AtMost];
    }

    internal static class Pump
    {
        public static readonly BlockSchema Block = new("pump", "Lifts or boosts the water; runs because of its zones.", Device.All) { Section = "pumps" };
    }

    internal static class Master
    {
        public static readonly BlockSchema Block = new("master", "A master valve; open because of its zones.", Device.All) { Section = "pumps" };
    }

    internal static class Injector
    {
        public static readonly Property<TimeType> After = new("after", "after 5 min", "Water before the dose.", new()) { Default = "none" };
        public static readonly Property<TimeType> Rinse = new("rinse", "rinse 8 min", "Water after the dose.", new()) { Default = "none" };
        public static readonly Property<AmountType> Doses =
            new("doses", "doses 10 L/h", "What it doses in a time, for doses by amount.", Amount(Dimension.Flow));
        public static readonly BlockSchema Block =
            new("injector", "Doses into the water of steps that go through it.", [.. Device.All, After, Rinse, Doses]) { Section = "pumps" };
    }

    internal static class Zone
    {
        public static readonly Property<OutputType> Output =
            new("output", "output 2 of shed", "The output of its valve; the controller may be left out where there is one.", new())
            {
                IsRequired = true,
                OrElse = "hand-watered",
                Keys = ZoneOutputKeys,
            };
        public static readonly Property<FlagType> HandWatered =
            new("hand-watered", "hand-watered", "Somebody waters it by hand, in place of an output.", new());
        public static readonly Property<ReferenceType> Valve = new("valve", "valve ac24", "Its kind of valve.", Reference("the name of a valve"));
        public static readonly Property<ReferenceType> Supply =
            new("supply", "supply cistern", "Where its water comes from; may be left out where there is one.", Reference("the name of a supply"));
        public static readonly Property<AmountType> Flow = new("flow", "flow 14 L/min", "Flow while it is open.", Amount(Dimension.Flow))
        {
            Keys = [new("flow_l_per_min", new NumberShape(Bounds.Positive), "Flow while it is open, of all emitters where they are given.")],
        };
        public static readonly Property<EmittersType> Emitters =
            new("emitters", "emitters 12 at 4 L/h", "Number of its emitters and the flow of one, in place of its flow.", new())
            {
                Keys =
            [
                new("emitters", new NumberShape(EmitterCount), "Number of its emitters."),
                new("flow_l_per_min", new NumberShape(Bounds.Positive), "Flow of all of them."),
            ],
            };
        public static readonly Property<AmountType> Area = new("area", "area 120 m2", "Ground that it wets.", Amount(Dimension.Area, Ground));
        public static readonly Property<AmountType> Rate =
            new("rate", "rate 12 mm/h", "Application rate; with flow and area too, all three agree within 5 %.",
            Amount(Dimension.DepthRate))
            { Default = "flow / area" };
        public static readonly Property<WordType> Method =
            new("method", "method spray", "How it is watered.", Word("a method", "drip", "bubbler", "spray", "rotor", "mist"));
        public static readonly Property<ShareType> Efficiency =
            new("efficiency", "efficiency 80 %", "Share of the water that the plants can use.", new(Bounds.ShareOfWhole));
        public static readonly Property<ShareType> Uniformity =
            new("uniformity", "uniformity 70 %", "Low-quarter distribution uniformity, in place of the efficiency.", new(Bounds.ShareOfWhole));
        public static readonly Property<ReturnsType> Returns =
            new("returns", "returns 60 % to cistern", "Share of its water that runs back to the tank of a supply.", new())
            {
                Keys =
            [
                new("returns_percent", new NumberShape(Bounds.ShareOfWhole), "Share of its water that runs back to a tank."),
                new("returns_to", DefinedShape.NameOfSource, "The supply of that tank."),
            ],
            };
        public static readonly Property<ReferenceType> Soil = new("soil", "soil loam", "Its soil.", Reference("the name of a soil"));
        public static readonly Property<ShareType> Slope = new("slope", "slope 9 %", "Slope of the ground.", new(new Bounds(0, 200))) { Default = "0 %" };
        public static readonly Property<ReferenceType> Plants = new("plants", "plants turf-cool", "Its plants, or `none`.", Reference("the name of plants"));
        public static readonly Property<ShareType> Trim =
            new("trim", "trim 80 %", "A share of every run time.", new(ScaleShare)) { Default = "100 %", IsAlwaysDescribed = true };
        public static readonly Property<TimeType> Longest = new("longest", "longest 40 min", "The longest run meant.", new());
        public static readonly Property<TimeType> Shortest = new("shortest", "shortest 2 min", "The shortest run worth it.", new());
        public static readonly Property<TimeType> Rest = new("rest", "rest 30 min", "The least time from closing to opening again.", new());
        public static readonly Property<TimeType> NeverDryFor = new("never-dry-for", "never-dry-for 3 days", "The longest time without water.", new());
        public static readonly Property<WireType> Wire =
            new("wire", "wire 60 m 1.5 mm2", "Length of its wire, one way, and section.", new());
        public static readonly Property<FlagType> Spare = new("spare", "spare", "Wired but not in use.", new());
        public static readonly BlockSchema Block = new(
            "zone", "An area watered by one valve, or by hand.",
            [Output, HandWatered, Valve, Supply, Flow, Emitters, Area, Rate, Method, Efficiency, Uniformity, Returns, Soil, Slope, Plants, Trim, Longest,
                Shortest, Rest, NeverDryFor, Wire, Spare])
        {
            Section = "zones",
        };
    }

    internal static class Soil
    {
        public static readonly Property<AmountType> Intake = new("intake", "intake 10 mm/h", "What it takes in.", Amount(Dimension.DepthRate));
        public static readonly Property<AmountType> Holds = new("holds", "holds 150 mm/m", "Water that it holds for plants.", Amount(Dimension.DepthHeld));
        public static readonly Property<AmountType> Ponds =
            new("ponds", "ponds 5 mm", "Water that may stand on it.", Amount(Dimension.Depth, Bounds.NotNegative))
            {
                Keys =
            [
                new("ponds_mm", new ListShape(new NumberShape(Bounds.NotNegative), Least: 1, Most: 4),
                    "Water that may stand on it: for every slope, or for slopes of up to 3, 6, 12 and more per cent."),
            ],
            };
        public static readonly BlockSchema Block = new("soil", "A soil of the file's own.", [Intake, Holds, Ponds]) { Section = "soils" };
    }

    internal static class Plants
    {
        private static readonly Bounds Possible = new(0, 2);
        public static readonly Property<NumberType> Coefficient = new("coefficient", "coefficient 0.9", "Crop coefficient of all months.", new(Possible))
        {
            Keys = [new("coefficients", new DefinedShape("coefficients"), "Crop coefficients; a month without one has no plants in the ground.")],
        };
        public static readonly ImmutableArray<Property<NumberType>> Months =
            EachMonth("0.9", "Crop coefficient of the month.", new NumberType(Possible), month => Coefficient.Keys[0] with { Inner = month });
        public static readonly Property<AmountType> Roots = new("roots", "roots 40 cm", "Depth of the roots.", Amount(Dimension.Length));
        public static readonly Property<ShareType> Depletion =
            new("allowed-depletion", "allowed-depletion 50 %", "Share of the water held that may be used.", new(Bounds.ShareOfWhole));
        public static readonly BlockSchema Block =
            new("plants", "Plants of the file's own.", [Coefficient, Roots, Depletion, .. Months]) { Section = "plants" };
    }

    internal static class Climate
    {
        public static readonly ImmutableArray<Property<WeatherType>> Months =
            EachMonth("16.1 C to 27.9 C, rain 4 mm", "Means of the month; rain is its total.", new WeatherType(),
            month => new DescribedKey(month, new DefinedShape("climateMonth")));
        public static readonly Property<FlagType> Coast =
            new("coast", "coast", "It lies by the sea, which makes the days milder for as much sun.", new());
        public static readonly BlockSchema Block = new("climate", "Monthly means of the weather.", [.. Months, Coast]) { Section = "climate" };
    }

    internal static class Scale
    {
        public static readonly ImmutableArray<Property<ShareType>> Months =
            EachMonth("110 %", "Share of the written run times in the month.", new ShareType(ScaleShare),
            month => new DescribedKey("months_percent", new DefinedShape("monthsPercent")) { Inner = month });
        public static readonly Property<SinceType> Since = new("since", "since 2026-07-06 85 %", "Share from a date until the next.", new(ScaleShare))
        {
            MayRepeat = true,
            Keys = [new("since", new ListShape(new DefinedShape("since")), "Shares, each from a date until the next.")],
        };
        public static readonly Property<WordType> By = new("by", "by climate", "Shares calculated from the climate.", Word("a source of shares", "climate"))
        {
            Keys = [new("by_climate", new TrueShape(), "Calculated from the site's climate.")],
        };
        public static readonly BlockSchema Block = new("scale", "Shares of the written run times.", [Since, By, .. Months]) { Section = "scales" };
    }
}
