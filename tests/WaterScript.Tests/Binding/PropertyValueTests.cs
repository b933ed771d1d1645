using Xunit;

namespace WaterScript.Tests.Binding;

/// <summary>Every property of every block: what it takes, and what is said about what it does not.</summary>
public sealed class PropertyValueTests
{
    /// <summary>The rest of a zone, a supply and so on, around the property that is tried.</summary>
    private static string Block(string kind, string property) => kind switch
    {
        "supply" => $"supply other {{ {property} }}\nzone c {{ output 3; supply tap }}",
        "controller" => $"controller other {{\n{property}\n}}",
        "power" => $"controller other {{\npower {{\n{property}\n}}\n}}",
        "latching" => $"valve other latching {{ {property} }}",
        "non-latching" => $"valve other non-latching {{ {property} }}",
        "climate" => $"climate {{\n{property}\n}}",
        "pump" or "master" or "injector" => $"{kind} other {{ output 8; supply tap\n{property} }}",
        "device" => $"pump other {{ {property} }}",
        _ => $"{kind} other {{ {property} }}",
    };

    private static string Site(string kind) => kind switch
    {
        // Another supply or controller makes the zones say which of the two is theirs.
        "supply" => Expect.Garden.Replace("flow 10", "supply tap; flow 10", StringComparison.Ordinal),
        "controller" or "power" => Expect.Garden.Replace("output 1", "output 1 of box", StringComparison.Ordinal)
            .Replace("output 2", "output 2 of box", StringComparison.Ordinal),
        _ => Expect.Garden,
    };

