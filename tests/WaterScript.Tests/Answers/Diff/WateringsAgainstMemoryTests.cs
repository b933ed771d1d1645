using NodaTime;
using WaterScript.Answers;
using WaterScript.Answers.Diff;
using WaterScript.Binding;
using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Tests.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;
using Xunit;

namespace WaterScript.Tests.Answers.Diff;

/// <summary>A comparison that walks along two versions says what one says that holds all of their waterings.</summary>
public sealed class WateringsAgainstMemoryTests
{
    private const int Days = 40;

    public static TheoryData<int> Batches => [.. Samples.Batches(6)];

    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_edits_of_random_sites(int batch)
    {
        var kinds = new HashSet<ScheduleChangeKind>();
        for (var number = batch * 40; number < (batch + 1) * 40; number++)
        {
            var source = RandomSource.Of(number);
            if (RandomRunsTests.Read(source.Text, out _) is not { } old) continue;
            var random = new Random(number);
            for (var turn = 0; turn < 3; turn++)
            {
                var text = Edited(source.Text, old, random);
                if (RandomRunsTests.Read(text, out _) is not { } @new) continue;
                var horizon = Horizon.DaysFrom(source.From, Days);
                var changes = WateringChanges.Of(Checked(old), Checked(@new), horizon);
                var expected = Expected(old, @new, horizon);
                var found = changes.Schedules.Select(change => (change.Kind, Old: change.Old?.Name, New: change.New?.Name, change.First)).ToList();
                Assert.True(expected.SequenceEqual(found),
                    $"number {number}, turn {turn}\n{string.Join('\n', expected)}\n--\n{string.Join('\n', found)}\n{source.Text}\n---\n{text}");
                kinds.UnionWith(found.Select(change => change.Kind));
                foreach (var change in changes.Schedules.Where(change => change.Kind == ScheduleChangeKind.Changed)) AssertTurns(change, old, @new, horizon);
            }
        }

        Assert.Superset(new HashSet<ScheduleChangeKind> { ScheduleChangeKind.Added, ScheduleChangeKind.Changed, ScheduleChangeKind.Renamed }, kinds);
    }

    [Fact]
    public void What_waters_every_few_seconds_is_compared_up_to_the_limit()
    {
        const string Text = """
            site mist "Mist" { timezone Europe/Lisbon; effective 2026-03-01 }
            zone fern { output 1; flow 6 L/min }
            schedule fog { every day; start at 00:00; repeat every 5 s until 23:59; steps { water fern for 1 s } }
            """;
        var old = RandomRunsTests.Read(Text, out _)!;
        var @new = RandomRunsTests.Read(Text.Replace("effective", "location 38.7 -9.1; effective", StringComparison.Ordinal), out _) ?? old;
        var changes = WateringChanges.Of(Checked(old), Checked(@new), new Horizon(new LocalDate(2026, 3, 1), new LocalDate(2028, 3, 1)));
        var part = Assert.IsType<ComparedInPart>(changes.InPart);
        Assert.False(changes.IsChanged);
        Assert.Equal("fog", part.Most.Name);

        // A run is some 26 units of work beside its pass; 17,269 passes a day (00:00:00 to 23:59:00, every 5 s).
        Assert.InRange(part.Runs, Limits.CheckWork / 60, Limits.CheckWork / 26);
        Assert.Equal(part.Runs / 17_269, (int)((part.Until - Instant.FromUtc(2026, 3, 1, 0, 0).ToUnixTimeSeconds() + 3_600) / 86_400));
        Assert.Contains(
            "no change in the watering as far as it was compared",
            Reports.Plain(lines => ChangesText.Write(changes, lines)),
            StringComparison.Ordinal);
        Assert.Contains(
            "[over-limit]",
            Reports.Markdown(lines => ChangesMarkdown.Write(changes, lines)).Replace("\\", "", StringComparison.Ordinal),
            StringComparison.Ordinal);
    }

    private static CheckedSite Checked(Site site) => new("site.water", new SiteReading(site, [], []), Lint: null);

    /// <summary>A name, a time, a length or a whole schedule is another.</summary>
    private static string Edited(string text, Site site, Random random)
    {
        var name = site.Schedules.Length == 0 ? "none" : site.Schedules[random.Next(site.Schedules.Length)].Name;
        return random.Next(4) switch
        {
            0 => text.Replace($"schedule {name} ", $"schedule {name}-too ", StringComparison.Ordinal),
            1 => text.Replace(" min", " min 1 s", StringComparison.Ordinal),
            2 => text.Replace("mon", "thu", StringComparison.Ordinal),
            _ => text.Replace($"schedule {name} {{",
                $"schedule {name}-new {{ every day; start at 04:00; steps {{ water {site.Zones[0].Name} for 1 min }} }}\nschedule {name} {{",
                StringComparison.Ordinal),
        };
    }

