using WaterScript.Fuzz.Inputs;
using WaterScript.Fuzz.Shrinking;

namespace WaterScript.Fuzz;

/// <summary>The parts of the fuzzer that its own tests look at.</summary>
public static class Fuzzer
{
    private static readonly Lazy<Corpus> Sites = new(Corpus.Read);

    /// <summary>Some inputs of a seed.</summary>
    public static IEnumerable<FuzzInput> InputsOf(ulong seed, int first, int count)
    {
        var maker = new InputMaker(Sites.Value, seed);
        return Enumerable.Range(first, count).Select(index => maker.Make(index));
    }

    /// <summary>Makes an input small that fails in a way.</summary>
    public static FuzzInput Shrink(FuzzInput input, Func<FuzzInput, string?> signatureOf, string signature) =>
        new Shrinker(signatureOf, TimeSpan.FromSeconds(30)).Shrink(input, signature);
}