    [Theory]
    [InlineData("supply", "flow 30 L/min")]
    [InlineData("supply", "flow 7.9 gpm; minimum-flow 120 gph")]
    [InlineData("supply", "minimum-flow 4 L/min; bypass")]
    [InlineData("supply", "minimum-flow 4 L/min; pressure-tank 24 L from 2 bar to 3.5 bar")]
    [InlineData("supply", "tank 8 m3; refill 4 L/min; reserve 60 L")]
    [InlineData("supply", "tank 3 m3; refill 12 L/min from 500 L to 2 m3; reserve 500 L")]
    [InlineData("supply", "tank 600 L; refill 12 L/min from 0 L to 600 L")]
    [InlineData("supply", "tank 600 L; contains 200 L on 2026-05-01")]
    [InlineData("supply", "tank 600 L; catchment 18 m2 at 80 %")]
    [InlineData("supply", "tank 2 m3 }\nzone d { output 4; supply tap; efficiency 40 %; returns 60 % to other")]
    [InlineData("supply", "daily 60 m3")]
    [InlineData("supply", "change-over gap 5 s")]
    [InlineData("supply", "change-over overlap 3 s")]
    [InlineData("supply", "fed-by tap")]
    [InlineData("supply", "backflow atmospheric")]
    [InlineData("supply", "tariff town; other-use 12 m3 a month }\ntariff town { currency EUR; price 1 per m3")]
    [InlineData("tariff", "currency EUR; price 1.80 per m3")]
    [InlineData("tariff", "currency JPY; fixed 900 a bill; bills every month")]
    [InlineData("tariff", "currency USD; fixed 1.5 a day; bills every 3 months from 2026-01-28; tax 7.25 %")]
    [InlineData("tariff", "currency EUR; price 2 per HCF above 8 HCF; price 2 per kgal; sewer 0 per gal above 1 m3; sewer 1 per L")]
    [InlineData("tariff", "currency EUR; price 2 per m3 from 1 may to last sep; price 3 per m3 from 1 oct to 30 apr; price 1 per m3")]
    [InlineData("tariff", "currency EUR; price 2 per m3 from 2026-05-01; price 3 per m3 from 2025-05-01 to 2026-04-30")]
    [InlineData("controller", "outputs 1")]
    [InlineData("controller", "stagger 300 ms")]
    [InlineData("controller", "at most 2 zones")]
    [InlineData("controller", "schedules may-overlap")]
    [InlineData("controller", "schedules never-overlap")]
    [InlineData("controller", "clock within 20 s")]
    [InlineData("power", "transformer 40 VA at 24 V")]
    [InlineData("power", "continuous 500 mA at 5 V; peak 1 A")]
    [InlineData("power", "continuous 500 mA at 5 V; capacitor 4700 uF at 24 V; recharge 2 W efficiency 80 %")]
    [InlineData("power", "battery 12 Ah at 12 V; usable 60 %; cold-loss 1 % per C; standby 15 mA; autonomy 5 days")]
    [InlineData("power", "battery 7200 mAh at 12 V; solar-panel 10 W; autonomy 1 day")]
    [InlineData("power", "battery 12 Ah at 12 V; solar-panel 10 W tilt 35 deg efficiency 60 %; renewed on 1 apr, 2027-09-15, last feb")]
    [InlineData("latching", "pulse 50 ms; response-time 15 ms; coil 20 ohm; minimum-voltage 6 V")]
    [InlineData("non-latching", "inrush 400 mA; holding 0.22 A; minimum-voltage 19 V")]
    [InlineData("pump", "load 60 mA; inrush 2.4 A for 1 s; minimum-voltage 19 V; wire 20 m 2.5 mm2 flexible shared-return")]
    [InlineData("zone", "output 3; wire 60 m 1.5 mm2 flexible")]
    [InlineData("master", "load 60 mA; inrush 900 mA for 500 ms; wire 60 m 18 AWG shared-return")]
    [InlineData("pump", "load 60 mA; flow 40 L/min")]
    [InlineData("pump", "motor 1.1 kW")]
    [InlineData("pump", "motor 750 W")]
    [InlineData("pump", "load 60 mA; starts 2 s after zones; stops 2 s before zones")]
    [InlineData("pump", "valve ac24; bridges gaps up to 60 s; at most 6 starts an hour")]
    [InlineData("master", "starts 5 s before zones; stops 10 s after zones")]
    [InlineData("injector", "after 5 min; rinse 8 min")]
    [InlineData("injector", "after 5 min; doses 10 L/h")]
    [InlineData("device", "output 8; zones a, b")]
    [InlineData("zone", "output 3; plants none")]
    [InlineData("zone", "hand-watered; flow 8 L/min")]
    [InlineData("zone", "output 3; emitters 12 at 4 L/h")]
    [InlineData("zone", "output 3 of box; supply tap")]
    [InlineData("zone", "output 3; flow 10 L/min; area 50 m2; rate 12 mm/h")] // 60 · 10 / 50
    [InlineData("zone", "output 3; flow 10 L/min; area 50 m2; rate 12.5 mm/h")] // 4.2 % more
    [InlineData("zone", "output 3; method drip")]
    [InlineData("zone", "output 3; method bubbler")]
    [InlineData("zone", "output 3; method spray")]
    [InlineData("zone", "output 3; method rotor")]
    [InlineData("zone", "output 3; method mist")]
    [InlineData("zone", "output 3; efficiency 70 %")]
    [InlineData("zone", "output 3; uniformity 70 %")]
    [InlineData("zone", "output 3; soil loam; slope 9 %; plants turf-cool")]
    [InlineData("zone", "output 3; trim 80 %; longest 30 min; shortest 2 min; rest 6 h; never-dry-for 10 days")]
    [InlineData("zone", "output 3; wire 60 m 1.5 mm2")]
    [InlineData("zone", "output 3; wire 500 ft 18 AWG")]
    [InlineData("zone", "output 3; wire 200 m 16 mm2")]
    [InlineData("zone", "output 3; wire 200 m 25 mm2")]
    [InlineData("zone", "output 3; spare")]
    [InlineData("zone", "output 3; rest 1 h 30 min 15 s")]
    [InlineData("soil", "intake 10 mm/h; holds 150 mm/m; ponds 5 mm")]
    [InlineData("soil", "intake 0.4 in/h; holds 15 %; ponds 0.2 in")]
    [InlineData("plants", "coefficient 0.9; roots 40 cm; allowed-depletion 50 %")]
    [InlineData("climate", "jul 16.1 C to 27.9 C, rain 4 mm")]
    [InlineData("climate", "jan -4 C to 2 C, rain 40 mm, humidity 45 % to 85 %, wind 2.1 m/s, sun 2 h/day")]
    [InlineData("climate", "jul et 6.2 mm/day, rain 4 mm")]
    [InlineData("scale", "jul 110 %; aug 95 %")]
    [InlineData("scale", "since 2026-07-06 85 %; since 2026-08-06 90 %")]
    [InlineData("climate", "coast")]
    [InlineData("scale", "by climate")]
    public void IsTaken(string kind, string property) => Expect.Fine(Block(kind, property), Site(kind));

