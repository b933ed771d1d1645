using FsCheck;
using WaterScript.Model;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>What holds of the outputs of any site, whatever waters it.</summary>
public sealed class SwitchingPropertyTests
{
    private const int Days = 12;

    [SampledProperty(150, EndSize = 10_000)]
    public void Every_output_opens_and_closes_by_turns(PositiveInt seed)
    {
        if (TimetableOf(seed, out var text) is not { } timetable) return;
        var openings = timetable.Openings().ToDictionary(opening => opening.Number);
        foreach (var ofOutput in timetable.Switchings().GroupBy(switching => (switching.Controller, switching.Output)))
        {
            var switchings = ofOutput.ToList();
            Assert.True(switchings.Count % 2 == 0, text);
            for (var i = 0; i < switchings.Count; i += 2)
            {
                var (open, close) = (switchings[i], switchings[i + 1]);
                Assert.True(open.IsOpen && !close.IsOpen && open.Opening == close.Opening, text);
                Assert.True(open.Milliseconds >= openings[open.Opening].From * 1000 && close.Milliseconds >= openings[open.Opening].To * 1000, text);
            }
        }
    }

    [SampledProperty(150, EndSize = 10_000)]
    public void Switchings_come_in_order_and_as_far_apart_as_their_controller_asks(PositiveInt seed)
    {
        if (TimetableOf(seed, out var text) is not { } timetable) return;
        var switchings = timetable.Switchings().ToList();
        Assert.Equal(switchings.OrderBy(switching => switching.Milliseconds).ThenBy(switching => switching.Controller), switchings);
        foreach (var controller in timetable.Site.Controllers)
        {
            var opens = switchings.Where(switching => switching.Controller == controller.Index && switching.IsOpen).ToList();
            Assert.All(opens.Zip(opens.Skip(1)), pair =>
                Assert.True(pair.Second.Milliseconds - pair.First.Milliseconds >= controller.Stagger.TotalMilliseconds, text));
        }
    }

    [SampledProperty(150, EndSize = 10_000)]
    public void No_pump_is_on_without_a_zone_beyond_its_lead_and_lag(PositiveInt seed)
    {
        if (TimetableOf(seed, out var text) is not { } timetable) return;
        var openings = timetable.Openings().ToList();
        foreach (var device in timetable.Site.Devices.Where(device => device.Kind != DeviceKind.Injector))
        {
            var lead = (long)device.StartsAfter.TotalSeconds;
            var lag = Math.Max((long)device.StopsAfter.TotalSeconds, (long)device.Bridges.TotalSeconds + lead);
            var served = openings.Where(opening => device.Zones.Any(zone => zone.Index == opening.Zone))
                .Select(opening => (From: opening.From + lead, To: opening.To + lag)).ToList();
            foreach (var opening in openings.Where(opening => opening.Device == device.Index))
            {
                var covered = opening.From;
                foreach (var (from, to) in served.Where(zone => zone.To > opening.From).OrderBy(zone => zone.From))
                {
                    if (from <= covered) covered = Math.Max(covered, to);
                }

                Assert.True(covered >= opening.To, $"{device.Name} is on without a zone at {covered}\n{text}");
            }
        }
    }

    /// <summary>Runs of a zone that overlap water it once, and an overlap of the change-over that the next run fills adds nothing.</summary>
    [SampledProperty(150, EndSize = 10_000)]
    public void A_valve_is_open_for_its_runs_and_their_overlap_less_what_they_share(PositiveInt seed)
    {
        if (TimetableOf(seed, out var text) is not { } timetable) return;
        var openings = timetable.Openings().ToLookup(opening => opening.Zone);
        foreach (var ofZone in timetable.Runs().GroupBy(run => run.Zone))
        {
            var stated = ofZone.Sum(run => run.Seconds + run.Overlap);
            long shared = 0;
            long end = 0;
            foreach (var run in ofZone)
            {
                shared += Math.Max(0, Math.Min(end, run.End + run.Overlap) - run.Start);
                end = Math.Max(end, run.End + run.Overlap);
            }

            Assert.True(openings[ofZone.Key].Sum(opening => opening.Seconds) == stated - shared, text);
            Assert.Equal(ofZone.Select(run => run.Number), openings[ofZone.Key].SelectMany(opening => opening.Runs));
        }
    }

    [SampledProperty(60, EndSize = 10_000)]
    public void A_trim_of_the_whole_changes_nothing(PositiveInt seed)
    {
        if (TimetableOf(seed, out var text) is not { } timetable) return;
        var bare = RandomRunsTests.Read(string.Join('\n', text.Split('\n').Select(WithoutTrim)), out _);
        var whole = RandomRunsTests.Read(string.Join('\n',
            text.Split('\n').Select(line =>
            line.StartsWith("zone ", StringComparison.Ordinal) ? WithoutTrim(line).Replace(" }", "; trim 100 % }", StringComparison.Ordinal) : line)), out _);
        Assert.Equal(Timetable.Of(bare!, timetable.Horizon).Switchings(), Timetable.Of(whole!, timetable.Horizon).Switchings());
    }

    private static string WithoutTrim(string line)
    {
        var from = line.IndexOf("; trim ", StringComparison.Ordinal);
        return from < 0 ? line : line.Remove(from, line.IndexOf('%', from) + 1 - from);
    }

    private static Timetable? TimetableOf(PositiveInt seed, out string text)
    {
        var source = RandomSource.Of(30_000 + seed.Get);
        text = source.Text;
        return RandomRunsTests.Read(text, out _) is { } site ? Timetable.Of(site, WaterScript.Timetables.Horizon.DaysFrom(source.From, Days)) : null;
    }
}
