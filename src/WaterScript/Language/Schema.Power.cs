using WaterScript.Quantities;

namespace WaterScript.Language;

/// <content>Where the current of a controller comes from, and the valves that it moves.</content>
internal static partial class Schema
{
    internal static class Power
    {
        private const int MostDaysWithoutSun = 366;

        public static readonly Property<PairType> Transformer =
            new("transformer", "transformer 40 VA at 24 V", "A transformer.",
            new(Dimension.ApparentPower, "Apparent power of the transformer.", Dimension.Voltage, "Its voltage."));
        public static readonly Property<PairType> Continuous =
            new("continuous", "continuous 500 mA at 5 V", "Current that it gives for as long as needed.",
            new(Dimension.Current, "Current for as long as needed.", Dimension.Voltage, "Voltage of that current."));
        public static readonly Property<AmountType> Peak = new("peak", "peak 1 A", "The most current for a moment.", Amount(Dimension.Current));
        public static readonly Property<PairType> Capacitor =
            new("capacitor", "capacitor 4700 uF at 24 V", "The capacitor that pulses are drawn from, and its voltage.",
            new(Dimension.Capacitance, "Capacitance that pulses are drawn from.", Dimension.Voltage, "Voltage to which it is charged."));
        public static readonly Property<RechargeType> Recharge =
            new("recharge", "recharge 2 W efficiency 80 %", "Power that recharges the capacitor, and the share that reaches it.", new())
            {
                Keys =
            [
                new("recharge_w", new NumberShape(Bounds.Positive), "Power that recharges the capacitor."),
                new("recharge_efficiency_percent", new NumberShape(Bounds.ShareOfWhole), "Share of that power that reaches it."),
            ],
            };
        public static readonly Property<BatteryType> Battery =
            new("battery", "battery 12 Ah at 12 V", "The battery that it lives on, or the controller whose battery that is.", new())
            {
                Keys =
            [
                new("battery_ah", new NumberShape(Bounds.Positive), "Charge of its battery."),
                new("battery_v", new NumberShape(Bounds.Positive), "Voltage of its battery."),
                new("battery_of", DefinedShape.NameOfSource, "The controller that it shares the battery of.") { Form = "battery of box" },
            ],
            };
        public static readonly Property<ShareType> Usable =
            new("usable", "usable 50 %", "The share of the battery that may be used.", new(Bounds.ShareOfWhole)) { Default = "50 %" };
        public static readonly Property<ColdLossType> ColdLoss =
            new("cold-loss", "cold-loss 1 % per C", "What each degree of a month's mean minimum below 25 °C takes of that.", new())
            {
                Default = "nothing",
                Keys = [new("cold_loss_percent_per_c", new NumberShape(ColdLossType.Bounds), "What each degree below 25 °C takes of what may be used.")],
            };
        public static readonly Property<AmountType> Standby =
            new("standby", "standby 15 mA", "What it draws from the battery at all times.", Amount(Dimension.Current));
        public static readonly Property<SolarPanelType> SolarPanel =
            new("solar-panel", "solar-panel 10 W tilt 35 deg efficiency 60 %",
            "The panel that charges the battery, towards the equator, and what of it arrives.", new())
            {
                Keys =
            [
                new("solar_panel_w", new NumberShape(Bounds.Positive), "Peak power of its panel."),
                new("solar_panel_tilt_deg", new NumberShape(SolarPanelType.Tilt), "Angle of the panel to the ground.")
                {
                    Form = "solar-panel 10 W tilt 35 deg",
                },
                new("solar_panel_efficiency_percent", new NumberShape(Bounds.ShareOfWhole), "Share of its yield that reaches the battery."),
            ],
            };
        public static readonly Property<RenewedType> Renewed =
            new("renewed", "renewed on 1 apr", "Dates on which the battery is full again, charged or replaced; several by comma.", new())
            {
                Keys = [new("renewed_on", new ListShape(new TextShape(), Least: 1), "Dates on which the battery is full again, `2027-04-01` or `04-01`.")],
            };
        public static readonly Property<CountType> Autonomy =
            new("autonomy", "autonomy 5 days", "Days that the battery has to last without any sun.", new(MostDaysWithoutSun) { Counted = ("days", "day") })
            {
                Keys = [new("autonomy_days", new CountShape(MostDaysWithoutSun), "Days that the battery has to last without any sun.")],
            };
        public static readonly BlockSchema Block = new(
            "power", "The power supply of a controller.",
            [Transformer, Continuous, Peak, Capacitor, Recharge, Battery, Usable, ColdLoss, Standby, SolarPanel, Renewed, Autonomy])
        {
            Section = "controllers/power",
        };
    }

    internal static class LatchingValve
    {
        public static readonly Property<ShortTimeType> PulseTime = new("pulse", "pulse 50 ms", "Length of the pulse.", new(Pulse));
        public static readonly Property<ShortTimeType> ResponseTime =
            new("response-time", "response-time 20 ms", "When in the pulse the plunger moves.", new(Pulse));
        public static readonly Property<AmountType> Coil = new("coil", "coil 20 ohm", "Resistance of the coil.", Amount(Dimension.Resistance));
        public static readonly Property<AmountType> MinimumVoltage =
            new("minimum-voltage", "minimum-voltage 12 V", "Voltage that it needs to move.", Amount(Dimension.Voltage));
        public static readonly BlockSchema Block =
            new("valve latching", "A pulse opens it, a pulse of the other polarity closes it.", [PulseTime, ResponseTime, Coil, MinimumVoltage])
            {
                Section = "valves"
            };
    }

    internal static class NonLatchingValve
    {
        public static readonly Property<AmountType> Inrush = new("inrush", "inrush 400 mA", "Current for the moment of opening.", Amount(Dimension.Current));
        public static readonly Property<AmountType> Holding = new("holding", "holding 220 mA", "Current while open.", Amount(Dimension.Current));
        public static readonly Property<AmountType> MinimumVoltage =
            new("minimum-voltage", "minimum-voltage 19 V", "Voltage that it needs to move.", Amount(Dimension.Voltage));
        public static readonly BlockSchema Block = new("valve non-latching", "Open while it is powered.", [Inrush, Holding, MinimumVoltage])
        {
            Section = "valves"
        };
    }
}
