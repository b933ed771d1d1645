using System.Globalization;
using WaterScript.Model;
using WaterScript.Tests.Documentation;
using WaterScript.Timetables;
using WaterScript.Timetables.Switchings;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>
/// Every output is on at exactly the seconds at which a simulation, second by second, has it on, and is switched in the milliseconds in which another has it
/// switched.
/// </summary>
public sealed class RandomOpeningsTests
{
    private static readonly int SitesEach = Samples.OfBatch(45);

    public static TheoryData<int> Batches => [.. Samples.Batches(5)];

    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_sites_open_their_outputs_as_simulated(int batch)
    {
        var openings = 0;
        var deviceOpenings = 0;
        for (var number = batch * SitesEach; number < (batch + 1) * SitesEach; number++)
        {
            var source = RandomSource.Of(10_000 + number, hasMore: number % 2 == 1);
            if (RandomRunsTests.Read(source.Text, out _) is not { } site) continue;
            var agreed = Agree(site, Horizon.DaysFrom(source.From.PlusDays(3), 4),
                string.Create(CultureInfo.InvariantCulture, $"number {number}\n{source.Text}"));
            openings += agreed.Count;
            deviceOpenings += agreed.Count(opening => opening.Device >= 0);
        }

        Assert.True(openings > 10 * SitesEach, $"only {openings} openings");
        Assert.True(deviceOpenings > SitesEach, $"only {deviceOpenings} openings of devices");
    }

    /// <summary>A year has both clock changes of its place.</summary>
    [Theory]
    [InlineData("examples/balcony.water")]
    [InlineData("examples/bench-rig.water")]
    [InlineData("examples/nursery.water")]
    [InlineData("examples/park/park.water")]
    [InlineData("examples/roof-pots.water")]
    [InlineData("examples/school-field.water")]
    [InlineData("examples/sports-ground.water")]
    [InlineData("examples/terraces.water")]
    public void Examples_open_their_outputs_as_simulated_over_a_year(string path)
    {
        var site = Example.Read(path).Site;
        Assert.NotNull(site);
        Assert.NotEmpty(Agree(site, Samples.AreAll ? Horizon.YearFrom(site.Effective) : Horizon.DaysFrom(site.Effective, 60), path));
    }

    private static List<ReferenceOpening> Agree(Site site, Horizon horizon, string context)
    {
        var expected = SecondBySecond.Openings(site, ReferenceRuns.Of(site, horizon), horizon.From);
        var openings = Timetable.Of(site, horizon).Openings().ToList();
        var actual = openings.ConvertAll(opening => new ReferenceOpening(
            opening.From, opening.To, opening.Zone, opening.Device, opening.Runs.Count, opening.Controller, opening.Output));
        Assert.Equal(Enumerable.Range(1, openings.Count).Select(number => (long)number), openings.Select(opening => opening.Number));
        Assert.Equal(actual.Select(SecondBySecond.KeyOf).Order(), actual.Select(SecondBySecond.KeyOf));
        AssertSame(expected, actual, context);
        AssertRunsOf(site, openings, [.. Timetable.Of(site, horizon).Runs()]);
        var switchings = Timetable.Of(site, horizon).Switchings()
            .Select(switching =>
                new ReferenceSwitching(switching.Milliseconds, switching.Controller, switching.Output, switching.IsOpen, (int)switching.Opening)).ToList();
        AssertSame(ControllerClock.Live(site, expected), switchings, context);
        return expected;
    }

    /// <summary>An opening names runs of its own zone, or of the zones of its device; none is named twice for one output.</summary>
    private static void AssertRunsOf(Site site, IReadOnlyList<Opening> openings, IReadOnlyList<Run> runs)
    {
        foreach (var ofOutput in openings.GroupBy(opening => (opening.Zone, opening.Device, opening.Controller)))
        {
            var numbers = ofOutput.SelectMany(opening => opening.Runs).ToList();
            Assert.Equal(numbers.Distinct().Order(), numbers);
            foreach (var run in numbers.Select(number => runs[(int)number - 1]))
            {
                if (ofOutput.Key.Zone >= 0) Assert.Equal(ofOutput.Key.Zone, run.Zone);
                else if (site.Devices[ofOutput.Key.Device].Kind == DeviceKind.Injector) Assert.Equal(ofOutput.Key.Device, run.Injector);
                else Assert.Contains(site.Devices[ofOutput.Key.Device].Zones, zone => zone.Index == run.Zone);
            }
        }
    }

    private static void AssertSame<T>(List<T> expected, List<T> actual, string context)
    {
        if (expected.SequenceEqual(actual)) return;
        var at = expected.Zip(actual).TakeWhile(pair => Equals(pair.First, pair.Second)).Count();
        Assert.Fail(string.Join('\n', ["expected:", .. expected.Skip(at).Take(6).Select(each => $"{each}"), "actual:",
            .. actual.Skip(at).Take(6).Select(each => $"{each}"), context]));
    }
}