    [Theory]
    [InlineData("supply", "flow ‹18 mm›")]
    [InlineData("tariff", "currency EUR; price 2 per m3 above ‹20 L/min›")]
    [InlineData("supply", "flow ‹18›")]
    [InlineData("supply", "tank ‹8 L/min›")]
    [InlineData("supply", "tank 8 m3; refill ‹4 L›")]
    [InlineData("supply", "tank 8 m3; refill 4 L/min from ‹2 L/min› to 2 m3")]
    [InlineData("supply", "tank 8 m3; refill 4 L/min from 200 L to ‹2 m2›")]
    [InlineData("supply", "catchment ‹18 m› at 80 %")]
    [InlineData("supply", "change-over gap ‹5 L›")]
    [InlineData("controller", "stagger ‹300 V›")]
    [InlineData("power", "transformer ‹40 W› at 24 V")]
    [InlineData("power", "transformer 40 VA at ‹24 A›")]
    [InlineData("power", "recharge ‹2 VA› efficiency 80 %")]
    [InlineData("power", "capacitor ‹4700 L› at 24 V")]
    [InlineData("power", "battery ‹12 A› at 12 V")]
    [InlineData("power", "battery 12 Ah at ‹12 A›")]
    [InlineData("power", "battery 12 Ah at 12 V; standby ‹15 mAh›")]
    [InlineData("power", "battery 12 Ah at 12 V; solar-panel ‹10 V›")]
    [InlineData("power", "battery 12 Ah at 12 V; solar-panel 10 W tilt ‹35 C›")]
    [InlineData("latching", "pulse ‹50 V›")]
    [InlineData("latching", "coil ‹20 V›")]
    [InlineData("non-latching", "inrush ‹400 V›")]
    [InlineData("pump", "load ‹60 W›")]
    [InlineData("pump", "flow ‹40 L›")]
    [InlineData("pump", "motor ‹1.1 VA›")]
    [InlineData("pump", "inrush ‹2.4 W› for 1 s")]
    [InlineData("pump", "inrush 2.4 A for ‹1 m›")]
    [InlineData("pump", "wire 20 m ‹2.5 m›")]
    [InlineData("pump", "starts ‹2 m› after zones")]
    [InlineData("zone", "output 3; flow ‹10 m2›")]
    [InlineData("zone", "output 3; area ‹10 mm2›")]
    [InlineData("zone", "output 3; rate ‹12 mm›")]
    [InlineData("zone", "output 3; emitters 12 at ‹4 L›")]
    [InlineData("zone", "output 3; longest ‹30 mm›")]
    [InlineData("zone", "output 3; wire ‹60 m2› 1.5 mm2")]
    [InlineData("zone", "output 3; wire 60 m ‹1.5 mm›")]
    [InlineData("zone", "output 3; trim ‹80 min›")]
    [InlineData("soil", "intake ‹10 mm›")]
    [InlineData("soil", "holds ‹150 mm›")]
    [InlineData("plants", "roots ‹40 %›")]
    [InlineData("climate", "jul ‹16 mm› to 27 C")]
    [InlineData("climate", "jul et ‹6.2 mm/m›")]
    public void OfAnotherDimensionIsWrongUnit(string kind, string property) => Expect.One("wrong-unit", Block(kind, property), Site(kind));

