using System.Globalization;
using System.Text.RegularExpressions;
using FsCheck;
using FsCheck.Fluent;
using Xunit;

namespace WaterScript.Tests;

/// <summary>
/// A property that fails names its seed, and the seed brings the same inputs again: <c>Replay</c> of the attribute takes it as it is printed.
/// </summary>
public sealed partial class ReplayTests
{
    [Fact]
    public void A_failure_names_the_seed_that_shows_it_again()
    {
        var (tried, message) = Failure(Config.QuickThrowOnFailure);
        var seed = Seed().Match(message);
        Assert.True(seed.Success, message);
        var again = Failure(Config.QuickThrowOnFailure.WithReplay(Number(seed, "seed"), Number(seed, "gamma")));
        Assert.Equal(tried, again.Tried);
        Assert.NotEqual(tried, Failure(Config.QuickThrowOnFailure.WithReplay(2026, 1)).Tried);
    }

    private static (List<int> Tried, string Message) Failure(Config config)
    {
        var tried = new List<int>();
        var numbers = Arb.From(Gen.Choose(0, 1_000_000));
        var failure = Assert.ThrowsAny<Exception>(() => Prop.ForAll(numbers, number =>
        {
            tried.Add(number);
            return number % 7 != 0;
        }).Check(config));
        return (tried, failure.Message);
    }

    private static ulong Number(Match match, string name) => ulong.Parse(match.Groups[name].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\((?<seed>\d+), ?(?<gamma>\d+)\)")]
    private static partial Regex Seed();
}
