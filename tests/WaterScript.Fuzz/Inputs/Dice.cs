namespace WaterScript.Fuzz.Inputs;

/// <summary>
/// Numbers that follow from a seed, the same on every machine and with every version of the runtime: SplitMix64 (Steele, Lea, Flood,
/// "Fast splittable pseudorandom number generators", OOPSLA 2014).
/// </summary>
internal sealed class Dice(ulong seed)
{
    private const ulong Golden = 0x9E3779B97F4A7C15;
    private ulong _state = seed;

    /// <summary>The numbers for one of many inputs of a seed.</summary>
    public static Dice For(ulong seed, long index) => new(new Dice(seed).Next() ^ new Dice((ulong)index * Golden).Next());

    /// <summary>Any number.</summary>
    public ulong Next()
    {
        var z = _state += Golden;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
        return z ^ (z >> 31);
    }

    /// <summary>A number from 0 to one below a bound; 0 where the bound is below 1.</summary>
    public int Below(int bound) => bound < 1 ? 0 : (int)(Next() % (ulong)bound);

    /// <summary>Whether one of so many chances comes up.</summary>
    public bool OneIn(int chances) => Below(chances) == 0;

    /// <summary>One of several; there is at least one.</summary>
    public T Of<T>(IReadOnlyList<T> several) => several[Below(several.Count)];
}
