using System.Collections.Immutable;
using WaterScript.Agronomy;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Answers.Advise;

/// <summary>What the advice takes for granted, how far it goes, and its shares as a block to paste.</summary>
internal static class AdviceWords
{
    /// <summary>Stands under every advice.</summary>
    public const string Caution =
        "Local advice, water restrictions and codes govern. These are means of many years: look at the ground and the plants before you change anything.";

    /// <summary>What was taken for granted, as sentences.</summary>
    public static IEnumerable<string> Assumed(WateringAdvice advice)
    {
        yield return "The weather is the mean of the month, spread evenly over it. Rain counts as effective rain (FAO Training Manual 3), but is not relied " +
            "on between two waterings.";
        foreach (var group in advice.Year.OfType<MonthWeather>().SelectMany(month => month.Assumed.Select(what => (what, month.Month)))
            .GroupBy(pair => pair.what))
            yield return $"{Capital(group.Key)}, in {MonthNames(group.Select(pair => pair.Month))}.";
        if (advice.Site.Climate is { } climate && LeftOut(climate) is { Length: > 0 } unused)
            yield return $"{Capital(string.Join(", ", unused))} of some months not used: all months are calculated from the same numbers.";
        if (advice.Year.OfType<MonthWeather>().Where(month => month.Method == EtMethod.Hargreaves).Select(month => month.Month)
            .ToArray() is { Length: > 0 } simple)
            yield return $"Evapotranspiration from temperatures alone (Hargreaves), in {MonthNames(simple)}.";
        if (advice.Year.OfType<MonthWeather>().Where(month => month.Rain is null).Select(month => month.Month).ToArray() is { Length: > 0 } dry)
            yield return $"No rain, in {MonthNames(dry)}: none is given.";
        Zone[] zones = [.. advice.Zones.Where(zone => zone.Lacks is null).Select(zone => zone.Zone)];
        if (advice.Shares.Any(share => share is not null) && advice.Zones.Length > 1)
            yield return "The shares of the peak month are the mean of all zones that have plants.";
        if (advice.Shares.Any(share => share is not null) && advice.Zones.All(zone => zone.Zone.Plants is null))
            yield return "The plants are grass: no zone names its own.";
        if (Names(zones, zone => zone is { EfficiencyPercent: null, UniformityPercent: null }) is { } whole)
            yield return $"All of its water counts, at {whole}: no efficiency or uniformity is given.";
        if (Names(zones, zone => zone.Plants!.Origin is null) is { } plants) yield return $"The plants of {plants} are as the tables of FAO 56 have them.";
        if (Names(zones, zone => zone.Soil is { Origin: null }) is { } soils)
            yield return $"The soil of {soils} is as the tables have it, the middle of a wide range.";
        if (Names(zones, zone => zone is { Soil: not null, SlopePercent: null } && zone.Method != IrrigationMethod.Drip) is { } level)
            yield return $"The ground of {level} is level.";
        if (Names(zones, zone => zone.TrimPercent != 100) is { } trimmed)
            yield return $"Times are how long the valve is open. Those written for {trimmed} are still multiplied by its trim.";
    }

    /// <summary>The shares as a line of the language, the mean of all zones; null where there are none.</summary>
    public static string? ScaleLine(WateringAdvice advice)
    {
        if (advice.Shares.All(share => share is null)) return null;
        var months = advice.Shares.Select((share, month) => share is { } percent ? $"{Language.MonthNames.All[month]} {Phrases.Percent(percent)}" : null);
        return $"scale {ScaleName(advice.Site)} {{ {string.Join("; ", months.OfType<string>())} }}\n";
    }

    /// <summary>A name that no scale of the site has.</summary>
    public static string ScaleName(Site site)
    {
        const string name = "advised";
        return Enumerable.Range(2, site.Scales.Length + 1).Select(number => $"{name}-{Phrases.Number(number, 0)}").Prepend(name)
            .First(free => site.Scales.All(scale => scale.Name != free));
    }

    /// <summary>What some months have and others do not.</summary>
    private static string[] LeftOut(Climate climate)
    {
        var used = MonthWeather.InCommon(climate.Months);
        return [.. Differ("humidity", month => month.HumidityLeast is null), .. Differ("wind", month => month.Wind is null),
            .. Differ("sunshine", month => month.Sun is null)];
        IEnumerable<string> Differ(string what, Func<ClimateMonth, bool> lacks) =>
            climate.Months.Zip(used).Any(pair => pair.First is { Et: null } given && !lacks(given) && lacks(pair.Second!)) ? [what] : [];
    }

    private static string? Names(Zone[] zones, Func<Zone, bool> which)
    {
        ImmutableArray<string> names = [.. zones.Where(which).Select(zone => zone.Name)];
        return names.IsEmpty ? null : Phrases.Names(names);
    }

    private static string MonthNames(IEnumerable<int> months) =>
        months.ToArray() is { Length: 12 } ? "every month" : string.Join(", ", months.Select(month => Language.MonthNames.All[month - 1]));

    private static string Capital(string words) => char.ToUpperInvariant(words[0]) + words[1..];
}
