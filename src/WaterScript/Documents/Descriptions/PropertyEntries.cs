using NodaTime;
using NodaTime.Text;
using WaterScript.Documents.Writers;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Documents.Descriptions;

/// <summary>Writes values of properties under the keys that the schema gives them, in the units that those name; nothing for null.</summary>
internal static class PropertyEntries
{
    public static void Entry(this DocumentWriter writer, Property<AmountType> property, Quantity? amount) =>
        writer.Entry(property.Key, Measure.Rounded(amount?.InBase));

    public static void Entry(this DocumentWriter writer, Property<TimeType> property, Duration? length) => writer.Entry(property.Key, Measure.Seconds(length));

    public static void Entry(this DocumentWriter writer, Property<LeadType> property, Duration? length) => writer.Entry(property.Key, Measure.Seconds(length));

    public static void Entry(this DocumentWriter writer, Property<ShortTimeType> property, Duration? length) =>
        writer.Entry(property.Key, Measure.Milliseconds(length));

    public static void Entry(this DocumentWriter writer, Property<ShareType> property, decimal? percent) =>
        writer.Entry(property.Key, Measure.Rounded(percent));

    public static void Entry(this DocumentWriter writer, Property<CountType> property, int? count) => writer.Entry(property.Key, count);

    public static void Entry(this DocumentWriter writer, Property<FlagType> property, bool isWritten) => writer.EntryIf(property.Key, isWritten);

    public static void Entry(this DocumentWriter writer, Property<ReferenceType> property, string? name) => writer.Entry(property.Key, name);

    public static void Entry(this DocumentWriter writer, Property<WordType> property, string? word) => writer.Entry(property.Key, word);

    public static void Entry(this DocumentWriter writer, Property<DateType> property, LocalDate date) =>
        writer.Entry(property.Key, LocalDatePattern.Iso.Format(date));

    public static void Entry(this DocumentWriter writer, Property<PairType> property, Quantity? first, Quantity? second)
    {
        writer.Entry(property.Keys[0].Name, Measure.Rounded(first?.InBase));
        writer.Entry(property.Keys[1].Name, Measure.Rounded(second?.InBase));
    }

    public static void Entry(this DocumentWriter writer, Property<ContentType> property, Quantity? amount, LocalDate? on)
    {
        writer.Entry(property.Keys[0].Name, Measure.Rounded(amount?.InBase));
        if (on is { } date) writer.Entry(property.Keys[1].Name, LocalDatePattern.Iso.Format(date));
    }

    public static void Entry(this DocumentWriter writer, Property<CatchType> property, Quantity? area, decimal? percent) =>
        writer.EntryWithShare(property, area, percent);

    public static void Entry(this DocumentWriter writer, Property<PressureTankType> property, PressureTank? tank)
    {
        writer.Entry(property.Keys[0].Name, Measure.Rounded(tank?.Volume.InBase));
        writer.Entry(property.Keys[1].Name, Measure.Rounded(tank?.CutIn?.InBase));
        writer.Entry(property.Keys[2].Name, Measure.Rounded(tank?.CutOut?.InBase));
    }

    public static void Entry(this DocumentWriter writer, Property<WireType> property, Wire? wire)
    {
        writer.Entry(property.Keys[0].Name, Measure.Rounded(wire?.Length.InBase));
        writer.Entry(property.Keys[1].Name, Measure.Rounded(wire?.Section.InBase));
        writer.EntryIf(property.Keys[2].Name, wire is { IsFlexible: true });
        writer.EntryIf(property.Keys[3].Name, wire is { SharesReturn: true });
    }

    public static void Entry(this DocumentWriter writer, Property<StartingCurrentType> property, StartingCurrent? inrush)
    {
        writer.Entry(property.Keys[0].Name, Measure.Rounded(inrush?.Current.InBase));
        writer.Entry(property.Keys[1].Name, Measure.Milliseconds(inrush?.Length));
    }

    public static void Entry(this DocumentWriter writer, Property<RechargeType> property, Quantity? power, decimal? percent) =>
        writer.EntryWithShare(property, power, percent);

    private static void EntryWithShare(this DocumentWriter writer, Property property, Quantity? amount, decimal? percent)
    {
        writer.Entry(property.Keys[0].Name, Measure.Rounded(amount?.InBase));
        writer.Entry(property.Keys[1].Name, Measure.Rounded(percent));
    }
}
