using WaterScript.Simulation.Electrical;

namespace WaterScript.Wording;

/// <summary>How currents and apparent powers are said.</summary>
internal static class PowerWords
{
    /// <summary>A sum in the unit of a limit: <c>41.28 VA</c>.</summary>
    public static string Say(this PowerLimit limit, decimal amount) => Phrases.Amount(amount, limit.Amount.Unit, limit.Amount.Unit.Symbol == "mA" ? 0 : 2);
}
