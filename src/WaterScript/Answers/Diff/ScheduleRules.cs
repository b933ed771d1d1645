using WaterScript.Answers.Diff.Written;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>When a schedule is due, as it is written, line by line.</summary>
internal static class ScheduleRules
{
    /// <summary>What of it is written otherwise.</summary>
    /// <param name="old">As it was; null for a new one.</param>
    /// <param name="new">As it is; null for one that is gone.</param>
    public static IEnumerable<Turn> Turns(Schedule? old, Schedule? @new) => new[]
    {
        Of("manual", old, @new, schedule => schedule.IsManual ? "manual" : "", _ => null),
        Of("days", old, @new, schedule => Lines(schedule.DayLines, "on "), schedule => schedule.DayLines is [var line, ..] ? line.Origin : null),
        Of("season", old, @new, schedule => Without("from ", schedule.SeasonOrigin), schedule => schedule.SeasonOrigin),
        Of("except", old, @new, schedule => Lines(schedule.OwnExceptLines, "except "), schedule => schedule.OwnExceptLines.FirstOrDefault()?.Origin),
        Of("skip", old, @new, schedule => Lines(schedule.Skips, "skip "), schedule => schedule.Skips.FirstOrDefault()?.Origin),
        Of("keep to", old, @new, schedule => string.Join(", ", schedule.Keeps.Select(keep => keep.Restriction.Name)),
            schedule => schedule.Keeps is [var keep, ..] ? keep.Origin : null),
        Of("start", old, @new, Starts, schedule => schedule.Starts is [var start, ..] ? start.Origin : null),
        Of("repeat", old, @new, schedule => Without("repeat ", schedule.Repeat?.Origin), schedule => schedule.Repeat?.Origin),
        Of("cut off", old, @new, schedule => Without("cut off ", schedule.Cut?.Origin), schedule => schedule.Cut?.Origin),
        Of("scale", old, @new, schedule => Without("scale ", schedule.Scale?.Origin), schedule => schedule.Scale?.Origin),
    }.Where(turn => WrittenText.KeyOf(turn.Old) != WrittenText.KeyOf(turn.New));

    private static Turn Of(string what, Schedule? old, Schedule? @new, Func<Schedule, string> words, Func<Schedule, Location?> placeOf) =>
        new(what, old is null ? "" : words(old), @new is null ? "" : words(@new), IsNamed: true)
        {
            Place = (@new is null ? null : placeOf(@new)) ?? (old is null ? null : placeOf(old)),
        };

    private static string Lines(IEnumerable<DayLine> lines, string word) => string.Join(", ", lines.Select(line => Without(word, line.Origin)));

    private static string Without(string word, Location? place)
    {
        if (place is not { } there) return "";
        var text = WrittenText.Of(there);
        return text.StartsWith(word, StringComparison.Ordinal) ? text[word.Length..] : text;
    }

    private static string Starts(Schedule schedule) =>
        string.Join(schedule.Starts.Any(start => start.OnOrigin is not null) ? " and " : ", ",
            schedule.Starts.Select(start => Words(start) + (start.OnOrigin is { } days ? $" on {WrittenText.Of(days)}" : "")));

    private static string Words(Start start) => start switch
    {
        FinishBy => $"to finish by {WrittenText.Of(start.Origin)}",
        StartAfter after => $"after {after.Other}{(after.Delay.WholeSeconds() is > 0 and var delay ? $" + {Phrases.Length(delay)}" : "")}",
        _ => WrittenText.Of(start.Origin),
    };
}
