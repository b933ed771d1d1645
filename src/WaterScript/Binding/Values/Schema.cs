using System.Collections.Immutable;
using NodaTime;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Syntax;

namespace WaterScript.Binding.Values;

/// <summary>
/// The one table of what may stand in the blocks of the language. The binder reads values by it; the reference, completion
/// and hover show it.
/// </summary>
public static class Schema
{
    /// <summary>Every kind of block, in the order of the reference.</summary>
    public static ImmutableArray<BlockSchema> Blocks =>
    [
        Site.Block, Supply.Block, Controller.Block, Power.Block, LatchingValve.Block, NonLatchingValve.Block, Pump.Block,
        Master.Block, Injector.Block, Zone.Block, Soil.Block, Plants.Block, Climate.Block, Scale.Block,
    ];

    private static readonly Bounds Pulse = new(0, 10, IsAboveLeast: true);
    private static readonly Bounds Spacing = new(0, 600);
    private static readonly Bounds ScaleShare = new(0, 1_000);

    /// <summary>From a square centimetre: a rate calculated from less is no rate of any garden.</summary>
    private static readonly Bounds Ground = new(Least: 0.0001m);

    private static Property<T>[] EachMonth<T>(string form, string help, Func<RowCursor, T> read) =>
        [.. DateReader.Months.Select(month => new Property<T>(month, $"{month} {form}", help, read))];

    internal static class Site
    {
        public static readonly Property<DateTimeZone?> TimeZone = new("timezone", "timezone Europe/Lisbon", "Time zone of every clock time, by its IANA name.", PropertyReaders.TimeZone) { IsRequired = true };
        public static readonly Property<LocalDate?> Effective = new("effective", "effective 2026-03-01", "Nothing runs before the start of this date.", PropertyReaders.DateOf) { IsRequired = true };
        public static readonly Property<Position?> Location = new("location", "location 39.6 N 8.1 W 310 m", "Where it lies; the height may be left out. Sun times and climate need it.", PropertyReaders.Place);
        public static readonly Property<NameNode?> Scale = new("scale", "scale year", "The scale of all schedules without one of their own.", PropertyReaders.Reference("the name of a scale")) { Default = "100 %" };
        public static readonly BlockSchema Block = new("site", "The site: one in all files together.", [TimeZone, Effective, Location, Scale]);
    }

    internal static class Supply
    {
        public static readonly Property<Quantity?> Flow = new("flow", "flow 30 L/min", "The most that it gives, measured with the heads running.", PropertyReaders.Amount(Dimension.Flow));
        public static readonly Property<Quantity?> MinimumFlow = new("minimum-flow", "minimum-flow 8 L/min", "The least that its pump may be asked for.", PropertyReaders.Amount(Dimension.Flow));
        public static readonly Property<bool?> Bypass = new("bypass", "bypass", "A bypass takes what is under the minimum.", PropertyReaders.Flag);
        public static readonly Property<Quantity?> Vessel = new("vessel", "vessel 24 L", "Volume of a pressure vessel.", PropertyReaders.Amount(Dimension.Volume));
        public static readonly Property<Quantity?> Tank = new("tank", "tank 8 m3", "Volume of its tank.", PropertyReaders.Amount(Dimension.Volume));
        public static readonly Property<ContentValue?> Contains = new("contains", "contains 200 L on 2026-05-01", "What the tank holds at the start of a date.", PropertyReaders.Content) { Default = "full at the start" };
        public static readonly Property<Quantity?> Refill = new("refill", "refill 4 L/min", "Flow into the tank.", PropertyReaders.Amount(Dimension.Flow, Bounds.NotNegative));
        public static readonly Property<ShareValue?> Catches = new("catches", "catches 18 m2 at 80 %", "Roof that rain is caught from, and the share that reaches the tank.", PropertyReaders.Catch);
        public static readonly Property<Quantity?> Reserve = new("reserve", "reserve 100 L", "What must stay in the tank.", PropertyReaders.Amount(Dimension.Volume, Bounds.NotNegative)) { Default = "0 L" };
        public static readonly Property<Quantity?> Daily = new("daily", "daily 2 m3", "The most in a day, from local midnight.", PropertyReaders.Amount(Dimension.Volume));
        public static readonly Property<ChangeOver?> Change = new("change", "change gap 5 s", "What stands between two waterings of a pass: a gap, or an overlap.", PropertyReaders.Change) { Default = "nothing" };
        public static readonly Property<NameNode?> FedBy = new("fed-by", "fed-by main", "The supply that feeds it.", PropertyReaders.Reference("the name of a supply"));
        public static readonly Property<string?> Backflow = new("backflow", "backflow atmospheric", "Its protection against backflow.", PropertyReaders.Word("a kind of backflow protection", "atmospheric"));
        public static readonly BlockSchema Block = new(
            "supply", "Where water comes from.",
            [Flow, MinimumFlow, Bypass, Vessel, Tank, Contains, Refill, Catches, Reserve, Daily, Change, FedBy, Backflow]);
    }