    private static List<(ScheduleChangeKind, string?, string?, LocalDate?)> Expected(Site old, Site @new, Horizon horizon)
    {
        var (before, after) = (Waterings(old, horizon), Waterings(@new, horizon));
        var (was, now) = (old.Schedules.ToDictionary(schedule => schedule.Name), @new.Schedules.ToDictionary(schedule => schedule.Name));
        var gone = old.Schedules.Where(schedule => !now.ContainsKey(schedule.Name)).ToList();
        var changes = new List<(ScheduleChangeKind, string?, string?, LocalDate?)>();
        foreach (var schedule in @new.Schedules)
        {
            var own = after[schedule.Name];
            if (was.TryGetValue(schedule.Name, out var same))
            {
                if (same.IsManual == schedule.IsManual && before[schedule.Name].SequenceEqual(own)) continue;
                changes.Add((ScheduleChangeKind.Changed, schedule.Name, schedule.Name, schedule.IsManual ? null : First(before[schedule.Name], own, @new)));
            }
            else if (gone.Find(other => schedule.Name == other.Name + "-too"
                || (other.IsManual == schedule.IsManual && own.Count > 0 && before[other.Name].SequenceEqual(own))) is { } renamed)
            {
                gone.Remove(renamed);
                changes.Add((ScheduleChangeKind.Renamed, renamed.Name, schedule.Name, null));
            }
            else
            {
                changes.Add((ScheduleChangeKind.Added, null, schedule.Name, schedule.IsManual ? null : First([], own, @new)));
            }
        }

        changes.AddRange(gone.Select(schedule =>
            (ScheduleChangeKind.Removed, (string?)schedule.Name, (string?)null, schedule.IsManual ? null : First(before[schedule.Name], [], @new))));
        return changes;
    }

    private static LocalDate? First(List<(long From, long To, string Zone)> old, List<(long From, long To, string Zone)> @new, Site site)
    {
        var differing = old.Except(@new).Concat(@new.Except(old)).ToList();
        return differing.Count == 0 ? null : Instant.FromUnixTimeSeconds(differing.Min(watering => watering.From)).InZone(site.TimeZone).Date;
    }

    private static Dictionary<string, List<(long From, long To, string Zone)>> Waterings(Site site, Horizon horizon) =>
        site.Schedules.ToDictionary(schedule => schedule.Name, schedule =>
            RunsOf(site, schedule, horizon).Select(run => (run.Start, run.End, site.Zones[run.Zone].Name)).Order().ToList());

    private static IEnumerable<Run> RunsOf(Site site, Schedule schedule, Horizon horizon) =>
        (schedule.IsManual ? Timetable.OfOnePass(site, schedule, horizon.From.At(LocalTime.Noon)) : Timetable.Of(site, horizon)).Runs()
            .Where(run => run.Schedule == schedule.Index);

    /// <summary>The dates, and the least and the most that a pass gives each zone.</summary>
    private static void AssertTurns(ScheduleChange change, Site old, Site @new, Horizon horizon)
    {
        foreach (var turn in change.Turns)
        {
            if (turn.What == "dates") Assert.Equal((Dates(old, change.Old!), Dates(@new, change.New!)), (turn.Old, turn.New));
            if (@new.Zones.FirstOrDefault(zone =>
                zone.DisplayName == turn.What) is { } zone) Assert.Equal((Length(old, change.Old!, zone.Name), Length(@new, change.New!, zone.Name)),
                (turn.Old, turn.New));
        }

        string Dates(Site site, Schedule schedule) =>
            schedule.IsManual ? "" : Phrases.Count(RunsOf(site, schedule, horizon).Select(run => run.Day).Distinct().Count(), "date");

        string Length(Site site, Schedule schedule, string zone)
        {
            var lengths = RunsOf(site, schedule, horizon).Where(run => site.Zones[run.Zone].Name == zone)
                .GroupBy(run => (run.Day, run.StartNumber, run.Pass)).Select(pass => pass.Sum(run => run.Seconds)).ToList();
            if (lengths.Count == 0) return "";
            return lengths.Min() == lengths.Max() ? Phrases.Length(lengths.Max()) : $"{Phrases.Length(lengths.Min())} to {Phrases.Length(lengths.Max())}";
        }
    }
}
