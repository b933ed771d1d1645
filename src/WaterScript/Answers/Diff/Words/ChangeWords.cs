using WaterScript.Answers.Diff.Written;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Words;

/// <summary>How a change is said: what it was, an arrow, what it is.</summary>
internal static class ChangeWords
{
    private const string Arrow = " → ";

    /// <summary>Words on each side that are said twice at most, with what they have in common once: <c>pause 2 → 5 min</c>.</summary>
    private const int MostDiffering = 2;

    /// <summary>One text and then the other.</summary>
    public static string Of(string old, string @new)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        var (before, after) = (old.Split(' '), @new.Split(' '));
        var most = Math.Min(before.Length, after.Length) - 1;
        var start = 0;
        while (start < most && before[start] == after[start]) start++;
        var end = 0;
        while (end < most - start && before[^(end + 1)] == after[^(end + 1)]) end++;
        if (Math.Max(before.Length, after.Length) - start - end > MostDiffering) return $"{old}{Arrow}{@new}";
        return string.Join(' ', before[..^end]) + Arrow + string.Join(' ', after[start..]);
    }

    /// <summary>What happened to something that has a name.</summary>
    public static string Named(string what, string old, string @new) => (old, @new) switch
    {
        ("", _) => $"{what} added, {@new}",
        (_, "") => $"{what} removed, was {old}",
        _ => $"{what} {old}{Arrow}{@new}",
    };

    /// <summary>What is written otherwise, without where.</summary>
    public static string Of(WrittenChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        if (change is { What: "", Old: "", New: "" }) return change.Kind == WrittenChangeKind.Added ? "added" : "removed";
        var what = change.What == "label" ? "label " : "";
        return change.Kind switch
        {
            WrittenChangeKind.Added => $"{what}{change.New} added",
            WrittenChangeKind.Removed => $"{what}{change.Old} removed",
            WrittenChangeKind.Renamed => $"renamed from {change.Old}",
            _ => what + Of(change.Old, change.New),
        };
    }

    /// <summary>What of a schedule is another, without where and without what it does.</summary>
    public static string Of(Turn turn)
    {
        ArgumentNullException.ThrowIfNull(turn);
        if (turn.What == Turn.Shares) return turn.Effect;
        if (turn.What == "manual") return turn.New.Length > 0 ? "manual now" : "no longer manual";
        if (turn is { What: "repeat", Old.Length: > 0, New.Length: > 0 }) return "repeat " + Of(turn.Old, turn.New);
        if (turn.IsNamed) return Named(turn.What, turn.Old, turn.New);
        return (turn.Old, turn.New) switch
        {
            ("", _) => $"{turn.New} added",
            (_, "") => $"{turn.Old} removed",
            _ => Of(turn.Old, turn.New),
        };
    }

    /// <summary>How many dates there were and are: <c>313 → 209 dates</c>.</summary>
    public static string OfDates(Turn turn)
    {
        ArgumentNullException.ThrowIfNull(turn);
        var words = turn.Old.Length == 0 ? turn.New : turn.New.Length == 0 ? "was " + turn.Old : $"{Phrases.Bare(turn.Old)}{Arrow}{turn.New}";
        return turn.Effect.Length > 0 ? $"{words}, {turn.Effect}" : words;
    }
}
