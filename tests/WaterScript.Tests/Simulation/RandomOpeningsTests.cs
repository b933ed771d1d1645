using System.Globalization;
using NodaTime;
using WaterScript.Model;
using WaterScript.Tests.Documentation;
using WaterScript.Timetables;
using Xunit;

namespace WaterScript.Tests.Simulation;

/// <summary>Every output is on at exactly the seconds at which a simulation, second by second, has it on.</summary>
public sealed class RandomOpeningsTests
{
    private const int SitesEach = 45;

    public static TheoryData<int> Batches => [.. Enumerable.Range(0, 5)];

    [Theory]
    [MemberData(nameof(Batches))]
    public void Random_sites_open_their_outputs_as_simulated(int batch)
    {
        var openings = 0;
        var deviceOpenings = 0;
        for (var number = batch * SitesEach; number < (batch + 1) * SitesEach; number++)
        {
            var source = RandomSource.Of(10_000 + number);
            if (RandomRunsTests.Read(source.Text, out _) is not { } site) continue;
            var agreed = Agree(site, Horizon.DaysFrom(source.From.PlusDays(3), 4), string.Create(CultureInfo.InvariantCulture, $"number {number}\n{source.Text}"));
            openings += agreed.Count;
            deviceOpenings += agreed.Count(opening => opening.Device >= 0);
        }

        Assert.True(openings > 10 * SitesEach, $"only {openings} openings");
        Assert.True(deviceOpenings > SitesEach, $"only {deviceOpenings} openings of devices");
    }

    /// <summary>Days around both clock changes of each place, in the season of the example.</summary>
    [Theory]
    [InlineData("examples/balcony.water", 2026, 10, 23)]
    [InlineData("examples/nursery.water", 2026, 10, 2)]
    [InlineData("examples/park/park.water", 2026, 5, 15)]
    [InlineData("examples/roof-pots.water", 2026, 7, 20)]
    [InlineData("examples/school-field.water", 2026, 9, 26)]
    [InlineData("examples/school-field.water", 2027, 1, 8)]
    [InlineData("examples/sports-ground.water", 2026, 6, 6)]
    [InlineData("examples/terraces.water", 2026, 4, 10)]
    [InlineData("examples/terraces.water", 2026, 8, 1)]
    public void Examples_open_their_outputs_as_simulated(string path, int year, int month, int day)
    {
        var site = Example.Read(path).Site;
        Assert.NotNull(site);
        Assert.NotEmpty(Agree(site, Horizon.DaysFrom(new LocalDate(year, month, day), 9), path));
    }

    private static List<ReferenceOpening> Agree(Site site, Horizon horizon, string context)
    {
        var expected = SecondBySecond.Openings(site, ReferenceRuns.Of(site, horizon));
        var openings = Timetable.Of(site, horizon).Openings().ToList();
        var actual = openings.ConvertAll(opening => new ReferenceOpening(opening.From, opening.To, opening.Zone, opening.Device, opening.Runs.Length));
        Assert.Equal(Enumerable.Range(1, openings.Count).Select(number => (long)number), openings.Select(opening => opening.Number));
        Assert.Equal(actual.Select(opening => SecondBySecond.KeyOf(site, opening)).Order(), actual.Select(opening => SecondBySecond.KeyOf(site, opening)));
        if (expected.SequenceEqual(actual)) return expected;
        Assert.Fail(string.Join('\n', ["missing:", .. expected.Except(actual).Take(6).Select(each => each.ToString()), "too many:", .. actual.Except(expected).Take(6).Select(each => each.ToString()), context]));
        return expected;
    }
}
