using System.Text.RegularExpressions;

namespace WaterScript.Fuzz.Mutation;

/// <summary>Changes words, numbers and signs, whatever statement they are in. What a token is, is judged here and not by the language's own lexer.</summary>
internal static partial class Tokens
{
    /// <summary>Takes some out.</summary>
    public static void Delete(Draft draft) => At(draft, (text, match) => text.Remove(match.Index, match.Length));

    /// <summary>Writes one twice.</summary>
    public static void Double(Draft draft) => At(draft, (text, match) => text.Insert(match.Index, match.Value + (draft.Dice.OneIn(2) ? " " : "")));

    /// <summary>Puts one of any site in its place.</summary>
    public static void Replace(Draft draft) =>
        At(draft, (text, match) => text.Remove(match.Index, match.Length).Insert(match.Index, draft.Dice.Of(draft.Corpus.Words)));

    /// <summary>Swaps two.</summary>
    public static void Swap(Draft draft) => draft.Change(text =>
    {
        var all = Token().Matches(text);
        if (all.Count < 2) return text;
        var (one, two) = (draft.Dice.Below(all.Count), draft.Dice.Below(all.Count));
        var (first, last) = (all[Math.Min(one, two)], all[Math.Max(one, two)]);
        return one == two ? text : text[..first.Index] + last.Value + text[(first.Index + first.Length)..last.Index] + first.Value
            + text[(last.Index + last.Length)..];
    });

    private static void At(Draft draft, Func<string, Match, string> change) => draft.Change(text =>
    {
        var all = Token().Matches(text);
        return all.Count == 0 ? text : change(text, all[draft.Dice.Below(all.Count)]);
    });

    [GeneratedRegex("""[A-Za-z][A-Za-z0-9_-]*|[0-9][0-9.]*|"[^"\n]*"|\#[^\n]*|\S|\n""", RegexOptions.CultureInvariant)]
    private static partial Regex Token();
}
