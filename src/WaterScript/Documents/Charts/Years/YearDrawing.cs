using System.Globalization;
using System.Text;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Wording;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Documents.Charts.Years;

/// <summary>
/// Draws a year: each day a vessel that fills from below, water by month, each zone by week. Pages hold it at some widths, of which their style shows the
/// one that fits; it is not zoomed, so no script draws it.
/// </summary>
internal sealed partial class YearDrawing
{
    private static readonly string[] Weekdays = ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"];
    private readonly YearChart _year;
    private readonly YearWords _words;
    private readonly PictureSizes _sizes;
    private readonly YearGrid _grid;
    private readonly StringBuilder _svg = new();
    private readonly decimal _most;

    private YearDrawing(YearChart year, PictureSizes sizes)
    {
        (_year, _sizes) = (year, sizes);
        (_words, _grid) = (new YearWords(year), new YearGrid(year, sizes));
        _most = Math.Max(1, Enumerable.Range(0, year.Days).Max(day => _words.Amount(day, day + 1)));
    }

    /// <summary>A year as an element of SVG, and its height.</summary>
    public static (string Svg, double Height) Draw(YearChart year, PictureSizes sizes) => new YearDrawing(year, sizes).Draw();

    private (string Svg, double Height) Draw()
    {
        var y = _sizes.IsWide ? DrawNotes(0) : 0;
        var top = y + 22;
        DrawMonthNames(top);
        DrawDays(top);
        y = top + (_sizes.IsWide ? 7 * _grid.Row : _grid.Weeks * _grid.Row);
        if (_sizes.IsWide)
        {
            y = DrawMonths(y + 34);
            y = DrawRain(y);
        }

        y = DrawZones(y + 34);
        var height = Math.Ceiling(y + 4);
        var (width, tall) = (Number(_sizes.Width), Number(height));
        var place = string.Create(CultureInfo.InvariantCulture,
            $"data-grid=\"{Number(_grid.Left)} {Number(top)} {Number(_grid.Pitch)} {Number(_grid.Row)} {_grid.First} {(_sizes.IsWide ? 1 : 0)}\"");
        return ($"<svg class=\"sheet\" width=\"{width}\" height=\"{tall}\" viewBox=\"0 0 {width} {tall}\" role=\"img\" {place} " +
            $"aria-label=\"{Escaped(_words.Dates + _words.Rest)}\">{_svg}</svg>", height);
    }

    /// <summary>Brackets over the weeks: holds, closed seasons, seasons of restrictions; and ticks where the clock changes.</summary>
    private double DrawNotes(double y)
    {
        var rows = new List<double>();
        var placed = new List<(YearNote Note, string Words, double X, int Row, bool IsTick)>();
        var notes = _year.Notes.Select(note => (note, false)).Concat(_year.Changes.Select(note => (note, true))).OrderBy(each => each.note.From);
        foreach (var (note, isTick) in notes)
        {
            var words = Letters.Cut(Plain(note.Words), Math.Min(420, _sizes.Width));
            var x = Math.Max(0, Math.Min(_grid.Along(note.From), _sizes.Width - Letters.Width(words)));
            var end = Math.Max(x + Letters.Width(words), isTick ? 0 : _grid.Along(note.Until)) + 10;
            var row = rows.FindIndex(used => used <= x);
            if (row < 0)
            {
                row = rows.Count;
                rows.Add(0);
            }

            rows[row] = end;
            placed.Add((note, words, x, row, isTick));
        }

        foreach (var (note, words, x, row, isTick) in placed)
        {
            var line = y + ((rows.Count - row) * 24) - 8;
            _svg.Append(Words(x, line - 4, words, "s"));
            _svg.Append(isTick
                ? Path("ax", $"M{Number(_grid.Along(note.From))} {Number(line)}v6")
                : Path("ax", $"M{Number(_grid.Along(note.From))} {Number(line + 6)}V{Number(line)}H{Number(_grid.Along(note.Until))}v6"));
        }

        return y + (rows.Count * 24);
    }

