using WaterScript.Agronomy;
using WaterScript.Documents.Charts.Years;
using WaterScript.Language;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>What the marks of a year mean: those that are drawn.</summary>
internal static class YearLegend
{
    /// <summary>The entries.</summary>
    public static IEnumerable<(string Sample, string Words)> Of(YearChart year)
    {
        yield return ("<path class=\"cell\" d=\"M1 1h11v11h-11zM16 1h11v11h-11z\"/><path class=\"w2\" d=\"M16 7h11v5h-11z\"/>",
            "a day; the fuller, the more water");
        var states = Enumerable.Range(0, year.Days).Where(day => year.Runs[day] == 0).Select(day => year.States[day]).ToHashSet();
        if (states.Contains(DayState.Closed)) yield return ("<path class=\"closed\" d=\"M2 1h12v12h-12z\"/>", "closed season");
        if (states.Contains(DayState.Held))
            yield return ("<path class=\"cell\" d=\"M2 1h12v12h-12z\"/><path class=\"ax\" d=\"M4 3l8 8m0 -8l-8 8\"/>", "no water because of a hold");
        yield return ("<path class=\"w\" d=\"M0 2h26v11h-26z\"/>", "water by month, and of each zone, each to its own height");
        if (MonthWeather.YearOf(year.Site).Any(month => month?.Rain is not null))
            yield return ("<path class=\"rain\" d=\"M4 13V4H18V13\"/>", "rain that plants can use");
        if (year.Site.Zones.Any(zone => Simulation.Water.ZoneBalance.MissingFor(zone, year.Site, MonthWeather.YearOf(year.Site)) is null))
            yield return ("<path class=\"need\" d=\"M0 10H9V5H18V8H27\"/>", "what plants need in a week");
        yield return ("<path class=\"rule\" d=\"M10 0v14\"/>", "a month begins");
    }

    /// <summary>The entries of the ground.</summary>
    public static IEnumerable<(string Sample, string Words)> OfGround(IReadOnlyList<GroundYear> grounds)
    {
        yield return ("<path class=\"w\" d=\"M0 4h4v9h-4zM9 4h4v9h-4z\"/>", "watering, the share that plants can use");
        yield return ("<path class=\"rain\" d=\"M0 12H9V5H18V9H27\"/>", "rain that plants can use");
        yield return ("<path class=\"wash\" d=\"M0 3h27v10h-27z\"/><path class=\"wl\" d=\"M0 3h27\"/>", "water in the root zone");
        yield return ("<path class=\"limit\" d=\"M0 7h28\"/>", "may fall to here");
        if (grounds.Any(ground => ground.Days.Any(day => day.End.IsStressed))) yield return ("<path class=\"over\" d=\"M0 1h27v12h-27z\"/>", "drier than that");
        if (grounds.Any(ground => ground.Days.Any(day => day.End.Percolation > 0)))
            yield return ("<path class=\"through\" d=\"M1 1h3v12h-3zM9 1h3v8h-3z\"/>", "runs through below the roots");
    }

    /// <summary>The entries of tanks.</summary>
    public static IEnumerable<(string Sample, string Words)> OfTanks(IReadOnlyList<TankYear> tanks)
    {
        yield return ("<path class=\"wash\" d=\"M0 3h27v10h-27z\"/><path class=\"wl\" d=\"M0 3h27\"/>", "water in the tank");
        if (tanks.Any(tank => tank.Supply.Reserve?.InBase > 0)) yield return ("<path class=\"limit\" d=\"M0 7h28\"/>", "reserve, which stays in it");
        if (tanks.Any(tank => !tank.Short.IsEmpty)) yield return ("<path class=\"over\" d=\"M0 1h27v12h-27z\"/>", "too little for what is due");
    }

    /// <summary>Writes them.</summary>
    public static void Write(MarkupWriter markup, YearChart year) => Legend.Write(markup, Of(year));
}