    internal static class Controller
    {
        public static readonly Property<int?> Outputs = new("outputs", "outputs 8", "Number of its outputs.", PropertyReaders.Count(4_096));
        public static readonly Property<Duration?> SpacingTime = new("spacing", "spacing 300 ms", "Time between two openings.", PropertyReaders.ShortLength(Spacing)) { Default = "0 s" };
        public static readonly Property<int?> AtMost = new("at", "at most 2 zones", "The most zones at once.", PropertyReaders.ZonesAtOnce);
        public static readonly Property<string?> Schedules = new("schedules", "schedules never-overlap", "Whether two schedules may run at once on it.", PropertyReaders.Word("a word about schedules", "may-overlap", "never-overlap")) { Default = "may-overlap" };
        public static readonly Property<Duration?> Clock = new("clock", "clock within 20 s", "How far its clock may be off.", PropertyReaders.ClockWithin);
        public static readonly BlockSchema Block = new("controller", "What switches outputs.", [Outputs, SpacingTime, AtMost, Schedules, Clock]) { Inner = ["power"] };
    }

    internal static class Power
    {
        public static readonly Property<PairValue?> Transformer = new("transformer", "transformer 40 VA at 24 V", "A transformer.", row => PropertyReaders.AmountAt(row, Dimension.ApparentPower, Dimension.Voltage));
        public static readonly Property<PairValue?> Continuous = new("continuous", "continuous 500 mA at 5 V", "Current that it gives for as long as wanted.", row => PropertyReaders.AmountAt(row, Dimension.Current, Dimension.Voltage));
        public static readonly Property<Quantity?> Peak = new("peak", "peak 1 A", "The most current for a moment.", PropertyReaders.Amount(Dimension.Current));
        public static readonly Property<PairValue?> Store = new("store", "store 4700 uF at 24 V", "The capacitor that pulses are drawn from, and its voltage.", row => PropertyReaders.AmountAt(row, Dimension.Capacitance, Dimension.Voltage));
        public static readonly Property<ShareValue?> Recharge = new("recharge", "recharge 2 W efficiency 80 %", "Power that recharges the store, and the share that reaches it.", PropertyReaders.Recharge);
        public static readonly BlockSchema Block = new("power", "The power supply of a controller.", [Transformer, Continuous, Peak, Store, Recharge]);
    }

    internal static class LatchingValve
    {
        public static readonly Property<Duration?> PulseTime = new("pulse", "pulse 50 ms", "Length of the pulse.", PropertyReaders.ShortLength(Pulse));
        public static readonly Property<Duration?> MovesIn = new("moves-in", "moves-in 20 ms", "When in the pulse the plunger moves.", PropertyReaders.ShortLength(Pulse));
        public static readonly Property<Quantity?> Coil = new("coil", "coil 20 ohm", "Resistance of the coil.", PropertyReaders.Amount(Dimension.Resistance));
        public static readonly Property<Quantity?> WorksFrom = new("works-from", "works-from 12 V", "Voltage that it needs to move.", PropertyReaders.Amount(Dimension.Voltage));
        public static readonly BlockSchema Block = new("valve latching", "A pulse opens it, a pulse of the other polarity closes it.", [PulseTime, MovesIn, Coil, WorksFrom]);
    }

    internal static class NonLatchingValve
    {
        public static readonly Property<Quantity?> Inrush = new("inrush", "inrush 400 mA", "Current for the moment of opening.", PropertyReaders.Amount(Dimension.Current));
        public static readonly Property<Quantity?> Holding = new("holding", "holding 220 mA", "Current while open.", PropertyReaders.Amount(Dimension.Current));
        public static readonly Property<Quantity?> WorksFrom = new("works-from", "works-from 19 V", "Voltage that it needs to move.", PropertyReaders.Amount(Dimension.Voltage));
        public static readonly BlockSchema Block = new("valve non-latching", "Open while it is powered.", [Inrush, Holding, WorksFrom]);
    }

