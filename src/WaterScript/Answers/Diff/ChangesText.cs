using WaterScript.Diagnostics;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>What changes in the watering, as a report for people.</summary>
internal sealed class ChangesText
{
    private readonly WateringChanges _changes;
    private readonly WaterWords _water;
    private readonly IReportLines _lines;

    private ChangesText(WateringChanges changes, IReportLines lines) => (_changes, _water, _lines) = (changes, new WaterWords(changes.New), lines);

    /// <summary>Writes it.</summary>
    public static void Write(WateringChanges changes, IReportLines lines)
    {
        ArgumentNullException.ThrowIfNull(changes);
        new ChangesText(changes, lines).Write();
    }

    private void Write()
    {
        _lines.Heading($"{_changes.New.DisplayName}: {Verdict()}");
        if (_changes.InPart is { } part) _lines.Part("Over the limit", [part.Words(new SiteWords(_changes.New))]);
        _lines.Part("Schedules", _changes.Schedules.Select(Words));
        _lines.Part("Average water per week", _changes.Zones.Select(Words));
        _lines.Part("Found now", _changes.Appeared.Select(Words));
        _lines.Part("Findings that are gone", _changes.Gone.Select(Words));
    }

    private string Verdict()
    {
        var last = _changes.InPart is { } part ? new SiteWords(_changes.New).DateAt(part.Until) : _changes.Horizon.Until.PlusDays(-1);
        var dates = $"{MomentWords.Date(_changes.Horizon.From)} to {MomentWords.Date(last)}";
        if (_changes.IsChanged) return $"the watering changes. Compared {dates}.";
        return "no change in the " +
            $"watering{(_changes.InPart is null ? "" : " as far as it was compared")}" +
            $"{(_changes.IsDescriptionChanged ? "; the description of the site is another" : "")}. Compared {dates}.";
    }

    private static string Words(ScheduleChange change)
    {
        var start = change.Kind switch
        {
            ScheduleChangeKind.Added => $"{change.Name}: new",
            ScheduleChangeKind.Removed => $"{change.Name}: gone",
            ScheduleChangeKind.Renamed => $"{change.Old!.Name}: now called {change.Name}, waters the same",
            _ => $"{change.Name}: ",
        };
        IEnumerable<string> parts = change.Kind == ScheduleChangeKind.Removed
            ? []
            : change.Turns.Select(turn => ScheduleChanges.Words(turn, change.Kind == ScheduleChangeKind.Added));
        var when = change.First is not { } first ? "" : change.Kind switch
        {
            ScheduleChangeKind.Added => $"first on {MomentWords.Date(first)}",
            ScheduleChangeKind.Removed => $"was first due {MomentWords.Date(first)}",
            _ => $"first different on {MomentWords.Date(first)}",
        };
        var words = string.Join("; ", parts.Append(when).Where(part => part.Length > 0));
        return change.Kind == ScheduleChangeKind.Changed || words.Length == 0 ? start + words : $"{start}; {words}";
    }

    private string Words(ZoneChange change) => $"{change.DisplayName} {Words(change.Old, change.New)} → {Words(change.New, change.Old)}{Share(change)}";

    /// <summary>As water where that is known of both sides, else as run time.</summary>
    private string Words(WeeklyWater? water, WeeklyWater? other)
    {
        if (water is null) return "no such zone";
        if (water.Seconds == 0) return "nothing";
        return water.Litres is { } litres && (other is null || other.Seconds == 0 || other.Litres is not null)
            ? _water.Say(litres)
            : Phrases.Length(water.Seconds);
    }

    private static string Share(ZoneChange change)
    {
        if (change is not { Old.Seconds: > 0, New.Seconds: > 0 }) return "";
        var share = change.Old.Litres is { } old && change.New.Litres is { } now && old > 0 ? now / old : (decimal)change.New.Seconds / change.Old.Seconds;
        return $" ({(share >= 1 ? "+" : "−")}{Phrases.Number(Math.Abs(share - 1) * 100, digits: 0)} %)";
    }

    private static string Words(Finding finding) =>
        $"{FindingSummary.WordOf(finding.Severity)}: {finding.Heading} [{finding.Rule.Slug}] ({SiteWords.Place(finding.Primary.Location)})";
}