    private void DrawMonthNames(double top)
    {
        var used = -1e9;
        foreach (var (month, from, _) in _year.Months())
        {
            var words = Phrases.Month(month.Month)[..3] + (from == 0 || month.Month == 1
                ? string.Create(CultureInfo.InvariantCulture, $" {_year.DateOf(from).Year}")
                : "");
            if (!_sizes.IsWide)
            {
                var y = _grid.Of(from).Y;
                if (y + 11 < used + 14) continue;
                _svg.Append(Words(0, top + y + 11, words, "b"));
                used = y + 11;
                continue;
            }

            var x = Math.Max(_grid.Of(from).X + (_grid.Of(from).Y > 0 ? _grid.Pitch : 0), used);
            if (x + BoldWidth(words) > _sizes.Width - Letters.Width($"{_words.Unit} a year") - 8) continue;
            _svg.Append(Words(x, top - 8, words, "b"));
            used = x + BoldWidth(words) + 6;
        }
    }

    /// <summary>Bold letters of Arial are up to so much wider.</summary>
    private static double BoldWidth(string words) => Letters.Width(words) * 1.1;

    private void DrawDays(double top)
    {
        var (outlines, crosses, closed) = (new StringBuilder(), new StringBuilder(), new StringBuilder());
        var vessels = new[] { new StringBuilder(), new StringBuilder(), new StringBuilder(), new StringBuilder() };
        var (width, height) = _grid.Cell;
        for (var day = 0; day < _year.Days; day++)
        {
            var (x, y) = (_grid.Of(day).X + 1, top + _grid.Of(day).Y + 1);
            var amount = _words.Amount(day, day + 1);
            var frame = $"M{Number(x)} {Number(y)}h{Number(width)}v{Number(height)}h-{Number(width)}z";
            if (amount == 0 && _year.States[day] == DayState.Closed) closed.Append(frame);
            else outlines.Append(frame);
            var (across, down) = (Number(width - 4), Number(height - 4));
            if (amount == 0 && _year.States[day] == DayState.Held)
                crosses.Append($"M{Number(x + 2)} {Number(y + 2)}l{across} {down}m0 -{down}l-{across} {down}");
            if (amount == 0) continue;
            var share = (double)(amount / _most);
            var full = Math.Max(2, height * share);
            vessels[Math.Min(3, (int)(share * 3.999))].Append($"M{Number(x)} {Number(y + height - full)}h{Number(width)}v{Number(full)}h-{Number(width)}z");
        }

        _svg.Append(Path("closed", closed.ToString())).Append(Path("cell", outlines.ToString()));
        foreach (var (index, vessel) in vessels.Index())
            _svg.Append(Path(string.Create(CultureInfo.InvariantCulture, $"w{index + 1}"), vessel.ToString()));
        _svg.Append(Path("ax", crosses.ToString())).Append(Path("rule", _grid.Borders(_year, top, _grid.Row)));
        if (_sizes.IsWide) DrawWeekdays(top);
        else DrawMonthTotals(top);
    }

    private void DrawWeekdays(double top)
    {
        _svg.Append(Words(_sizes.Width, top - 8, $"{_words.Unit} a year", "s e"));
        for (var weekday = 0; weekday < 7; weekday++)
        {
            var y = top + (weekday * _grid.Row) + (_grid.Row / 2) + 4;
            var sum = Enumerable.Range(0, _year.Days).Where(day => (_grid.First + day) % 7 == weekday).Sum(day => _words.Amount(day, day + 1));
            _svg.Append(Words(_grid.Left - 10, y, Weekdays[weekday], "s e")).Append(Words(_sizes.Width, y, _words.Column(sum), "e"));
        }
    }

    /// <summary>Where it is narrow, the totals of months stand beside their weeks.</summary>
    private void DrawMonthTotals(double top)
    {
        var x = _grid.Left + (7 * _grid.Pitch) + 12;
        _svg.Append(Words(x, top - 8, $"{_words.Unit} a month", "s"));
        var used = -1e9;
        foreach (var (_, from, until) in _year.Months())
        {
            var y = top + _grid.Of(from).Y + 11;
            if (y < used + 14) continue;
            _svg.Append(Words(x, y, _words.Column(_words.Amount(from, until)), ""));
            used = y;
        }
    }
}
