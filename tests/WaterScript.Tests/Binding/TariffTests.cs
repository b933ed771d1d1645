using Xunit;

namespace WaterScript.Tests.Binding;

/// <summary>What cannot be right of a tariff, and of a supply that has one.</summary>
public sealed class TariffTests
{
    private const string Town = "tariff town { currency EUR; price 1 per m3 }\n";

    [Theory]
    [InlineData("price 1 per m3; ‹price 2 per m3›")]
    [InlineData("price 1 per m3 above 20 m3; ‹price 2 per m3 above 20000 L›")]
    [InlineData("price 1 per m3 from 1 may to 30 sep; ‹price 2 per m3 from 30 sep to 1 nov›")]
    [InlineData("price 1 per m3 from 1 nov to 31 jan; ‹price 2 per m3 from 31 jan to 1 feb›")]
    [InlineData("price 1 per m3 from 2026-05-01 to 2026-05-31; ‹price 2 per m3 from 31 may to 30 jun›")]
    [InlineData("price 1 per m3 from 28 feb to 28 feb; ‹price 2 per m3 from last feb to 1 mar›")]
    [InlineData("price 1 per m3 from 2026-05-01; ‹price 2 per m3 from 1 jan to 31 jan›")]
    [InlineData("price 1 per m3; sewer 1 per m3; ‹sewer 2 per m3›")]
    public void Two_prices_for_the_same_water_are_a_contradiction(string lines) =>
        Expect.One("contradiction", $"tariff town {{ currency EUR; {lines} }}");

    [Theory]
    [InlineData("price 1 per m3 from 1 may to 30 sep; price 2 per m3 from 1 oct to 30 apr")]
    [InlineData("price 1 per m3 from 2026-05-01 to 2026-05-31; price 2 per m3 from 2026-06-01")]
    [InlineData("price 1 per m3 from 2026-05-01 to 2026-05-31; price 2 per m3 from 1 jun to 30 apr")]
    [InlineData("price 1 per m3; price 2 per m3 from 1 may to 30 sep; price 3 per m3 above 1 L")]
    public void Prices_that_never_meet_are_fine(string lines) => Expect.Fine($"tariff town {{ currency EUR; {lines} }}");

    [Fact]
    public void The_same_water_is_not_paid_for_twice() => Expect.One("contradiction",
        Town + "supply main { tariff town }\nsupply branch { fed-by main }\nsupply yard { fed-by branch; ‹tariff town› }\nzone c { output 3; supply yard }",
        Expect.Garden.Replace("flow 10", "supply tap; flow 10", StringComparison.Ordinal));

    [Fact]
    public void Other_use_needs_a_tariff() => Expect.One("missing",
        "supply yard { ‹other-use 3 m3 a month› }\nzone c { output 3; supply yard }",
        Expect.Garden.Replace("flow 10", "supply tap; flow 10", StringComparison.Ordinal));

    [Theory]
    [InlineData("tariff ‹town› { price 1 per m3 }", "missing")]
    [InlineData("tariff ‹town› { currency EUR }", "missing")]
    [InlineData("tariff town { currency EUR; price 1 per m3 from ‹1 may› }", "missing")]
    [InlineData("tariff town { currency EUR; price ‹1› }", "syntax")]
    [InlineData("tariff town { currency EUR; price 1 per ‹kWh› }", "unknown-name")]
    [InlineData("tariff town { currency EUR; price 1 ‹per mm› }", "wrong-unit")]
    [InlineData("tariff town { currency EUR; fixed 4.50 a ‹week› }", "syntax")]
    [InlineData("supply yard { tariff ‹twon› }\ntariff town { currency EUR; price 1 per m3 }\nzone c { output 3; supply yard }", "unknown-name")]
    public void Each_mistake_is_one_finding_at_its_place(string text, string rule) =>
        Expect.One(rule, text, Expect.Garden.Replace("flow 10", "supply tap; flow 10", StringComparison.Ordinal));
}
