namespace WaterScript.Answers.Audit.Water;

/// <summary>What a meter has of a watering, beside what its flow would give in the same time.</summary>
/// <param name="Litres">By the meter.</param>
/// <param name="Seconds">The time that they are of.</param>
/// <param name="Expected">Litres by that time and the flow of the zone; null where the flow is not known.</param>
internal sealed record MeteredWatering(decimal Litres, decimal Seconds, decimal? Expected)
{
    /// <summary>Meters mostly show whole litres, so less is no evidence of anything.</summary>
    public const decimal LeastLitres = 1;

    /// <summary>A zone of unknown flow that is open for so many seconds takes some water, even by drip.</summary>
    private const int SecondsOfSomeWater = 300;

    /// <summary>Whether a meter would show some of what is due.</summary>
    public bool IsWorthWater => Expected is { } expected ? expected >= LeastLitres : Seconds >= SecondsOfSomeWater;
}