    /// <summary>What pumps, masters and injectors have in common.</summary>
    internal static class Device
    {
        public static readonly Property<OutputValue?> Output = new("output", "output 8 of shed", "The output it is wired to; the controller may be left out where there is one.", PropertyReaders.Output);
        public static readonly Property<NameNode?> Supply = new("supply", "supply cistern", "It serves the zones of this supply.", PropertyReaders.Reference("the name of a supply"));
        public static readonly Property<NamesValue?> Zones = new("zones", "zones lawn, beds", "It serves these zones.", PropertyReaders.ZoneNames);
        public static readonly Property<Quantity?> Load = new("load", "load 60 mA", "Current that its output carries.", PropertyReaders.Amount(Dimension.Current));
        public static readonly Property<NameNode?> Valve = new("valve", "valve ac24", "Its kind of valve.", PropertyReaders.Reference("the name of a valve"));
        public static readonly Property<Duration?> Starts = new("starts", "starts 5 s before zones", "When it starts, before or after its first zone opens.", PropertyReaders.Lead) { Default = "with them" };
        public static readonly Property<Duration?> Stops = new("stops", "stops 10 s after zones", "When it stops, before or after its last zone closes.", PropertyReaders.Lead) { Default = "with them" };
        public static readonly Property<Duration?> StaysOnThrough = new("stays-on-through", "stays-on-through 60 s", "Gaps of up to this length leave it on.", PropertyReaders.Length) { Default = "none" };
        public static readonly Property<int?> AtMost = new("at", "at most 6 starts an hour", "The most starts an hour.", PropertyReaders.StartsAnHour);
        public static readonly ImmutableArray<Property> All = [Output, Supply, Zones, Load, Valve, Starts, Stops, StaysOnThrough, AtMost];
    }

    internal static class Pump
    {
        public static readonly BlockSchema Block = new("pump", "Lifts or boosts the water; runs because of its zones.", Device.All);
    }

    internal static class Master
    {
        public static readonly BlockSchema Block = new("master", "A master valve; open because of its zones.", Device.All);
    }

    internal static class Injector
    {
        public static readonly Property<Duration?> After = new("after", "after 5 min", "Water before the dose.", PropertyReaders.Length) { Default = "none" };
        public static readonly Property<Duration?> Rinse = new("rinse", "rinse 8 min", "Water after the dose.", PropertyReaders.Length) { Default = "none" };
        public static readonly BlockSchema Block = new("injector", "Doses into the water of steps that go through it.", [.. Device.All, After, Rinse]);
    }

