using System.Collections.Immutable;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Model;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts.Years;

/// <summary>The amounts of a year in words: water, or where no flow is known how long valves are open.</summary>
internal sealed class YearWords
{
    private const int MostZones = 4;
    private readonly YearChart _year;
    private readonly WaterFigures _figures;

    public YearWords(YearChart year)
    {
        (_year, _figures) = (year, new WaterFigures(year.Site));
        HasWater = year.Site.Zones.Any(zone => zone.LitresPerMinute is not null);
    }

    /// <summary>Whether any flow is known.</summary>
    public bool HasWater { get; }

    /// <summary>The unit of columns.</summary>
    public string Unit => HasWater ? _figures.Unit.Symbol : "h";

    /// <summary>What a day, or some days, come to, as a number to draw: litres or seconds.</summary>
    public decimal Amount(int from, int until) =>
        HasWater ? _year.Litres(from, until) : _year.Site.Zones.Sum(zone => _year.SecondsOf(zone, from, until));

    /// <summary>The same for a column, without its unit: whole litres, or hours.</summary>
    public string Column(decimal amount) => amount == 0 ? "–" : HasWater ? _figures.Whole(amount) : WaterFigures.Number(amount / 3600);

    /// <summary>The same with its unit.</summary>
    public string Say(decimal amount) => HasWater ? _figures.Volume(amount) : Phrases.Length((long)amount);

    /// <summary>What a zone comes to on some days, without a unit where it is water.</summary>
    public string Column(Zone zone, long seconds) =>
        zone.LitresPerMinute is { } flow ? Column(flow * seconds / 60) : seconds == 0 ? "–" : $"{WaterFigures.Number((decimal)seconds / 3600)} h";

    /// <summary>A depth in mm, in the unit of the file.</summary>
    public string Depth(decimal millimetres) => _figures.Depth(millimetres);

    /// <summary>Which year, and what it comes to.</summary>
    public string Dates => $"{MomentWords.Date(_year.From)} to {MomentWords.Date(_year.DateOf(_year.Days - 1))}";

    /// <summary>The rest of the summary.</summary>
    public string Rest
    {
        get
        {
            var wet = Enumerable.Range(0, _year.Days).Where(day => _year.Runs[day] > 0).ToList();
            var zone = _year.Site.TimeZone.Id;
            if (wet.Count == 0) return $", {zone}. No water.";
            var most = wet.MaxBy(day => Amount(day, day + 1));
            return $", {zone}. Water on {Phrases.Count(wet.Count, "day")}, {Say(Amount(0, _year.Days))}; most on {MomentWords.Date(_year.DateOf(most))}, " +
                $"{Say(Amount(most, most + 1))}. A watering counts for the date that its pass belongs to.";
        }
    }

    /// <summary>A day in words, and the zones that it waters.</summary>
    public (string Words, string Zones) Day(int day)
    {
        var state = _year.States[day] switch
        {
            DayState.Held => "a hold takes watering",
            DayState.Closed => "closed",
            _ => "",
        };
        if (_year.Runs[day] == 0) return (state.Length > 0 ? $"no water, {state}" : "no water", "");
        var zones = _year.Site.Zones.Where(zone => _year.Seconds[zone.Index][day] > 0).ToList();
        var named = zones.Take(MostZones).Select(zone => $"{Shapes.Plain(zone.DisplayName)} {Of(zone, _year.Seconds[zone.Index][day])}");
        var more = zones.Count > MostZones ? $" and {(zones.Count - MostZones).ToString(System.Globalization.CultureInfo.InvariantCulture)} more" : "";
        var words = $"{Phrases.Count(_year.Runs[day], "run")}, {Say(Amount(day, day + 1))}{(state.Length > 0 ? $"; {state}" : "")}";
        return (words, string.Join(", ", named) + more);
    }

    private string Of(Zone zone, long seconds) => zone.LitresPerMinute is { } flow ? _figures.Volume(flow * seconds / 60) : Phrases.Length(seconds);

    /// <summary>The zones, those that get the same on every day together; each with its name and how many.</summary>
    /// <param name="fewest">From so many zones on they stand together.</param>
    public ImmutableArray<ImmutableArray<Zone>> Alike(int fewest)
    {
        var zones = _year.Site.Zones.Where(zone => !zone.IsSpare).ToList();
        if (zones.Count < fewest) return [.. zones.Select(zone => ImmutableArray.Create(zone))];
        return [.. zones.GroupBy(zone => $"{zone.LitresPerMinute} {string.Join(' ', _year.Seconds[zone.Index])}", StringComparer.Ordinal)
            .Select(group => group.ToImmutableArray())];
    }
}
