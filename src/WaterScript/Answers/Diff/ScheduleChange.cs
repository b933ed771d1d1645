using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>What happened to a schedule.</summary>
internal enum ScheduleChangeKind
{
    /// <summary>It is new.</summary>
    Added,

    /// <summary>It is gone.</summary>
    Removed,

    /// <summary>It waters otherwise.</summary>
    Changed,

    /// <summary>It waters the same under another name.</summary>
    Renamed,
}

/// <summary>A schedule that is not what it was.</summary>
/// <param name="Kind">What happened to it.</param>
/// <param name="Old">As it was; null for a new one.</param>
/// <param name="New">As it is; null for one that is gone.</param>
/// <param name="Turns">What of it changed, rule by rule, then what each zone gets.</param>
/// <param name="First">The first date on which the watering differs; null where none does, and for a manual schedule.</param>
internal sealed record ScheduleChange(ScheduleChangeKind Kind, Schedule? Old, Schedule? New, ImmutableArray<Turn> Turns, LocalDate? First)
{
    /// <summary>Its name, the new one where there are two.</summary>
    public string Name => (New ?? Old)!.Name;
}

/// <summary>Something that was one thing and is another.</summary>
/// <param name="What">What it is: <c>days</c>, <c>start</c>, or a zone as people call it.</param>
/// <param name="Old">As it was; empty where there was none.</param>
/// <param name="New">As it is; empty where there is none.</param>
/// <param name="IsNamed">Whether people need to read what it is; lines as they are written say so themselves.</param>
internal sealed record Turn(string What, string Old, string New, bool IsNamed = false);

/// <summary>Compares the schedules of two versions of a site.</summary>
internal static class ScheduleChanges
{
    private const string Arrow = " → ";

    /// <summary>What changes, in order of the new file, then what is gone in order of the old one.</summary>
    public static IEnumerable<ScheduleChange> Between(Site oldSite, Site newSite, WateringComparison compared)
    {
        var isWhole = compared.InPart is null;
        var (old, @new) = (compared.Old.Sums(isWhole), compared.New.Sums(isWhole));
        var before = old.ToDictionary(each => each.Schedule.Name, StringComparer.Ordinal);
        var names = @new.Select(each => each.Schedule.Name).ToHashSet(StringComparer.Ordinal);
        var gone = old.Where(each => !names.Contains(each.Schedule.Name)).ToList();
        ScheduleChange Changed(ScheduleChangeKind kind, ScheduleWaterings? was, ScheduleWaterings? now) =>
            ScheduleChanges.Changed(kind, was, now, oldSite, newSite, compared);
        foreach (var now in @new)
        {
            if (before.TryGetValue(now.Schedule.Name, out var was))
            {
                if (was.Schedule.IsManual != now.Schedule.IsManual || compared.Differ(now.Schedule.Name))
                    yield return Changed(ScheduleChangeKind.Changed, was, now);
            }
            else if (gone.Find(other => IsRenamed(other, now)) is { } renamed)
            {
                gone.Remove(renamed);
                yield return new ScheduleChange(ScheduleChangeKind.Renamed, renamed.Schedule, now.Schedule, [], First: null);
            }
            else
            {
                yield return Changed(ScheduleChangeKind.Added, null, now);
            }
        }

        foreach (var was in gone) yield return Changed(ScheduleChangeKind.Removed, was, null);
    }

    /// <summary>The words for both sides of a change; of a new schedule, for what it is.</summary>
    public static string Words(Turn turn, bool isNew)
    {
        var words = isNew ? turn.New : $"{(turn.Old.Length > 0 ? turn.Old : "none")}{Arrow}{(turn.New.Length > 0 ? turn.New : "none")}";
        return turn.IsNamed ? $"{turn.What} {words}" : words;
    }

    private static bool IsRenamed(ScheduleWaterings old, ScheduleWaterings @new) =>
        old.Waterings > 0 && old.Waterings == @new.Waterings && old.Schedule.IsManual == @new.Schedule.IsManual && old.Fingerprint == @new.Fingerprint;