    [Theory]
    [InlineData("supply", "flow ‹0 L/min›")]
    [InlineData("supply", "tank 8 m3; catchment 18 m2 at ‹130 %›")]
    [InlineData("supply", "tank 8 m3; contains 2 m3 on ‹2026-02-30›")]
    [InlineData("tariff", "currency ‹EURO›; price 1 per m3")]
    [InlineData("tariff", "currency ‹eur›; price 1 per m3")]
    [InlineData("tariff", "currency EUR; price 1 per m3; bills every ‹13› months from 2026-01-01")]
    [InlineData("tariff", "currency EUR; price 1 per m3; bills every month from ‹2026-01-29›")]
    [InlineData("tariff", "currency EUR; price 1 per m3 above ‹0 m3›")]
    [InlineData("tariff", "currency EUR; price 1 per m3 from ‹31 jun› to 1 jul")]
    [InlineData("controller", "outputs ‹0›")]
    [InlineData("controller", "outputs ‹2.5›")]
    [InlineData("controller", "outputs ‹99999999999999999999999999999›")]
    [InlineData("controller", "at most ‹0› zones")]
    [InlineData("latching", "pulse ‹0 ms›")]
    [InlineData("latching", "pulse ‹99999999999999999999999999999 h›")]
    [InlineData("pump", "at most ‹0› starts an hour")]
    [InlineData("zone", "output ‹0›")]
    [InlineData("zone", "output 3; area ‹0 m2›")]
    [InlineData("zone", "output 3; efficiency ‹130 %›")]
    [InlineData("zone", "output 3; efficiency ‹0 %›")]
    [InlineData("zone", "output 3; uniformity ‹0.7›")]
    [InlineData("zone", "output 3; emitters ‹0› at 4 L/h")]
    [InlineData("plants", "coefficient ‹90›")]
    [InlineData("plants", "allowed-depletion ‹120 %›")]
    [InlineData("zone", "output 3; wire 60 m ‹2 mm2›")]
    [InlineData("zone", "output 3; wire 60 m ‹17 AWG›")]
    [InlineData("zone", "output 3; wire 60 m ‹400 mm2›")]
    [InlineData("climate", "jul ‹-300 C› to 27 C")]
    [InlineData("climate", "jul 16 C to ‹270 C›")]
    [InlineData("climate", "jul 16 C to 27 C, humidity 45 % to ‹185 %›")]
    [InlineData("climate", "jul 16 C to 27 C, sun ‹25 h/day›")]
    [InlineData("scale", "since ‹2026-13-06› 85 %")]
    public void BeyondWhatCanBeIsOutOfRange(string kind, string property) => Expect.One("out-of-range", Block(kind, property), Site(kind));

    [Theory]
    [InlineData("zone", "output 3; flow 10 L/min; ‹flow 12 L/min›", "stated-twice")]
    [InlineData("zone", "output 3; ‹flwo 10 L/min›", "unknown-property")]
    [InlineData("zone", "output 3; ‹tank 8 m3›", "unknown-property")]
    [InlineData("latching", "‹inrush 400 mA›", "unknown-property")]
    [InlineData("power", "‹batery 7 Ah at 12 V›; standby 15 mA; usable 60 %; autonomy 5 days", "unknown-property")]
    [InlineData("power", "‹standby 15 mA›", "missing")]
    [InlineData("power", "transformer 40 VA at 24 V; ‹battery 7 Ah at 12 V›", "contradiction")]
    [InlineData("supply", "‹output 1›", "unknown-property")]
    [InlineData("zone", "output 3; method ‹spary›", "unknown-name")]
    [InlineData("zone", "output 3; valve ‹ac42›", "unknown-name")]
    [InlineData("zone", "output 3; supply ‹tpa›", "unknown-name")]
    [InlineData("zone", "output 3 of ‹bx›", "unknown-name")]
    [InlineData("zone", "output 3; soil ‹loom›", "unknown-name")]
    [InlineData("zone", "output 3; plants ‹turf-col›", "unknown-name")]
    [InlineData("zone", "output 3; flow 10 ‹l/min›", "unknown-name")]
    [InlineData("zone", "output 3; flow 10 L/min; ‹emitters 12 at 4 L/h›", "contradiction")]
    [InlineData("zone", "output 3; efficiency 70 %; ‹uniformity 70 %›", "contradiction")]
    [InlineData("zone", "output 3; flow 10 L/min; area 50 m2; ‹rate 13 mm/h›", "contradiction")]
    [InlineData("scale", "jul 110 %; ‹since 2026-07-06 85 %›", "contradiction")]
    [InlineData("scale", "jul 110 %; ‹by climate›", "contradiction")]
    [InlineData("device", "output 8; supply tap; ‹zones a›", "contradiction")]
    [InlineData("supply", "fed-by ‹other›", "loop")]
    public void AnythingElseHasItsRule(string kind, string property, string slug) => Expect.One(slug, Block(kind, property), Site(kind));

