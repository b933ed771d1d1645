using WaterScript.Fuzz.Inputs;

namespace WaterScript.Fuzz.Mutation;

/// <summary>An input in the making.</summary>
internal sealed class Draft(SiteFiles files, Corpus corpus, Dice dice, bool isGentle)
{
    /// <summary>The files so far.</summary>
    public SiteFiles Files { get; set; } = files;

    /// <summary>What they are made of.</summary>
    public Corpus Corpus { get; } = corpus;

    /// <summary>Decides everything.</summary>
    public Dice Dice { get; } = dice;

    /// <summary>Whether to prefer changes after which it can still be read.</summary>
    public bool IsGentle { get; } = isGentle;

    /// <summary>One of the files, mostly the root.</summary>
    public string PickPath() => Dice.OneIn(3) ? Dice.Of([.. Files.Files.Keys]) : Files.Root;

    /// <summary>Changes the text of one of the files.</summary>
    public void Change(Func<string, string> change)
    {
        var path = PickPath();
        Files = Files.With(path, change(Files.TextOf(path)));
    }
}
