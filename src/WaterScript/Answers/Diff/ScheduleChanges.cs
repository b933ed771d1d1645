using System.Collections.Immutable;
using NodaTime;
using WaterScript.Answers.Diff.Written;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff;

/// <summary>Compares the schedules of two versions of a site.</summary>
internal sealed class ScheduleChanges
{
    private readonly Site _old;
    private readonly Site _new;
    private readonly WateringComparison _compared;
    private readonly ILookup<string, WrittenChange> _written;

    private ScheduleChanges(Site old, Site @new, WateringComparison compared, ImmutableArray<WrittenChange> written)
    {
        (_old, _new, _compared) = (old, @new, compared);
        _written = written.Where(change => change.Thing == WrittenSite.Schedule && change.IsStep).ToLookup(change => change.Name, StringComparer.Ordinal);
    }

    /// <summary>What changes, in order of the new file, then what is gone in order of the old one.</summary>
    public static IEnumerable<ScheduleChange> Between(Site old, Site @new, WateringComparison compared, ImmutableArray<WrittenChange> written) =>
        new ScheduleChanges(old, @new, compared, written).Find();

    private IEnumerable<ScheduleChange> Find()
    {
        var isWhole = _compared.InPart is null;
        var (old, @new) = (_compared.Old.Sums(isWhole), _compared.New.Sums(isWhole));
        var before = old.ToDictionary(NameOf, StringComparer.Ordinal);
        var names = @new.Select(each => each.Schedule.Name).ToHashSet(StringComparer.Ordinal);
        var gone = old.Where(each => !names.Contains(NameOf(each))).ToList();
        foreach (var now in @new)
        {
            if (before.TryGetValue(now.Schedule.Name, out var was))
            {
                var isRenamed = was.Schedule.Name != now.Schedule.Name;
                if (was.Schedule.IsManual != now.Schedule.IsManual || _compared.Differ(now.Schedule.Name))
                    yield return Changed(isRenamed ? ScheduleChangeKind.Renamed : ScheduleChangeKind.Changed, was, now);
                else if (isRenamed) yield return new ScheduleChange(ScheduleChangeKind.Renamed, was.Schedule, now.Schedule, [], First: null);
            }
            else if (gone.Find(other => WatersTheSame(other, now)) is { } renamed)
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

    private string NameOf(ScheduleWaterings waterings) => _compared.Renames.OfSchedule(waterings.Schedule.Name);

    private static bool WatersTheSame(ScheduleWaterings old, ScheduleWaterings @new) =>
        old.Waterings > 0 && old.Waterings == @new.Waterings && old.Schedule.IsManual == @new.Schedule.IsManual && old.Fingerprint == @new.Fingerprint;

    private ScheduleChange Changed(ScheduleChangeKind kind, ScheduleWaterings? old, ScheduleWaterings? @new)
    {
        var isInBoth = old is not null && @new is not null;
        var rules = _compared.HasNoRules && isInBoth ? [] : ScheduleRules.Turns(old?.Schedule, @new?.Schedule);
        var shares = isInBoth && !_compared.HasNoRules ? ShareTurns.Between(old!.Schedule, _old, @new!.Schedule, _new) : [];
        var zones = ZoneTurns(old, @new).ToList();
        var steps = isInBoth ? StepTurns.Of(old!.Schedule, @new!.Schedule, [.. _written[@new.Schedule.Name]], zones) : [];
        var turns = rules.Concat(shares).Concat(steps).Concat(zones).Append(DateTurns.Between(old, @new)).Where(turn => turn.Old != turn.New);
        return new ScheduleChange(kind, old?.Schedule, @new?.Schedule, Counted(turns, old, @new), First((@new ?? old)!));
    }

    /// <summary>What turns; where nothing does, how many waterings there are, of which a hold takes some or gives them back.</summary>
    private static ImmutableArray<Turn> Counted(IEnumerable<Turn> turns, ScheduleWaterings? old, ScheduleWaterings? @new)
    {
        var all = turns.ToImmutableArray();
        return all.IsEmpty && old is not null && @new is not null && old.Waterings != @new.Waterings
            ? [new Turn(Turn.Waterings, Phrases.Count(old.Waterings, "watering"), Phrases.Count(@new.Waterings, "watering"))]
            : all;
    }

    private LocalDate? First(ScheduleWaterings waterings)
    {
        var name = waterings.Schedule.Name;
        return !waterings.Schedule.IsManual && _compared.FirstDifference(name) is { } first ? new SiteWords(_new).DateAt(first) : null;
    }

    private IEnumerable<Turn> ZoneTurns(ScheduleWaterings? old, ScheduleWaterings? @new)
    {
        var left = _old.Zones.ExceptBy(_new.Zones.Select(zone => zone.Name), zone => _compared.Renames.OfZone(zone.Name));
        foreach (var zone in _new.Zones.Concat(left))
        {
            var (was, now) = (Length(old, zone.Name), Length(@new, zone.Name));
            if (was != now) yield return new Turn(zone.DisplayName, was, now, IsNamed: true);
        }
    }

    private static string Length(ScheduleWaterings? schedule, string zone)
    {
        if (schedule is null || !schedule.Lengths.TryGetValue(zone, out var length)) return "";
        return length.Least == length.Most ? Phrases.Length(length.Most) : $"{Phrases.Length(length.Least)} to {Phrases.Length(length.Most)}";
    }
}