    [Theory]
    [InlineData("site ‹garden› { effective 2026-03-01 }", "missing")]
    [InlineData("site ‹garden› { timezone Europe/Lisbon }", "missing")]
    [InlineData("site garden { timezone ‹Europe/Lisbo›; effective 2026-03-01 }", "unknown-name")]
    [InlineData("site garden { timezone Europe/Lisbon; effective ‹2026-02-29› }", "out-of-range")]
    [InlineData("site garden { timezone Europe/Lisbon; effective ‹0000-01-01› }", "out-of-range")]
    [InlineData("site garden { timezone Europe/Lisbon; effective ‹9999-12-31› }", "out-of-range")]
    [InlineData("site garden { timezone Europe/Lisbon; effective 2026-03-01; location ‹91 N› 8.1 W }", "out-of-range")]
    [InlineData("site garden { timezone Europe/Lisbon; effective 2026-03-01; location 39 N ‹181 W› }", "out-of-range")]
    [InlineData("site garden { timezone Europe/Lisbon; effective 2026-03-01; scale ‹yeer› }", "unknown-name")]
    public void TheSiteHasItsRules(string site, string slug) => Expect.One(slug, "zone a { output 1 }", site + "\n");

    [Theory]
    [InlineData("location 39.6 N 8.1 W 310 m", 39.6, -8.1, "310 m")]
    [InlineData("location 33.7 S 19.0 E -2 m", -33.7, 19, "-2 m")]
    [InlineData("location 40.3 N 104.6 W 4800 ft", 40.3, -104.6, "4800 ft")]
    public void APositionHasItsSigns(string location, double latitude, double longitude, string height)
    {
        var site = Expect.Fine("", $"site garden {{ timezone Etc/UTC; effective 2026-03-01; {location} }}\nzone a {{ output 1 }}\n").Site!;
        Assert.Equal((latitude, longitude, height), (site.Position!.Latitude, site.Position.Longitude, site.Position.Height.ToString()));
    }

    [Fact]
    public void AShareWithoutItsSignOffersTheShareAsAFix() =>
        Assert.Equal("70 %", Assert.Single(Expect.One("out-of-range", "zone c { output 3; uniformity ‹0.7› }").Fix!.Edits).Replacement);

    /// <summary>Where only one property begins with the word, it is the one that was meant.</summary>
    [Theory]
    [InlineData("supply", "‹minimum 12 L/min›", "minimum-flow")]
    [InlineData("latching", "‹minimum 7 V›", "minimum-voltage")]
    [InlineData("zone", "output 3; ‹never 4 days›", "never-dry-for")]
    public void TheFirstWordOfAPropertyIsEnoughToKnowIt(string kind, string property, string name) =>
        Assert.Equal(name, Assert.Single(Expect.One("unknown-property", Block(kind, property), Site(kind)).Fix!.Edits).Replacement);

