using System.Globalization;
using System.Text;
using WaterScript.Agronomy;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Model;
using WaterScript.Simulation.Water;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Documents.Charts.Years;

/// <summary>Water by month, rain, and each zone by week.</summary>
internal sealed partial class YearDrawing
{
    private const double MonthHeight = 40;
    private const double ZoneHeight = 32;
    private const double BarHeight = 22;

    /// <summary>From so many zones on, those that get the same stand together.</summary>
    private const int ManyZones = 20;

    private double DrawMonths(double y)
    {
        var months = _year.Months().ToList();
        var amounts = months.ConvertAll(month => _words.Amount(month.From, month.Until));
        var most = Math.Max(1, amounts.Max());
        var bottom = y + MonthHeight + 14;
        var bars = new StringBuilder();
        foreach (var (index, month) in months.Index())
        {
            var (from, until) = (_grid.Along(month.From) + 1, _grid.Along(month.Until) - 1);
            var height = (double)(amounts[index] / most) * MonthHeight;
            bars.Append($"M{Number(from)} {Number(bottom)}V{Number(bottom - height)}H{Number(until)}V{Number(bottom)}z");
            var words = _words.Column(amounts[index]);
            if (amounts[index] > 0 && Letters.Width(words) <= until - from)
                _svg.Append(Words(((from + until) / 2) - (Letters.Width(words) / 2), bottom - height - 4, words, ""));
        }

        _svg.Append(Words(0, bottom - 22, "Water by month", "")).Append(Words(0, bottom - 6, _words.Unit, "s"))
            .Append(Path("w", bars.ToString())).Append(Path("rule", $"M{Number(_grid.Left)} {Number(bottom)}H{Number(_grid.Right)}"))
            .Append(Words(_sizes.Width, bottom - 4, _words.Say(_words.Amount(0, _year.Days)), "b e"));
        return bottom;
    }

    /// <summary>Rain that plants can use, by month, where the climate is known.</summary>
    private double DrawRain(double y)
    {
        var climate = MonthWeather.YearOf(_year.Site);
        if (climate.All(month => month?.Rain is null)) return y;
        var most = Math.Max(1, climate.Max(month => month?.EffectiveRain ?? 0));
        var bottom = y + 20 + MonthHeight;
        var bars = new StringBuilder();
        foreach (var (month, first, last) in _year.Months())
        {
            if (climate[month.Month - 1] is not { } weather) continue;
            var (from, until) = (_grid.Along(first) + 2, _grid.Along(last) - 2);
            var height = (double)(weather.EffectiveRain / most) * (MonthHeight - 14);
            bars.Append($"M{Number(from)} {Number(bottom)}V{Number(bottom - height)}H{Number(until)}V{Number(bottom)}");
            var words = _words.Depth(weather.EffectiveRain);
            if (Letters.Width(words) <= until - from)
                _svg.Append(Words(((from + until) / 2) - (Letters.Width(words) / 2), bottom - height - 4, words, "s"));
        }

        _svg.Append(Words(0, bottom - 22, "Rain that counts", "")).Append(Words(0, bottom - 6, "mean of the month", "s")).Append(Path("rain", bars.ToString()))
            .Append(Path("rule", $"M{Number(_grid.Left)} {Number(bottom)}H{Number(_grid.Right)}"));
        return bottom;
    }

    private double DrawZones(double y)
    {
        _svg.Append(Words(0, y, _sizes.IsWide ? "Zones, week by week" : "Zones, month by month", "b"))
            .Append(Words(_sizes.Width, y, $"{_words.Unit} a year", "s e"));
        var groups = _words.Alike(ManyZones);
        string[] names = [.. groups.Select(group => group.Length == 1
            ? Plain(group[0].DisplayName)
            : string.Create(CultureInfo.InvariantCulture, $"{Plain(group[0].DisplayName)} and {group.Length - 1} more, alike"))];
        var cut = Letters.CutAll(names, _sizes.IsWide ? _sizes.Left - 14 : _sizes.Width * 0.6);
        var spans = Spans().ToList();
        var common = groups.SelectMany(group => spans.Select(span => AmountOf(group[0], span.From, span.Until))).Append(0).Max();
        foreach (var (index, group) in groups.Index())
        {
            var zone = group[0];
            var own = spans.Select(span => AmountOf(zone, span.From, span.Until)).Append(0).Max();
            var bottom = y + 8 + ((_sizes.IsWide ? ZoneHeight : ZoneHeight + 16) * (index + 1));
            var baseline = _sizes.IsWide ? bottom - 8 : bottom - BarHeight - 8;
            _svg.Append($"<text x=\"0\" y=\"{Number(baseline)}\"><title>{Escaped(names[index])}</title>{Escaped(cut[index])}</text>");
            _svg.Append(Words(_sizes.Width, baseline, TotalOf(zone), "e"));
            _svg.Append(Path("w own", BarsOf(zone, spans, own, bottom))).Append(Path("w common", BarsOf(zone, spans, common, bottom)));
            _svg.Append(Path("hair", $"M0 {Number(bottom + 0.5)}H{Number(_sizes.Width)}"));
            if (_sizes.IsWide) DrawNeed(zone, own, bottom);
        }

        return y + 8 + ((_sizes.IsWide ? ZoneHeight : ZoneHeight + 16) * groups.Length);
    }

