using FsCheck;
using NodaTime;
using WaterScript.Agronomy;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>What holds of the timetable of any site.</summary>
public sealed class RandomPropertyTests
{
    private const int Days = 25;

    public static TheoryData<int> Numbers => [.. Enumerable.Range(20_000, 60)];

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Two_parts_of_a_horizon_join_to_the_whole(int number)
    {
        if (ReadSite(RandomSource.Of(number)) is not { } site) return;
        var from = RandomSource.Of(number).From;
        var days = 1 + (number % (Days - 1));
        var whole = Runs(site, Horizon.DaysFrom(from, Days));
        var first = Runs(site, Horizon.DaysFrom(from, days));
        var second = Runs(site, Horizon.DaysFrom(from.PlusDays(days), Days - days));

        // A pass that is under way where they join belongs to the first part, so the two are merged, not put end to end.
        Assert.Equal(whole.Count, first.Count + second.Count);
        Assert.Equal(whole.ToHashSet(), first.Concat(second).ToHashSet());
        Assert.Equal(whole.Where(first.ToHashSet().Contains), first);
        Assert.Equal(whole.Where(second.ToHashSet().Contains), second);
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Moving_schedules_about_in_the_file_changes_no_run(int number)
    {
        var source = RandomSource.Of(number);
        if (ReadSite(source) is not { } site || RandomRunsTests.Read(source.TextWithSchedulesReversed(), out _) is not { } reversed) return;
        var horizon = Horizon.DaysFrom(source.From, Days);
        Assert.Equal(Runs(site, horizon), Runs(reversed, horizon));
    }

    [Theory]
    [MemberData(nameof(Numbers))]
    public void Compiling_twice_gives_the_same(int number)
    {
        var source = RandomSource.Of(number);
        if (ReadSite(source) is not { } site) return;
        var horizon = Horizon.DaysFrom(source.From, Days);
        var timetable = Timetable.Of(site, horizon);
        Assert.Equal(timetable.Runs(), timetable.Runs());
        Assert.Equal(timetable.Openings().Select(Shown), timetable.Openings().Select(Shown));
        Assert.Equal(timetable.Switchings(), timetable.Switchings());
        Assert.Equal(timetable.Runs(), Timetable.Of(ReadSite(source)!, horizon).Runs());
    }

    [SampledProperty(300, EndSize = 10_000)]
    public void A_scale_of_the_whole_changes_nothing(PositiveInt seed)
    {
        var source = RandomSource.Of(seed.Get);
        if (ReadSite(source) is not { } site) return;
        var horizon = Horizon.DaysFrom(source.From, Days);
        var whole = new ScaleUse(site.Origin, Name: null, Percent: 100);
        var unscaled = Runs(site with { Scale = null }, horizon);
        Assert.Equal(unscaled, Runs(site with { Scale = whole }, horizon));
        Assert.Equal(unscaled,
            Runs(site with
            {
                Scale = null,
                Schedules = [.. site.Schedules.Select(schedule => schedule.Scale is null ? schedule with { Scale = whole } : schedule)]
            }, horizon));
    }

    /// <summary>Twice the ground needs twice the water: with every area doubled and every rate halved, a depth takes twice as long.</summary>
    [SampledProperty(300, EndSize = 10_000)]
    public void Doubling_the_area_doubles_the_run_time(PositiveInt seed)
    {
        var source = RandomSource.Of(seed.Get);
        if (ReadSite(source) is not { } site) return;
        var amounts = site.Schedules.SelectMany(schedule => WateringsOf(schedule.Steps)).Where(water => water.With is { Dimension: Dimension.Depth }).ToList();
        foreach (var (water, zone) in amounts.SelectMany(water => water.Parts.SelectMany(part => part.Zones).Select(zone => (water, zone))))
        {
            var doubled = zone with { Area = Twice(zone.Area, 2), Rate = Twice(zone.Rate, 0.5m) };
            var (once, twice) = (RunTime.SecondsFor(water.With!.Value, zone)!.Value, RunTime.SecondsFor(water.With!.Value, doubled)!.Value);
            Assert.Equal(2 * once, twice, 15);
        }
    }

    /// <summary>
    /// With the soak and the cuts of cycles taken away, each zone is watered as long as with them; and between two pieces of a zone in a block is all of the
    /// soak.
    /// </summary>
    [Theory]
    [MemberData(nameof(Numbers))]
    public void Cycles_sum_to_the_whole_and_each_zone_soaks(int number)
    {
        var source = RandomSource.Of(number);
        if (ReadSite(source) is not { } read) return;
        var site = read with { Holds = [], Schedules = [.. read.Schedules.Select(schedule => WithoutFollowing(schedule) with { Cut = null })] };
        var whole = site with { Schedules = [.. site.Schedules.Select(schedule => schedule with { Steps = [.. schedule.Steps.Select(InOnePiece)] })] };
        foreach (var schedule in site.Schedules)
        {
            var at = source.From.At(new LocalTime(6, 0));
            var (pieces, uncut) = (Timetable.OfOnePass(site, schedule, at), Timetable.OfOnePass(whole, whole.Schedules[schedule.Index], at));
            Assert.Equal(uncut.Runs().GroupBy(run => run.Zone).Select(Sum).Order(), pieces.Runs().GroupBy(run => run.Zone).Select(Sum).Order());
            foreach (var (index, cycle) in schedule.Steps.Index().Where(step => step.Item is CycleStep).Select(step => (step.Index, (CycleStep)step.Item)))
            {
                var block = pieces.Runs().Where(run => pieces.StepPath(run).StartsWith($"{index + 1}#", StringComparison.Ordinal)).ToList();
                Assert.All(block, run => Assert.True(run.Seconds <= (long)cycle.Cycle!.Value.TotalSeconds));
                Assert.All(block.GroupBy(run => run.Zone), runs => Assert.All(
                    runs.Zip(runs.Skip(1)), pair => Assert.True(pair.Second.Start - pair.First.End >= (long)cycle.Soak!.Value.TotalSeconds)));
            }
        }
    }

    /// <summary>Holds, closed seasons and cuts take some of the water; what they leave and what they say they took is all of it.</summary>
    [Theory]
    [MemberData(nameof(Numbers))]
    public void What_is_left_and_what_is_taken_add_up_to_the_whole(int number)
    {
        var source = RandomSource.Of(number);
        if (ReadSite(source) is not { } read) return;

        // A schedule that follows one of which nothing is left does not run and loses nothing, so none follows here.
        var site = read with { Schedules = [.. read.Schedules.Select(WithoutFollowing)] };
        var free = site with { Holds = [], ClosedSeasons = [], Schedules = [.. site.Schedules.Select(schedule => schedule with { Cut = null })] };
        var horizon = Horizon.DaysFrom(source.From, Days);
        var skipped = new SkippedWater();
        var left = Timetable.Of(site, horizon).Runs(skipped).ToLookup(run => run.Zone, run => run.Seconds);
        var all = Timetable.Of(free, horizon).Runs().ToLookup(run => run.Zone, run => run.Seconds);
        foreach (var zone in site.Zones)
        {
            var lost = skipped.Water.Where(water => water.Zone.Index == zone.Index && water.By != SkipCause.Scale).Sum(water => water.Seconds);
            Assert.True(all[zone.Index].Sum() == left[zone.Index].Sum() + lost,
                $"{zone.Name}: {all[zone.Index].Sum()} is not {left[zone.Index].Sum()} + {lost}\n{source.Text}");
        }
    }

    private static (int Zone, long Seconds) Sum(IGrouping<int, Run> runs) => (runs.Key, runs.Sum(run => run.Seconds));

    private static Placed<Quantity>? Twice(Placed<Quantity>? quantity, decimal times) => quantity?.Part(some => new Quantity(some.Value * times, some.Unit));

    private static IEnumerable<WaterStep> WateringsOf(IEnumerable<Step> steps) => steps.SelectMany(step => step switch
    {
        WaterStep water => [water],
        RepeatStep repeat => WateringsOf(repeat.Steps),
        CycleStep cycle => WateringsOf(cycle.Steps),
        RunStep run => WateringsOf(run.Sequence.Steps),
        _ => Array.Empty<WaterStep>(),
    });

    /// <summary>The same with cycles of which one piece is enough.</summary>
    private static Step InOnePiece(Step step) => step switch
    {
        CycleStep cycle => cycle with { Cycle = Duration.FromDays(300) },
        RepeatStep repeat => repeat with { Steps = [.. repeat.Steps.Select(InOnePiece)] },
        _ => step,
    };

    private static (Opening Opening, string Runs) Shown(Opening opening) => (opening with { Runs = default }, string.Join(' ', opening.Runs));

    private static Schedule WithoutFollowing(Schedule schedule) =>
        schedule.Starts.Any(start => start is StartAfter) ? schedule with { IsManual = true, Starts = [], Days = [] } : schedule;

    private static Site? ReadSite(RandomSource source) => RandomRunsTests.Read(source.Text, out _);

    private static List<ReferenceRun> Runs(Site site, Horizon horizon) => [.. Agreement.RunsOf(Timetable.Of(site, horizon))];
}