    [Fact]
    public void TheFirstOfTwoIsShownBesideTheSecond() =>
        Assert.Contains(Expect.One("stated-twice", "zone c { output 3; method drip; ‹method mist› }").Others, label =>
            label.Location.Text.StartsWith("method drip", StringComparison.Ordinal) || label.Location.Text == "method");

    [Fact]
    public void LitresBecomeMillimetres() =>
        Assert.Equal(12m, Expect.Fine("zone c { output 3; flow 10 L/min; area 50 m2 }").Site!.Zones.Single(zone => zone.Name == "c").MillimetresPerHour);

    /// <summary>A garden with two controllers.</summary>
    private static readonly string TwoControllers = Expect.Garden.Replace("output 1", "output 1 of box", StringComparison.Ordinal)
        .Replace("output 2", "output 2 of box", StringComparison.Ordinal) + "controller hut { outputs 4 }\n";

    [Fact]
    public void A_device_has_outputs_of_several_controllers()
    {
        var device = Assert.Single(Expect.Fine("pump lift { output 8 of box, 2 of hut; zones a, b; load 60 mA }", TwoControllers).Site!.Devices);
        Assert.Equal(("box", 8), (device.Controller.Name, device.Output));
        Assert.Equal(("hut", 2), Assert.Single(device.FurtherOutputs) is var further ? (further.Controller.Name, further.Number.Value) : default);
    }

    [Theory]
    [InlineData("output 8 of box, ‹8 of box›", "contradiction")]
    [InlineData("output 8 of box, 2 of hut, ‹3 of hut›", "contradiction")]
    [InlineData("output 8 of box, 2 of ‹ht›", "unknown-name")]
    [InlineData("output 8 of box, ‹2›", "missing")]
    [InlineData("output 8 of box, ‹0› of hut", "out-of-range")]
    [InlineData("output 8 of box ‹and 2 of hut›", "syntax")]
    [InlineData("output 8 of box,‹›", "syntax")]
    public void Outputs_of_several_controllers_are_found_where_they_are_wrong(string output, string slug) =>
        Expect.One(slug, $"pump lift {{ {output}; zones a, b; load 60 mA }}", TwoControllers);

    [Theory]
    [InlineData("tank 3 m3; refill ‹12 L/min from 2 m3 to 500 L›", "out-of-range")]
    [InlineData("tank 3 m3; refill ‹12 L/min from 500 L to 500 L›", "out-of-range")]
    [InlineData("tank 3 m3; refill ‹12 L/min from 500 L to 3.1 m3›", "out-of-range")]
    [InlineData("tank 3 m3; reserve 600 L; refill ‹12 L/min from 500 L to 2 m3›", "out-of-range")]
    [InlineData("tank 3 m3; refill 12 L/min from 500 L‹›", "syntax")]
    [InlineData("tank 3 m3; refill 12 L/min ‹until› 2 m3", "syntax")]
    [InlineData("tank 3 m3; refill 12 L/min ‹form› 500 L to 2 m3", "syntax")]
    public void Levels_of_a_refill_are_found_where_they_are_wrong(string supply, string slug) =>
        Expect.One(slug, $"supply other {{ {supply} }}", Site("supply"));

    /// <summary>A list is written as one says it; the advice is for the word alone, so that followed literally it loses nothing.</summary>
    [Theory]
    [InlineData("pump lift { output 8 of box ‹and 2 of hut›; zones a, b; load 60 mA }")]
    [InlineData("pump lift { output 8 of box, 2 of hut; zones a ‹and b›; load 60 mA }")]
    public void And_in_a_list_is_answered_with_a_comma(string pump)
    {
        Assert.Equal("Put a comma in its place.", Expect.One("syntax", pump, TwoControllers).Help);
        Expect.Fine(pump.Replace(" ‹and", ",", StringComparison.Ordinal).Replace("›", "", StringComparison.Ordinal), TwoControllers);
    }

    [Fact]
    public void A_zone_has_one_output() => Expect.One("syntax", "zone c { output 3 of box‹, 2 of hut› }", TwoControllers);
}
