using System.Text;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Wording;
using static WaterScript.Documents.Charts.Drawing.Shapes;

namespace WaterScript.Documents.Charts.Years;

/// <summary>The time axis of what is drawn day by day along a year.</summary>
/// <param name="year">The year.</param>
/// <param name="sizes">The room.</param>
internal sealed class YearLine(YearChart year, PictureSizes sizes)
{
    /// <summary>From so many days in a row on their number is written.</summary>
    public const int FewestInWords = 3;

    /// <summary>Bold letters of Arial are up to so much wider.</summary>
    private const double Bold = 1.1;

    /// <summary>The left edge.</summary>
    public double Left => sizes.Left;

    /// <summary>The right edge.</summary>
    public double Right => sizes.Width - sizes.Right;

    /// <summary>Where a day begins.</summary>
    public double X(double day) => Left + ((Right - Left) * day / year.Days);

    /// <summary>The names of the months.</summary>
    /// <param name="y">Their baseline.</param>
    public string Months(double y)
    {
        var (used, names) = (-1e9, new StringBuilder());
        foreach (var (month, from, until) in year.Months())
        {
            var words = Phrases.Month(month.Month)[..3];
            if (X(from) < used || X(from) + (Letters.Width(words) * Bold) > X(until) + 2) continue;
            names.Append(Words(X(from), y, words, "b"));
            used = X(from) + (Letters.Width(words) * Bold) + 4;
        }

        return names.ToString();
    }

    /// <summary>Lines where months begin.</summary>
    public string Borders(double top, double bottom) =>
        Path("hair", string.Concat(year.Months().Select(month => $"M{Number(X(month.From))} {Number(top)}V{Number(bottom)}")));

    /// <summary>Words under spells of days, each in the middle of its own where there is room.</summary>
    /// <param name="spells">The first day of each, from 0, and the day after its last.</param>
    /// <param name="words">What is said of so many days.</param>
    /// <param name="baseline">The baseline under a spell.</param>
    public string Spells(IEnumerable<(int From, int Until)> spells, Func<int, string> words, Func<(int From, int Until), double> baseline)
    {
        var (used, all) = (-1e9, new StringBuilder());
        foreach (var spell in spells.Where(spell => spell.Until - spell.From >= FewestInWords))
        {
            var said = words(spell.Until - spell.From);
            var width = Letters.Width(said);
            var x = Math.Max(Left, Math.Min(Right - width, X((spell.From + spell.Until) / 2.0) - (width / 2)));
            if (x < used) continue;
            all.Append(Words(x, baseline(spell), said, "halo"));
            used = x + width + 6;
        }

        return all.ToString();
    }
}
