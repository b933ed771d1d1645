using System.Collections.Immutable;
using NodaTime.Text;
using WaterScript.Documents.Writers;
using WaterScript.Language;
using WaterScript.Model;

namespace WaterScript.Documents.Descriptions;

/// <summary>What water costs, as written.</summary>
internal static class TariffDescription
{
    /// <summary>Writes the entries of a tariff.</summary>
    public static void Write(DocumentWriter writer, Tariff tariff)
    {
        writer.Entry("name", tariff.Name);
        writer.Entry("label", tariff.Label);
        writer.Entry(Schema.Tariff.Currency.Key, tariff.Currency.Code);
        if (tariff.WrittenBills is { Value: var bills })
        {
            writer.Entry(Schema.Tariff.Bills.Keys[0].Name, bills.Months);
            writer.Entry(Schema.Tariff.Bills.Keys[1].Name, LocalDatePattern.Iso.Format(bills.From));
        }

        if (tariff.Fixed is { Value: var charge })
        {
            writer.Entry(Schema.Tariff.Fixed.Keys[0].Name, Measure.Rounded(charge.Amount));
            writer.Entry(Schema.Tariff.Fixed.Keys[1].Name, WordOf(charge.Per));
        }

        WriteLines(writer, Schema.Tariff.Price.Key, tariff.Prices);
        WriteLines(writer, Schema.Tariff.Sewer.Key, tariff.Sewer);
        if (tariff.TaxPercent is { Value: var tax }) writer.Entry(Schema.Tariff.Tax.Key, Measure.Rounded(tax));
    }

    /// <summary>Writes what else goes through a meter.</summary>
    public static void Write(DocumentWriter writer, OtherUse use)
    {
        writer.Entry(Schema.Supply.OtherUse.Keys[0].Name, Measure.Rounded(use.Volume.InBase));
        writer.Entry(Schema.Supply.OtherUse.Keys[1].Name, WordOf(use.Per));
    }

    private static void WriteLines(DocumentWriter writer, string key, ImmutableArray<PriceLine> lines)
    {
        if (!lines.IsEmpty) writer.List(key, lines, line => writer.Map(() => WriteLine(writer, line), Layout.OneLine));
    }

    private static void WriteLine(DocumentWriter writer, PriceLine line)
    {
        writer.Entry("price", Measure.Rounded(line.Amount));
        writer.Entry("per", line.Unit.Symbol);
        writer.Entry("above_l", Measure.Rounded(line.Above?.InBase));
        if (line.Dates is { } dates) writer.Map("dates", () => DayDescription.Write(writer, dates.Span, countedFrom: ""), Layout.OneLine);
    }

    private static string WordOf(ChargePeriod period) => period switch
    {
        ChargePeriod.Day => "day",
        ChargePeriod.Month => "month",
        ChargePeriod.Year => "year",
        _ => "bill",
    };
}