    internal static class Zone
    {
        public static readonly Property<OutputValue?> Output = new("output", "output 2 of shed", "The output of its valve; the controller may be left out where there is one.", PropertyReaders.Output) { IsRequired = true };
        public static readonly Property<NameNode?> Valve = new("valve", "valve ac24", "Its kind of valve.", PropertyReaders.Reference("the name of a valve"));
        public static readonly Property<NameNode?> Supply = new("supply", "supply cistern", "Where its water comes from; may be left out where there is one.", PropertyReaders.Reference("the name of a supply"));
        public static readonly Property<Quantity?> Flow = new("flow", "flow 14 L/min", "Flow while it is open.", PropertyReaders.Amount(Dimension.Flow));
        public static readonly Property<PairValue?> Emitters = new("emitters", "emitters 12 at 4 L/h", "Number of its emitters and the flow of one, in place of its flow.", PropertyReaders.Emitters);
        public static readonly Property<Quantity?> Area = new("area", "area 120 m2", "Ground that it wets.", PropertyReaders.Amount(Dimension.Area, Ground));
        public static readonly Property<Quantity?> Rate = new("rate", "rate 12 mm/h", "Application rate; with flow and area too, all three agree within 5 %.", PropertyReaders.Amount(Dimension.DepthRate)) { Default = "flow / area" };
        public static readonly Property<string?> Heads = new("heads", "heads spray", "What stands at the end of the pipes.", PropertyReaders.Word("a kind of heads", "drip", "bubbler", "spray", "rotor", "mist"));
        public static readonly Property<decimal?> Efficiency = new("efficiency", "efficiency 80 %", "Share of the water that the plants can use.", PropertyReaders.Share(Bounds.ShareOfWhole));
        public static readonly Property<decimal?> Uniformity = new("uniformity", "uniformity 70 %", "Low-quarter distribution uniformity, in place of the efficiency.", PropertyReaders.Share(Bounds.ShareOfWhole));
        public static readonly Property<NameNode?> Soil = new("soil", "soil loam", "Its soil.", PropertyReaders.Reference("the name of a soil"));
        public static readonly Property<decimal?> Slope = new("slope", "slope 9 %", "Slope of the ground.", PropertyReaders.Share(new Bounds(0, 200))) { Default = "0 %" };
        public static readonly Property<NameNode?> Plants = new("plants", "plants turf-cool", "Its plants.", PropertyReaders.Reference("the name of plants"));
        public static readonly Property<decimal?> Trim = new("trim", "trim 80 %", "A share of every run time.", PropertyReaders.Share(ScaleShare)) { Default = "100 %" };
        public static readonly Property<Duration?> Longest = new("longest", "longest 40 min", "The longest run meant.", PropertyReaders.Length);
        public static readonly Property<Duration?> Shortest = new("shortest", "shortest 2 min", "The shortest run worth it.", PropertyReaders.Length);
        public static readonly Property<Duration?> Rest = new("rest", "rest 30 min", "The least time from closing to opening again.", PropertyReaders.Length);
        public static readonly Property<Duration?> NeverDryFor = new("never-dry-for", "never-dry-for 3 days", "The longest time without water.", PropertyReaders.Length);
        public static readonly Property<PairValue?> Wire = new("wire", "wire 60 m 1.5 mm2", "Length of its wire, one way, and section.", PropertyReaders.Wire);
        public static readonly Property<bool?> Spare = new("spare", "spare", "Wired but not in use.", PropertyReaders.Flag);
        public static readonly BlockSchema Block = new(
            "zone", "An area watered by one valve.",
            [Output, Valve, Supply, Flow, Emitters, Area, Rate, Heads, Efficiency, Uniformity, Soil, Slope, Plants, Trim, Longest, Shortest, Rest, NeverDryFor, Wire, Spare]);
    }

    internal static class Soil
    {
        public static readonly Property<Quantity?> Intake = new("intake", "intake 10 mm/h", "What it takes in.", PropertyReaders.Amount(Dimension.DepthRate));
        public static readonly Property<Quantity?> Holds = new("holds", "holds 150 mm/m", "Water that it holds for plants.", PropertyReaders.Amount(Dimension.DepthHeld));
        public static readonly Property<Quantity?> Ponds = new("ponds", "ponds 5 mm", "Water that may stand on it.", PropertyReaders.Amount(Dimension.Depth, Bounds.NotNegative));
        public static readonly BlockSchema Block = new("soil", "A soil of the file's own.", [Intake, Holds, Ponds]);
    }

    internal static class Plants
    {
        private static readonly Bounds Possible = new(0, 2);
        public static readonly Property<decimal?> Coefficient = new("coefficient", "coefficient 0.9", "Crop coefficient of all months.", row => row.Number(Possible));
        public static readonly Property<decimal?>[] Months = EachMonth("0.9", "Crop coefficient of the month.", row => row.Number(Possible));
        public static readonly Property<Quantity?> Roots = new("roots", "roots 40 cm", "Depth of the roots.", PropertyReaders.Amount(Dimension.Length));
        public static readonly Property<decimal?> Depletion = new("depletion", "depletion 50 %", "Share of the water held that may be used.", PropertyReaders.Share(Bounds.ShareOfWhole));
        public static readonly BlockSchema Block = new("plants", "Plants of the file's own.", [Coefficient, Roots, Depletion, .. Months]);
    }

    internal static class Climate
    {
        public static readonly Property<ClimateMonth?>[] Months = EachMonth("16.1 C to 27.9 C, rain 4 mm", "Means of the month; rain is its total.", PropertyReaders.Weather);
        public static readonly BlockSchema Block = new("climate", "Monthly means of the weather.", [.. Months]);
    }

    internal static class Scale
    {
        public static readonly Property<decimal?>[] Months = EachMonth("110 %", "Share of the written run times in the month.", PropertyReaders.Share(ScaleShare));
        public static readonly Property<SinceValue?> Since = new("since", "since 2026-07-06 85 %", "Share from a date until the next.", PropertyReaders.Since) { MayRepeat = true };
        public static readonly Property<string?> By = new("by", "by climate", "Shares reckoned from the climate.", PropertyReaders.Word("a source of shares", "climate"));
        public static readonly BlockSchema Block = new("scale", "Shares of the written run times.", [Since, By, .. Months]);
    }
}
