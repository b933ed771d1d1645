namespace WaterScript.Fuzz.Mutation;

/// <summary>Adds files that a site includes.</summary>
internal static class Includes
{
    private static readonly string[] Paths =
        ["missing.water", "site.water", "./site.water", "../site.water", "/etc/passwd", "a/../b.water", "a//b.water", "", ".", "..", "b.water/", "C:\\b.water",
            "b\u202ewater", "b.water ", "B.WATER"];

    /// <summary>Moves a statement of the root into a file of its own.</summary>
    public static void MoveOut(Draft draft)
    {
        var text = draft.Files.RootText;
        var tops = Outline.Of(text).Where(statement => statement.Depth == 0).ToList();
        if (tops.Count == 0) return;
        var moved = draft.Dice.Of(tops);
        var path = draft.Dice.OneIn(2) ? "part.water" : "parts/more.water";
        draft.Files = draft.Files
            .With(path, moved.Text + "\n")
            .With(draft.Files.Root, text[..moved.Start] + $"include \"{path}\"" + text[moved.End..]);
    }

    /// <summary>Includes itself, nothing, what lies outside, or another site.</summary>
    public static void Odd(Draft draft)
    {
        var path = draft.Dice.Of(Paths);
        if (draft.Dice.OneIn(2)) draft.Files = draft.Files.With(path = "b.water", draft.Dice.Of(draft.Corpus.Texts));
        if (draft.Dice.OneIn(4)) draft.Files = draft.Files.With("b.water", $"include \"{draft.Files.Root}\"\n");
        draft.Change(text => draft.Dice.OneIn(2) ? $"include \"{path}\"\n{text}" : $"{text}\ninclude \"{path}\"");
    }
}
