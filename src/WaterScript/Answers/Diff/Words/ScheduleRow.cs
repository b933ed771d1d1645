using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Words;

/// <summary>What changes of a schedule, cause by cause.</summary>
internal static class ScheduleRow
{
    /// <summary>Its row.</summary>
    public static ChangeRow Of(ScheduleChange change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return new ChangeRow(change.Name, change.Kind switch
        {
            ScheduleChangeKind.Added => [Whole(change, "added", isNew: true)],
            ScheduleChangeKind.Removed => [Whole(change, "removed", isNew: false)],
            ScheduleChangeKind.Renamed => [Renamed(change), .. Parts(change)],
            _ => Parts(change).ToList() is { Count: > 0 } parts ? [.. parts] : [new ChangePart("", "", "", "the same water at other times", null)],
        });
    }

    private static ChangePart Renamed(ScheduleChange change)
    {
        var words = $"renamed from {change.Old!.Name}{(change.Turns.IsEmpty ? ", waters the same" : "")}";
        return new ChangePart("name", change.Old.Name, change.New!.Name, words, change.Place);
    }

    /// <summary>All of a schedule that only one version has.</summary>
    private static ChangePart Whole(ScheduleChange change, string word, bool isNew)
    {
        var said = change.Turns.Where(turn => (isNew ? turn.New : turn.Old).Length > 0)
            .Select(turn => turn.What is Turn.Dates or "manual" ? (isNew ? turn.New : turn.Old) : $"{turn.What} {(isNew ? turn.New : turn.Old)}");
        var words = string.Join("; ", said);
        var text = $"{word}{(words.Length > 0 ? ": " + words : "")}";
        return new ChangePart("", isNew ? "" : words, isNew ? words : "", text, change.Place);
    }

    private static IEnumerable<ChangePart> Parts(ScheduleChange change)
    {
        var dates = change.Turns.FirstOrDefault(turn => turn.What == Turn.Dates);
        var isSaid = dates is null;
        foreach (var alike in Alike(change.Turns.Where(turn => turn.What != Turn.Dates)))
        {
            var withDates = !isSaid && alike[0].IsOfDates ? dates : null;
            isSaid = isSaid || withDates is not null;
            yield return Part(alike, withDates);
        }

        if (!isSaid) yield return new ChangePart("", dates!.Old, dates.New, ChangeWords.OfDates(dates), null);
    }

    private static ChangePart Part(List<Turn> alike, Turn? dates)
    {
        var turn = alike[0];
        var what = alike.Count == 1 ? turn.What : Phrases.Names([.. alike.Select(each => each.What)], most: 4);
        var named = turn with { What = what };
        var effect = turn.Effect.Length > 0 && turn.What != Turn.Shares ? $": {turn.Effect}" : "";
        var due = dates is null ? "" : $" ({ChangeWords.OfDates(dates)})";
        string Side(string text, string? count) => count is { Length: > 0 } ? $"{text} ({count})" : text;
        return new ChangePart(what == Turn.Step ? "" : what, Side(turn.Old, dates?.Old), Side(turn.New, dates?.New),
            ChangeWords.Of(named) + due, turn.Place)
        { Effect = effect };
    }

    /// <summary>Zones that change alike in one row of steps, one after the other.</summary>
    private static List<List<Turn>> Alike(IEnumerable<Turn> turns)
    {
        var groups = new List<List<Turn>>();
        foreach (var turn in turns)
        {
            var same = turn.IsNamed ? groups.Find(group => group[0] is { IsNamed: true } first && IsAlike(first, turn)) : null;
            if (same is null) groups.Add([turn]);
            else same.Add(turn);
        }

        return groups;
    }

    private static bool IsAlike(Turn first, Turn turn) => first.Old == turn.Old && first.New == turn.New && first.Place == turn.Place;
}
