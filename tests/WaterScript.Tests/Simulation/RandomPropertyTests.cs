using WaterScript.Model;
using WaterScript.Timetables;
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

    [Theory]
    [MemberData(nameof(Numbers))]
    public void A_scale_of_the_whole_changes_nothing(int number)
    {
        var source = RandomSource.Of(number);
        if (ReadSite(source) is not { } site) return;
        var horizon = Horizon.DaysFrom(source.From, Days);
        var whole = new ScaleUse(site.Origin, Name: null, Percent: 100);
        Assert.Equal(Runs(site with { Scale = null }, horizon), Runs(site with { Scale = whole }, horizon));
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
        var taken = new Taken();
        var left = Timetable.Of(site, horizon).Runs(taken).ToLookup(run => run.Zone, run => run.Seconds);
        var all = Timetable.Of(free, horizon).Runs().ToLookup(run => run.Zone, run => run.Seconds);
        foreach (var zone in site.Zones)
        {
            var lost = taken.Water.Where(water => water.Zone.Index == zone.Index && water.By != TakenBy.Scale).Sum(water => water.Seconds);
            Assert.True(all[zone.Index].Sum() == left[zone.Index].Sum() + lost, $"{zone.Name}: {all[zone.Index].Sum()} is not {left[zone.Index].Sum()} + {lost}\n{source.Text}");
        }
    }

    private static (Opening Opening, string Runs) Shown(Opening opening) => (opening with { Runs = default }, string.Join(' ', opening.Runs));

    private static Schedule WithoutFollowing(Schedule schedule) =>
        schedule.Starts.Any(start => start is StartAfter) ? schedule with { IsManual = true, Starts = [], Days = [] } : schedule;

    private static Site? ReadSite(RandomSource source) => RandomRunsTests.Read(source.Text, out _);

    private static List<ReferenceRun> Runs(Site site, Horizon horizon) => [.. Agreement.RunsOf(Timetable.Of(site, horizon))];
}
