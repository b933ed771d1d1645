namespace WaterScript.Quantities;

/// <summary>What a quantity measures.</summary>
internal enum Dimension
{
    /// <summary>Elapsed time; the base unit is the second.</summary>
    Time,

    /// <summary>Volume a time; the base unit is L/min.</summary>
    Flow,

    /// <summary>Volume; the base unit is the litre.</summary>
    Volume,

    /// <summary>Depth of water on the ground; the base unit is the millimetre.</summary>
    Depth,

    /// <summary>Depth of water held in a depth of soil; the base unit is mm/m.</summary>
    DepthHeld,

    /// <summary>Depth a time; the base unit is mm/h.</summary>
    DepthRate,

    /// <summary>Length; the base unit is the metre.</summary>
    Length,

    /// <summary>Area; the base unit is the square metre.</summary>
    Area,

    /// <summary>Cross-section of a wire; the base unit is mm².</summary>
    WireSection,

    /// <summary>Electric current; the base unit is the ampere.</summary>
    Current,

    /// <summary>Voltage; the base unit is the volt.</summary>
    Voltage,

    /// <summary>Resistance; the base unit is the ohm.</summary>
    Resistance,

    /// <summary>Capacitance; the base unit is the microfarad.</summary>
    Capacitance,

    /// <summary>Electric charge; the base unit is the ampere-hour.</summary>
    Charge,

    /// <summary>Power; the base unit is the watt.</summary>
    Power,

    /// <summary>Apparent power; the base unit is the volt-ampere.</summary>
    ApparentPower,

    /// <summary>Pressure on the gauge, above that of the air; the base unit is the bar.</summary>
    Pressure,

    /// <summary>An angle; the base unit is the degree.</summary>
    Angle,

    /// <summary>Temperature; the base unit is the degree Celsius.</summary>
    Temperature,

    /// <summary>Wind speed; the base unit is m/s.</summary>
    Wind,

    /// <summary>Sunshine in a day; the base unit is h/day.</summary>
    Sunshine,

    /// <summary>A share of something; the base unit is the per cent.</summary>
    Share,
}
