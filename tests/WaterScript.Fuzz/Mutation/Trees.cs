namespace WaterScript.Fuzz.Mutation;

/// <summary>Changes whole statements, each with what it holds.</summary>
internal static class Trees
{
    /// <summary>Lines that make a site large from a few words.</summary>
    private static readonly string[] Burdens =
    [
        "repeat every 1 min for 30 passes", "repeat every 10 min until 23:00", "start at 06:00, 06:01, 06:02, 07:00, 08:00", "except 2120-01-01",
            "repeat 30 times { water all for 1 s }", "cycle 10 s soak 10 s",
        "hold all from 2026-05-01 to 2026-05-02 because \"x\"", "closed from 1 nov to 31 mar", "start after example + 5 min", "every day", "on odd days",
            "finish by 06:00", "longest 1 min", "spare", "extra 5 min",
    ];

    /// <summary>Takes one out.</summary>
    public static void Delete(Draft draft) => At(draft, one => one.Source.Remove(one.Start, one.End - one.Start));

    /// <summary>Writes one twice.</summary>
    public static void Double(Draft draft) => At(draft, one => one.Source.Insert(one.End, "\n" + one.Text + "\n"));

    /// <summary>Leaves out a block's own words and braces.</summary>
    public static void Unwrap(Draft draft) =>
        At(draft, one => one.Body < 0 ? one.Source : one.Source[..one.Start] + one.Source[one.Body..(one.End - 1)] + one.Source[one.End..]);

    /// <summary>Puts one into bare braces, or into another's block.</summary>
    public static void Wrap(Draft draft) => At(draft, one =>
    {
        var head = draft.Dice.OneIn(2) ? "" : Other(draft) is { Body: >= 0 } other ? other.Source[other.Start..(other.Body - 1)] : "schedule x ";
        return one.Source[..one.Start] + head + "{ " + one.Text + (one.Text.Contains('\n', StringComparison.Ordinal) ? "\n}" : " }") + one.Source[one.End..];
    });

    /// <summary>Swaps two.</summary>
    public static void Swap(Draft draft) => At(draft, one =>
    {
        var two = draft.Dice.Of(Outline.Of(one.Source));
        var (first, last) = one.Start < two.Start ? (one, two) : (two, one);
        return first.End > last.Start ? one.Source : one.Source[..first.Start] + last.Text + one.Source[first.End..last.Start] + first.Text
            + one.Source[last.End..];
    });

    /// <summary>Puts one of another site before it.</summary>
    public static void Insert(Draft draft) => At(draft, one => Other(draft) is { } other ? one.Source.Insert(one.Start, other.Text + "\n") : one.Source);

    /// <summary>Puts one of the same kind of another site in its place.</summary>
    public static void ReplaceByItsLike(Draft draft) => At(draft, one =>
    {
        for (var tries = 0; tries < 12; tries++)
        {
            if (Other(draft) is { } other && other.Head == one.Head && other.Head.Length > 0) return one.Source[..one.Start] + other.Text
                + one.Source[one.End..];
        }

        return one.Source;
    });

    /// <summary>Adds a line that makes much of little.</summary>
    public static void Burden(Draft draft) => At(draft, one => one.Source.Insert(one.Start, draft.Dice.Of(Burdens) + "\n"));

    /// <summary>The beginning of one text and the end of another.</summary>
    public static void Splice(Draft draft) => draft.Change(text =>
    {
        var other = draft.Dice.Of(draft.Corpus.Texts);
        return text[..draft.Dice.Below(text.Length + 1)] + other[draft.Dice.Below(other.Length + 1)..];
    });

    private static Statement? Other(Draft draft)
    {
        var others = Outline.Of(draft.Dice.Of(draft.Corpus.Texts));
        return others.Count == 0 ? null : draft.Dice.Of(others);
    }

    private static void At(Draft draft, Func<Statement, string> change) => draft.Change(text =>
    {
        var all = Outline.Of(text);
        return all.Count == 0 ? text : change(draft.Dice.Of(all));
    });
}
