using System.Collections.Immutable;
using WaterScript.Answers.Diff.Written;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>The steps of a schedule that are written otherwise, beside what its zones get by them.</summary>
internal static class StepTurns
{
    private const string Pause = "pause ";

    /// <summary>What is left to say beside the zones; those get the places of the steps that water them.</summary>
    /// <param name="old">As it was.</param>
    /// <param name="new">As it is.</param>
    /// <param name="changes">Its steps that are written otherwise.</param>
    /// <param name="zones">What its zones get otherwise.</param>
    public static List<Turn> Of(Schedule old, Schedule @new, ImmutableArray<WrittenChange> changes, List<Turn> zones)
    {
        var turns = new List<Turn>();
        foreach (var change in changes)
        {
            var (before, after) = (ZonesOf(old, change.OldPlace), ZonesOf(@new, change.Kind == WrittenChangeKind.Removed ? null : change.Place));
            var gets = zones.FindAll(turn => before.Contains(turn.What) || after.Contains(turn.What));
            foreach (var turn in gets.Where(turn => turn.Place is null)) zones[zones.IndexOf(turn)] = turn with { Place = change.Place };
            if (IsSaid(before, after, [.. gets.Select(turn => turn.What)])) continue;
            turns.Add(new Turn(Turn.Step, change.Old, change.New) { Place = change.Place, Effect = EffectOf(change, @new.Starts) });
        }

        return turns;
    }

    /// <summary>Whether what zones get says all of a step: those that come or go, or else all of them.</summary>
    private static bool IsSaid(HashSet<string> old, HashSet<string> @new, HashSet<string> said)
    {
        var differing = old.Union(@new).Where(zone => old.Contains(zone) != @new.Contains(zone)).ToList();
        return said.Count > 0 && (differing.Count > 0 ? said.IsSupersetOf(differing) : said.Count == @new.Count);
    }

    private static HashSet<string> ZonesOf(Schedule schedule, Location? place) =>
        [.. Waterings.In(schedule.Steps).Where(step => step.Origin == place).SelectMany(step => step.Parts).SelectMany(part => part.Zones)
            .Select(zone => zone.DisplayName)];

    /// <summary>A longer pause moves the steps after it, and where the end is fixed those before it.</summary>
    internal static string EffectOf(WrittenChange change, IReadOnlyCollection<Start> starts)
    {
        if (!Is(change.Old) || !Is(change.New)) return "";
        if ((Seconds(change.New) - Seconds(change.Old)) * change.Times is not { } longer || longer == 0) return "";
        var length = Phrases.Length(Math.Abs(longer));
        if (starts.Any(start => start is FinishBy)) return starts.All(start => start is FinishBy)
            ? $"earlier steps move {length} {(longer > 0 ? "forward" : "back")}" : "";
        return longer > 0 ? $"later steps move {length}" : $"later steps start {length} sooner";
    }

    /// <summary>Whether it is a pause; one that is new or gone is as long as none.</summary>
    private static bool Is(string text) => text.Length == 0 || text.StartsWith(Pause, StringComparison.Ordinal);

    private static long? Seconds(string text) => text.Length == 0 ? 0 : WrittenText.SecondsOf(text[Pause.Length..]);
}
