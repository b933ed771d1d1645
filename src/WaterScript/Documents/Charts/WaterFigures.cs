using System.Globalization;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Wording;

namespace WaterScript.Documents.Charts;

/// <summary>
/// How pictures write amounts: in the units of the file, to three or four figures, thousands apart. What is added up is exact, and rounded here.
/// </summary>
internal sealed class WaterFigures(Site site)
{
    /// <summary>A space at which a line does not end.</summary>
    private const string Apart = "\u00A0";

    private static readonly NumberFormatInfo Format = new() { NumberGroupSeparator = Apart, NumberDecimalSeparator = "." };
    private readonly DepthWords _depths = new(site);

    /// <summary>The unit of volumes.</summary>
    public Unit Unit { get; } = new WaterWords(site).Volume;

    /// <summary><c>1 804 gal</c></summary>
    public string Volume(decimal litres) => $"{Number(In(litres))} {Unit.Symbol}";

    /// <summary>The same without its unit: <c>86.4</c>.</summary>
    public string Amount(decimal litres) => Number(In(litres));

    /// <summary>A volume without its unit, whole: <c>1 804</c>.</summary>
    public string Whole(decimal litres) => Written(In(litres), digits: 0);

    /// <summary>What a zone gets in so many seconds: volume, and depth where the ground is known; empty where nothing is.</summary>
    public string Of(Zone zone, long seconds)
    {
        var volume = zone.LitresPerMinute * seconds / 60;
        var depth = zone.MillimetresPerHour * seconds / 3600;
        return string.Join(" · ", new[] { volume is { } litres ? Volume(litres) : "", depth is { } mm ? Depth(mm) : "" }.Where(part => part.Length > 0));
    }

    /// <summary><c>0.16 in</c></summary>
    public string Depth(decimal millimetres) => $"{Number(millimetres * _depths.Unit.Denominator / _depths.Unit.Numerator)} {_depths.Unit.Symbol}";

    /// <summary>A number: whole from 100 on, with one digit from 1 on, with two below.</summary>
    internal static string Number(decimal value)
    {
        var size = Math.Abs(value);
        return Written(value, size >= 100 || size == Math.Truncate(size) ? 0 : size >= 1 ? 1 : 2);
    }

    private static string Written(decimal value, int digits) => Math.Round(value, digits, MidpointRounding.AwayFromZero).ToString($"N{digits}", Format);

    private decimal In(decimal litres) => litres * Unit.Denominator / Unit.Numerator;
}