    private static ScheduleChange Changed(ScheduleChangeKind kind, ScheduleWaterings? old, ScheduleWaterings? @new, Site oldSite, Site newSite,
        WateringComparison compared) => new(
        kind,
        old?.Schedule,
        @new?.Schedule,
        [.. (compared.HasNoRules && kind == ScheduleChangeKind.Changed ? [] : Rules(old?.Schedule, @new?.Schedule)).Concat(Zones(old, @new, oldSite, newSite))
            .Append(Dates(old, @new)).Where(turn => turn.Old != turn.New)],
        First((@new ?? old)!.Schedule, newSite, compared));

    private static LocalDate? First(Schedule schedule, Site newSite, WateringComparison compared) =>
        !schedule.IsManual && compared.FirstDifference(schedule.Name) is { } first ? new SiteWords(newSite).DateAt(first) : null;

    private static IEnumerable<Turn> Rules(Schedule? old, Schedule? @new)
    {
        Turn Of(string what, Func<Schedule, string> words, bool isNamed = false) =>
            new(what, old is null ? "" : words(old), @new is null ? "" : words(@new), isNamed);
        yield return Of("manual", schedule => schedule.IsManual ? "manual" : "");
        yield return Of("days", schedule => string.Join(", ", schedule.DayLines.Select(line => SiteWords.Written(line.Origin))));
        yield return Of("season", schedule => schedule.SeasonOrigin is { } season ? SiteWords.Written(season) : "");
        yield return Of("except", schedule => string.Join(", ", schedule.ExceptLines.Select(line => SiteWords.Written(line.Origin))));
        yield return Of("start", Starts, isNamed: true);
        yield return Of("repeat", schedule => schedule.Repeat is { } repeat ? SiteWords.Written(repeat.Origin) : "");
        yield return Of("cut", schedule => schedule.Cut is { } cut ? SiteWords.Written(cut.Origin) : "");
        yield return Of("scale", schedule => schedule.Scale is { } scale ? SiteWords.Written(scale.Origin) : "", isNamed: true);
    }

    private static string Starts(Schedule schedule) =>
        string.Join(schedule.Starts.Any(start => start.OnOrigin is not null) ? " and " : ", ",
            schedule.Starts.Select(start => Words(start) + (start.OnOrigin is { } days ? $" on {SiteWords.Written(days)}" : "")));

    private static string Words(Start start) => start switch
    {
        FinishBy => $"to finish by {SiteWords.Written(start.Origin)}",
        StartAfter after => $"after {after.Other}{(after.Delay.WholeSeconds() is > 0 and var delay ? $" + {Phrases.Length(delay)}" : "")}",
        _ => SiteWords.Written(start.Origin),
    };

    private static IEnumerable<Turn> Zones(ScheduleWaterings? old, ScheduleWaterings? @new, Site oldSite, Site newSite)
    {
        foreach (var zone in newSite.Zones.Concat(oldSite.Zones.ExceptBy(newSite.Zones.Select(zone => zone.Name), zone => zone.Name)))
            yield return new Turn(zone.DisplayName, Length(old, zone.Name), Length(@new, zone.Name), IsNamed: true);
    }

    private static string Length(ScheduleWaterings? schedule, string zone)
    {
        if (schedule is null || !schedule.Lengths.TryGetValue(zone, out var length)) return "";
        return length.Least == length.Most ? Phrases.Length(length.Most) : $"{Phrases.Length(length.Least)} to {Phrases.Length(length.Most)}";
    }

    private static Turn Dates(ScheduleWaterings? old, ScheduleWaterings? @new) =>
        new("dates", old is { Schedule.IsManual: false } ? Phrases.Count(old.Dates, "date") : "",
            @new is { Schedule.IsManual: false } ? Phrases.Count(@new.Dates, "date") : "");
}
