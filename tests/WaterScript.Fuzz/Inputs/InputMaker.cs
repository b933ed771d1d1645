using WaterScript.Fuzz.Mutation;

namespace WaterScript.Fuzz.Inputs;

/// <summary>Makes the inputs of a seed: input <c>k</c> is the same whichever were made before it, and by whom.</summary>
internal sealed class InputMaker(Corpus corpus, ulong seed)
{
    /// <summary>Many small changes leave a site that can be read, which is what most stages need; a few in a row leave one that nobody would write.</summary>
    private const int MostChanges = 4;

    /// <summary>The input of a number.</summary>
    public FuzzInput Make(long index)
    {
        var dice = Dice.For(seed, index);
        var original = dice.Of(dice.OneIn(6) ? corpus.Sites : corpus.Whole);
        var draft = new Draft(original, corpus, dice, isGentle: !dice.OneIn(4));
        var changes = dice.OneIn(40) ? 0 : 1 + Math.Min(dice.Below(MostChanges), dice.Below(MostChanges));
        var recipe = new List<string>();
        for (; changes > 0; changes--)
        {
            var (name, mutate) = Mutators.Pick(dice, draft.IsGentle);
            mutate(draft);
            recipe.Add(name);
        }

        return new FuzzInput(draft.Files with { Name = $"{seed}-{index}" }, original, dice.Below(FuzzInput.Salts),
            $"{original.Name}: {(recipe.Count == 0 ? "as it is" : string.Join(", ", recipe))}");
    }
}
