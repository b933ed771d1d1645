using NodaTime;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Tests.Documents;

/// <summary>A site that has everything an output can say, made by hand.</summary>
internal static class HandMadeSite
{
    private static readonly Location Nowhere = new(SourceText.From("site.water", ""), new TextSpan(0, 0));

    public static Site Full { get; } = Make();

    private static Site Make()
    {
        var tank = new Supply
        {
            Index = 0,
            Name = "tank",
            Origin = Nowhere,
            Flow = Of(6, "gpm"),
            MinimumFlow = Of(2, "L/min"),
            HasBypass = true,
            PressureTank = new(new PressureTank(Of(24, "L").Value, CutIn: Of(2, "bar").Value, CutOut: Of(3.5m, "bar").Value), Of(24, "L").Place),
            Tank = Of(8, "m3"),
            Contains = Of(200, "L"),
            ContainsOn = At(new LocalDate(2026, 5, 1)),
            Refill = Of(4, "L/min"),
            CatchmentArea = Of(18, "m2"),
            CatchmentPercent = At(80m),
            Reserve = Of(60, "L"),
            Daily = Of(60, "m3"),
            Change = new ChangeOver(Nowhere, Duration.FromSeconds(5), IsOverlap: false),
            Backflow = At(BackflowProtection.Atmospheric),
        };
        var shed = new Controller
        {
            Index = 0,
            Name = "shed",
            Label = "The shed",
            Origin = Nowhere,
            Outputs = At(8),
            WrittenStagger = At(Duration.FromMilliseconds(300)),
            AtMostZones = At(2),
            WrittenMayOverlap = At(false),
            ClockWithin = At(Duration.FromSeconds(20)),
            Power = new Power { Origin = Nowhere, Transformer = Of(40, "VA"), TransformerVoltage = Of(24, "V") },
        };
        var deck = new Controller
        {
            Index = 1,
            Name = "on",
            Origin = Nowhere,
            Power = new Power
            {
                Origin = Nowhere,
                Continuous = Of(500, "mA"),
                ContinuousVoltage = Of(5, "V"),
                Peak = Of(1, "A"),
                Capacitor = Of(4.7m, "mF"),
                CapacitorVoltage = Of(24, "V"),
                Recharge = Of(2, "W"),
                RechargeEfficiencyPercent = At(80m),
            },
        };
        var ac = new NonLatchingValve("ac24", null, Nowhere) { Inrush = Of(400, "mA"), Holding = Of(220, "mA"), MinimumVoltage = Of(19, "V") };
        var click = new LatchingValve("click", "Clicks", Nowhere)
        {
            Pulse = At(Duration.FromMilliseconds(50)),
            ResponseTime = At(Duration.FromMilliseconds(15)),
            Coil = Of(20, "ohm"),
            MinimumVoltage = Of(6, "V"),
        };
        var lawn = new Zone
        {
            Index = 0,
            Name = "lawn",
            Label = "Lawn: \"front\", 草 🌱",
            Origin = Nowhere,
            Controller = shed,
            WrittenOutput = At(1),
            Valve = ac,
            Supply = tank,
            Flow = Of(18, "L/min"),
            Area = Of(120, "m2"),
            Method = IrrigationMethod.Rotor,
            EfficiencyPercent = At(75m),
            UniformityPercent = At(70m),
            Soil = new Soil("loam", null, null, Of(9, "mm/h"), Of(155, "mm/m"), [Of(0.30m, "in"), Of(6, "mm"), Of(5, "mm"), Of(4, "mm")]),
            SlopePercent = At(9m),
            Plants = new Plants("tomatoes", "Tomatoes", Nowhere, [null, null, null, null, 0.6m, 0.9m, 1.15m, 1.15m, 0.8m, null, null, null], Of(70, "cm"), 40),
            WrittenTrim = At(90m),
            Longest = At(Duration.FromMinutes(30)),
            Shortest = At(Duration.FromMinutes(2)),
            Rest = At(Duration.FromHours(1)),
            NeverDryFor = At(Duration.FromDays(2)),
            Wire = new(new Wire(Of(500, "ft").Value, Of(18, "AWG").Value), Nowhere),
        };
        var no = new Zone
        {
            Index = 1,
            Name = "no",
            Label = "on",
            Origin = Nowhere,
            Controller = deck,
            WrittenOutput = At(2),
            Valve = click,
            Emitters = At(6m),
            EmitterFlow = Of(4, "L/h"),
            Method = IrrigationMethod.Drip,
        };
        var bare = new Zone { Index = 2, Name = "bare", Origin = Nowhere, Controller = deck, IsSpare = true };
        var lift = new Device
        {
            Index = 0,
            Kind = DeviceKind.Pump,
            Name = "lift",
            Origin = Nowhere,
            Controller = shed,
            WrittenOutput = At(8),
            Zones = [lawn],
            Supply = tank,
            Load = Of(60, "mA"),
            WrittenStart = At(Duration.FromSeconds(2)),
            WrittenStop = At(Duration.FromSeconds(-2)),
            StartsAnHour = At(6),
        };
        var round = new Sequence("round", null, Nowhere, [Water(300, [lawn, no], [lawn]), new PauseStep(Nowhere, Duration.FromMinutes(2))]);

        return new Site
        {
            Name = "garden",
            Label = "Upper: # terraces",
            Origin = Nowhere,
            TimeZone = DateTimeZoneProviders.Tzdb["Europe/Lisbon"],
            TimeZoneData = "2026a",
            Effective = new LocalDate(2026, 3, 1),
            Position = new Position(39.6, -8.1, Of(310, "m")),
            Scale = new ScaleUse(Nowhere, "year", null),
            Supplies = [tank],
            Controllers = [shed, deck],
            Valves = [ac, click],
            Devices = [lift],
            Soils = [new Soil("fill", null, Nowhere, Of(10, "mm/h"), null, [Of(5, "mm")])],
            Plants = [lawn.Plants],
            Climate = new Climate(Nowhere, [.. Enumerable.Range(1, 12).Select(Weather)]),
            Zones = [lawn, no, bare],
            Scales =
            [
                new MonthlyScale("year", null, Nowhere, [null, null, null, 60, 80, 100, 100, 95, 65, null, null, null]),
                new DatedScale("hot", "Heat", Nowhere, [(new LocalDate(2026, 7, 6), 110)]),
            ],
            Holds = [new Hold(Nowhere, [no], new LocalDateTime(2026, 6, 1, 6, 0), null, Duration.FromHours(3), "paint")],
            ClosedSeasons = [new ClosedSeason(Nowhere, new YearlyRange(new YearDay(10, 20), new YearDay(2, 0)), "drained")],
            Sequences = [round],
            Schedules = Schedules(round, lawn, no),
        };
    }