    private decimal AmountOf(Zone zone, int from, int until) => _year.SecondsOf(zone, from, until) * (zone.LitresPerMinute ?? 1);

    /// <summary>What a zone gets in the year: its water, and of plants that are known what of their need that gives.</summary>
    private string TotalOf(Zone zone)
    {
        var total = _words.Column(zone, _year.SecondsOf(zone, 0, _year.Days));
        if (_sizes.Right == 0 || MonthsOf(zone) is not { } months) return total;
        var (given, need) = (months.Sum(month => month.Given), months.Sum(month => month.SeasonNeed));
        return need == 0 ? total : $"{_words.Depth(Math.Round(given))} of {_words.Depth(Math.Round(need))} · {total}";
    }

    private readonly Dictionary<Zone, IReadOnlyList<ZoneMonth>?> _months = new(ReferenceEqualityComparer.Instance);

    private IReadOnlyList<ZoneMonth>? MonthsOf(Zone zone)
    {
        if (_months.TryGetValue(zone, out var known)) return known;
        var climate = MonthWeather.YearOf(_year.Site);
        return _months[zone] = ZoneBalance.MissingFor(zone, _year.Site, climate) is null
            ? ZoneBalance.Of(zone, GroundYear.DaysOf(_year, zone), GroundYear.HorizonOf(_year), climate)
            : null;
    }

    /// <summary>What plants need in a week, month by month, as far as it fits into the lane.</summary>
    private void DrawNeed(Zone zone, decimal own, double bottom)
    {
        if (own == 0 || MonthsOf(zone) is not { } months || zone.MillimetresPerHour is not { } rate || rate == 0) return;
        var line = new StringBuilder();
        foreach (var (month, index) in _year.Months().Select((month, index) => (month, index)))
        {
            var daily = Math.Max(0, months[index].DemandOfDay - (months[index].RainOfMonth / months[index].Length));
            // As many seconds of watering as bring so much, counted as the bars are.
            var amount = WaterLedger.UsableDepth(zone, 1) is { } depth && depth > 0 ? 7 * daily / depth * (zone.LitresPerMinute ?? 1) : 0;
            var y = bottom - Math.Min(BarHeight + 4, (double)(amount / own) * BarHeight);
            var start = line.Length == 0 ? $"M{Number(_grid.Along(month.From))} " : "V";
            line.Append($"{start}{Number(y)}H{Number(_grid.Along(month.Until))}");
        }

        _svg.Append(Path("need own", line.ToString()));
    }

    private string BarsOf(Zone zone, List<(int From, int Until, double Left, double Right)> spans, decimal most, double bottom)
    {
        var bars = new StringBuilder();
        foreach (var (from, until, left, right) in spans)
        {
            var amount = AmountOf(zone, from, until);
            if (amount == 0) continue;
            var height = Math.Max(1, (double)(amount / most) * BarHeight);
            bars.Append($"M{Number(left + 1)} {Number(bottom)}V{Number(bottom - height)}H{Number(right - 1)}V{Number(bottom)}z");
        }

        return bars.ToString();
    }

    /// <summary>Weeks; months where it is narrow.</summary>
    private IEnumerable<(int From, int Until, double Left, double Right)> Spans()
    {
        if (!_sizes.IsWide)
        {
            var months = _year.Months().ToList();
            var width = _sizes.Width / months.Count;
            foreach (var (index, month) in months.Index()) yield return (month.From, month.Until, index * width, (index + 1) * width);
            yield break;
        }

        for (var week = 0; week < _grid.Weeks; week++)
        {
            var (from, until) = (Math.Max(0, (week * 7) - _grid.First), Math.Min(_year.Days, ((week + 1) * 7) - _grid.First));
            yield return (from, until, _grid.Left + (week * _grid.Pitch), _grid.Left + ((week + 1) * _grid.Pitch));
        }
    }
}
