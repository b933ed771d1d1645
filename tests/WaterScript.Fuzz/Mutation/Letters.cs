using System.Text;
using System.Text.RegularExpressions;

namespace WaterScript.Fuzz.Mutation;

/// <summary>Puts letters in that are not what they look like, or that mean something to a terminal, a page or a log.</summary>
internal static partial class Letters
{
    private static readonly string[] Odd =
    [
        "\u001b[31m", "\u001b]0;x\u0007", "\u009b31m", "\u202e", "\u2066", "\u200f", "\u0000", "\ufeff", "\u200b", "\u2028", "\u2029", "\u0085", "\v", "\f",
            "\r", "\t", "\u00a0", "\u3000", "²", "٣", "½", "Ⅷ", "é", "e\u0301", "ſ", "İ",
        "\U0001F468\u200D\U0001F469\u200D\U0001F467", "\U0001D7D9", "\u0378", "\uffff", "\ufffd", "\"", "\\", "'", "`", "|", "<", "</script>", "]]>", "&amp;",
            "<!--", "%0A", "::error::x", "\n::error::x", "${x}", "{", "}", "=cmd|'/c'!A1", "…", "–", "×", "\u007f",
    ];

    private static readonly string[] LineEnds = ["\n", "\r\n", "\r", ";", "\n\n\n"];

    /// <summary>At any place.</summary>
    public static void Insert(Draft draft) => draft.Change(text =>
    {
        var some = draft.Dice.OneIn(12) ? new string(draft.Dice.Of("a \u0301{\t").Single(), 4_000) : draft.Dice.Of(Odd);
        return text.Insert(draft.Dice.Below(text.Length + 1), some);
    });

    /// <summary>In a label, a reason or a path.</summary>
    public static void Relabel(Draft draft) => draft.Change(text =>
    {
        var all = Quoted().Matches(text);
        if (all.Count == 0) return text;
        var match = all[draft.Dice.Below(all.Count)];
        var label = new StringBuilder();
        for (var count = draft.Dice.Below(6); count > 0; count--) label.Append(draft.Dice.OneIn(2) ? draft.Dice.Of(Odd) : draft.Dice.Of(draft.Corpus.Words));
        if (draft.Dice.OneIn(10)) label.Append('x', 300);
        if (!draft.Dice.OneIn(4)) label.Replace("\"", "").Replace("\n", "");
        return text[..match.Index] + '"' + label + '"' + text[(match.Index + match.Length)..];
    });

    /// <summary>After a line, odd letters and all.</summary>
    public static void Comment(Draft draft) => draft.Change(text =>
    {
        var ends = Enumerable.Range(0, text.Length).Where(at => text[at] == '\n').ToList();
        return ends.Count == 0 ? text : text.Insert(draft.Dice.Of(ends),
            $" # {draft.Dice.Of(draft.Corpus.Words)} {draft.Dice.Of(Odd)}".Replace("\n", "", StringComparison.Ordinal));
    });

    /// <summary>All of a file, or one line of it.</summary>
    public static void OtherLineEnds(Draft draft) => draft.Change(text =>
    {
        if (draft.Dice.OneIn(2)) return text.ReplaceLineEndings(draft.Dice.Of(["\r\n", "\r", "\n"]));
        var ends = Enumerable.Range(0, text.Length).Where(at => text[at] == '\n').ToList();
        if (ends.Count == 0) return text;
        var at = draft.Dice.Of(ends);
        return text.Remove(at, 1).Insert(at, draft.Dice.Of(LineEnds));
    });

    private static string Of(this Fuzz.Inputs.Dice dice, string letters) => letters[dice.Below(letters.Length)].ToString();

    [GeneratedRegex("\"[^\"\n]*\"", RegexOptions.CultureInvariant)]
    private static partial Regex Quoted();
}
