using WaterScript.Agronomy;
using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Description;

/// <summary>Amounts of emitters, weather and soil that are beyond what there is.</summary>
internal static class UnlikelyAmounts
{
    /// <summary>The most of an emitter of a drip line, in L/min: they give 1 to 24 L/h, and 60 L/h is beyond all of them (common practice).</summary>
    private const decimal MostOfEmitter = 1;

    /// <summary>
    /// The most reference evapotranspiration of a month, in mm a day: warm and dry places have 6 to 9 (FAO 56, table 2, from memory), and no month is
    /// known that comes near to twice as much (common practice).
    /// </summary>
    private const decimal MostEt = 15;

    /// <summary>
    /// The most sunshine of a month, in hours a day, where the place is not known: the sunniest months have about 13 (common practice).
    /// </summary>
    private const decimal MostSun = 16;

    /// <summary>
    /// The most water that a soil holds for plants, in mm/m: mineral soils 50 to 200 (FAO 56, table 19), peat up to about 500 (common practice).
    /// </summary>
    private const decimal MostHeld = 600;

    private const decimal HoursInDay = 24;

    /// <summary>The longest months differ by so many hours from what is calculated of their middle.</summary>
    private const decimal WithinMonth = 1;

    /// <summary>Days of the year, of the fifteenth of each month (FAO 56, table 2.5).</summary>
    private static readonly int[] MiddleOfMonth = [15, 46, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349];

    /// <summary>All of a site.</summary>
    public static IEnumerable<Finding> Of(Site site) => [.. Emitters(site), .. Months(site), .. Soils(site)];

    private static IEnumerable<Finding> Emitters(Site site) =>
        from zone in site.Zones
        where zone.Method is IrrigationMethod.Drip or IrrigationMethod.Unknown
        let flow = zone.EmitterFlow
        where flow is not null && flow.Value.InBase > MostOfEmitter
        select FindingFor(flow.Value.Place, $"an emitter of zone {zone.Name} gives {flow.Value}",
            $"{flow.Value} = {Hourly(flow.Value)} L/h; drip emitters give 1 to 24 L/h.",
            "Write it in L/h or gph, or say the `method`, such as `method bubbler`.");

    private static string Hourly(Quantity flow) => Phrases.Number(flow.InBase * 60, 0);

    private static IEnumerable<Finding> Months(Site site)
    {
        if (site.Climate is not { } climate) yield break;
        for (var month = 0; month < climate.Months.Length; month++)
        {
            if (climate.Months[month] is not { } means) continue;
            var name = Phrases.Month(month + 1);
            if (means.Et is { } et && et.InBase * HoursInDay > MostEt)
            {
                yield return FindingFor(means.Origin, $"et of {name} is {et}",
                    $"{et} = {Phrases.Number(et.InBase * HoursInDay, 0)} mm a day; warm and dry places have 6 to 9.",
                    "Write it in the unit that is meant.");
            }

            if (means.Sun is { } sun && Daylight(site, month) is var day && sun.InBase > day)
            {
                yield return FindingFor(means.Origin, $"sun of {name} is {sun}, {Longest(site)} {Phrases.Number(day, 1)} h",
                    "", "Write the mean hours of bright sunshine in a day, or correct the `location`.");
            }
        }
    }

    private static string Longest(Site site) => site.Position is null ? "no place has more than" : "its days last up to";

    /// <summary>The most sunshine that a day of a month, from 0, can have.</summary>
    private static decimal Daylight(Site site, int month) => site.Position is { } place
        ? Math.Min(HoursInDay, (decimal)Radiation.Daylight(place.Latitude * Math.PI / 180, MiddleOfMonth[month]) + WithinMonth)
        : MostSun;

    private static IEnumerable<Finding> Soils(Site site) =>
        from soil in site.Soils
        where soil.Holds is { InBase: > MostHeld }
        let held = soil.Holds!.Value
        select FindingFor(soil.Origin!.Value, $"soil {soil.Name} holds {held}",
            $"{held} = {Phrases.Number(held.InBase / 10, 0)} % of its volume; soils hold 50 to 200 mm/m for plants, peat up to 500.",
            "Write it in the unit that is meant.");

    private static Finding FindingFor(Text.Location place, string heading, string details, string help) =>
        Finding.At(UnlikelyValue.Rule, place, heading, "is another unit meant?") with { Details = details, Help = help };
}
