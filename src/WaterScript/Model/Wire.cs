using WaterScript.Quantities;

namespace WaterScript.Model;

/// <summary>The wire from a controller to what it switches.</summary>
/// <param name="Length">Its length, one way.</param>
/// <param name="Section">Its section, in mm² or AWG.</param>
/// <param name="IsFlexible">Whether its conductors are flexible, of class 5 of IEC 60228; otherwise of class 1 or 2.</param>
/// <param name="SharesReturn">Whether it returns through one conductor with the others of its controller that do.</param>
internal readonly record struct Wire(Quantity Length, Quantity Section, bool IsFlexible = false, bool SharesReturn = false)
{
    /// <summary>As it is written, but for its length: <c>1.5 mm2 flexible</c>.</summary>
    public string Kind => IsFlexible ? $"{Section} flexible" : $"{Section}";
}

/// <summary>The current that a motor draws as it starts.</summary>
/// <param name="Current">The current.</param>
/// <param name="Length">For how long.</param>
internal readonly record struct StartingCurrent(Quantity Current, NodaTime.Duration Length);
