using System.Globalization;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Editing.Cards;

/// <summary>What a value is in other units, and what a property is.</summary>
internal static class ValueCards
{
    private const int Digits = 3;
    private const int ThinnestGauge = 30;

    /// <summary>A quantity in the other units of its dimension; null where there are none.</summary>
    public static Card? OfQuantity(TextSpan span, decimal value, Unit unit)
    {
        var quantity = new Quantity(value, unit);
        var words = unit.Dimension switch
        {
            Dimension.Time => Phrases.Length((long)quantity.InBase) is var length && length != quantity.ToString() ? length : "",
            Dimension.WireSection when !ReferenceEquals(unit, Units.Awg) => Gauges(quantity),
            Dimension.WireSection => $"{Rounded(quantity.InBase)} mm2",
            _ => string.Join(", ", Units.Of(unit.Dimension).Where(other => other != unit && !ReferenceEquals(other, Units.Awg))
                .Select(other => $"{Rounded(quantity.In(other).Value)} {other.Symbol}")),
        };
        return words.Length == 0 ? null : new Card(span, [words]);
    }

    /// <summary>A property of a block.</summary>
    public static Card OfProperty(TextSpan span, BlockSchema block, Property property)
    {
        var help = property.Help.TrimEnd('.');
        var rule = property.IsRequired ? " Required." : property.Default.Length > 0
            ? $" Default {property.Default.Replace("`", "", StringComparison.Ordinal)}." : " Optional.";
        return Card.Of(span, property.Name, $" of {block.Article}: {char.ToLowerInvariant(help[0])}{help[1..]}.{rule}", Takes(property));
    }

    /// <summary>The words or units that its value takes.</summary>
    private static string Takes(Property property) => property.ValueType switch
    {
        WordType words => string.Join(", ", words.Words),
        AmountType amount => string.Join(", ", Units.Of(amount.Dimension).Select(unit => unit.Symbol)),
        TimeType or ShortTimeType or LeadType => "ms, s, min, h",
        _ => $"As in {property.Form}",
    };

    /// <summary>The gauges on both sides of a section.</summary>
    private static string Gauges(Quantity section)
    {
        for (var gauge = 0; gauge < ThinnestGauge; gauge++)
        {
            var (thick, thin) = (new Quantity(gauge, Units.Awg).InBase, new Quantity(gauge + 1, Units.Awg).InBase);
            if (section.InBase <= thick && section.InBase >= thin)
                return string.Create(CultureInfo.InvariantCulture, $"between {gauge} AWG ({thick:0.00} mm2) and {gauge + 1} AWG ({thin:0.00} mm2)");
        }

        return "";
    }

    /// <summary>A number as it is where that is short, else with three digits that count.</summary>
    private static string Rounded(decimal value)
    {
        var exact = (value / 1.0000000000000000000000000000m).ToString(CultureInfo.InvariantCulture);
        if (exact.Count(char.IsAsciiDigit) <= Digits + 1) return exact;
        var digits = value == 0 ? 0 : Math.Clamp(Digits - 1 - (int)Math.Floor(Math.Log10((double)Math.Abs(value))), 0, 8);
        return value.ToString($"F{digits}", CultureInfo.InvariantCulture);
    }
}