    private static System.Collections.Immutable.ImmutableArray<Schedule> Schedules(Sequence round, Zone lawn, Zone no) =>
    [
        new Schedule
        {
            Index = 0,
            Name = "yes",
            Label = "06:00",
            Origin = Nowhere,
            Days = [new WeekdayDays(Weekdays.Monday | Weekdays.Friday), new OddEvenDays(true), new MonthDays([1, 15]), new LastDayOfMonth(),
                new NthWeekday(-1, IsoDayOfWeek.Tuesday), new YearlyDay(new YearDay(12, 25))],
            Season = new Season(new YearlyRange(new YearDay(3, 15), new YearDay(10, 31))),
            Except = [new DateRange(new LocalDate(2026, 6, 10), new LocalDate(2026, 6, 11)), new IntervalDays(14, Weekdays.Friday)],
            Starts = [new StartAt(1, Nowhere, [], new ClockMoment(Nowhere, 6 * 3600)),
                new StartAt(2, Nowhere, [new WeekdayDays(Weekdays.Monday)], new SunMoment(Nowhere, SunEvent.Sunset, Duration.FromMinutes(-30)))],
            Repeat = new RepeatTimes(Nowhere, Duration.FromMinutes(45), 2),
            Cut = new Cut(Nowhere, new ClockMoment(Nowhere, 23 * 3600), NextDay: true),
            Note = "a\nb\tc",
            Steps = [new RepeatStep(Nowhere, 2, [new RunStep(Nowhere, round), Water(90, [no])])],
        },
        new Schedule
        {
            Index = 1,
            Name = "follow",
            Origin = Nowhere,
            Season = new Season(new DateRange(new LocalDate(2026, 4, 1), LocalDate.MaxIsoValue)),
            Starts = [new StartAfter(1, Nowhere, "yes", Duration.FromMinutes(10))],
            Scale = new ScaleUse(Nowhere, null, 80),
            Steps = [Water(100, [lawn])],
        },
        new Schedule
        {
            Index = 2,
            Name = "night",
            Origin = Nowhere,
            Days = [new IntervalDays(3, null)],
            Season = new Season(new YearlySpan(new YearDay(3, 20), 21)),
            Starts = [new FinishBy(1, Nowhere, [], new ClockMoment(Nowhere, 86_400))],
            Steps = [Water(61, [lawn])],
        },
        new Schedule
        {
            Index = 3,
            Name = "mist",
            Origin = Nowhere,
            Days = [new DateRange(new LocalDate(2026, 3, 28), new LocalDate(2026, 3, 30))],
            Starts = [new StartAt(1, Nowhere, [], new ClockMoment(Nowhere, 0))],
            Repeat = new RepeatUntil(Nowhere, Duration.FromMinutes(8), new SunMoment(Nowhere, SunEvent.Sunset, Duration.Zero), NextDay: false),
            Steps = [Water(12, [no])],
        },
        new Schedule { Index = 4, Name = "walk", Origin = Nowhere, IsManual = true, Steps = [Water(90, [lawn], [no])] },
    ];

    private static WaterStep Water(int seconds, params Zone[][] parts) =>
        new(Nowhere, [.. parts.Select(zones => new ZonePart(Nowhere, [.. zones]))], Duration.FromSeconds(seconds), null, null);

    private static Placed<Quantity> Of(decimal value, string unit) => At(new Quantity(value, Units.Find(unit)!));

    private static Placed<T> At<T>(T value)
        where T : struct => new(value, Nowhere);

    /// <summary>One month with all that can be given, one with its evapotranspiration, and no others.</summary>
    private static ClimateMonth? Weather(int month) => month switch
    {
        7 => new ClimateMonth(Nowhere)
        {
            Coldest = Of(16.1m, "C"),
            Warmest = Of(27.9m, "C"),
            Rain = Of(4, "mm"),
            HumidityLeast = 45,
            HumidityGreatest = 85,
            Wind = Of(10, "km/h"),
            WindHeight = Of(10, "m"),
            Sun = Of(10, "h/day"),
        },
        8 => new ClimateMonth(Nowhere) { Et = Of(6.2m, "mm/day"), Rain = Of(0.2m, "in") },
        _ => null,
    };
}
