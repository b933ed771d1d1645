using System.Collections.Immutable;
using NodaTime;
using WaterScript.Binding.Values;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Tariffs.</summary>
internal sealed class TariffBinder(Declarations declarations, Scope scope)
{
    /// <summary>Dates are looked through over so many years: two leap years, and years that begin on different weekdays.</summary>
    private const int FirstYear = 2022;
    private const int LastYear = 2028;
    private const int LeapYear = 2000;

    /// <summary>Tariffs by name.</summary>
    public NameTable<Tariff> Tariffs { get; } = new("tariff", scope);

    /// <summary>Reads them all.</summary>
    public void Bind()
    {
        foreach (var placed in declarations.Blocks("tariff")) BindTariff(BlockReader.Read(placed.Node, placed.Source, Schema.Tariff.Block, scope));
    }

    private void BindTariff(BoundBlock block)
    {
        var prices = Lines(block, Schema.Tariff.Price);
        if (!block.Has(Schema.Tariff.Price) && !block.Has(Schema.Tariff.Fixed) && block.Has(Schema.Tariff.Currency)
            && !scope.HasMisreadIn(new Location(block.Source, block.Node.Span)))
            scope.Report(ReadingRules.Missing, block.Origin, $"tariff \"{block.Name.Text}\" has no price",
                help: $"Add a line such as `{Schema.Tariff.Price.Form}`.");
        Tariffs.Add(block.Name.Text, block.Origin, new Tariff
        {
            Name = block.Name.Text,
            Label = block.Label,
            Origin = block.Origin,
            Currency = block.Get(Schema.Tariff.Currency) ?? Currency.Find("EUR")!,
            WrittenBills = block.Get(Schema.Tariff.Bills),
            Fixed = block.Get(Schema.Tariff.Fixed),
            Prices = prices,
            Sewer = Lines(block, Schema.Tariff.Sewer),
            TaxPercent = block.Get(Schema.Tariff.Tax),
        });
    }

    private ImmutableArray<PriceLine> Lines(BoundBlock block, Property<PriceType> property)
    {
        var lines = ImmutableArray.CreateBuilder<PriceLine>();
        foreach (var bound in block.All(property))
        {
            if (bound.Value is not PriceValue value) continue;
            var dates = value.From is null ? null : new DayBinder(scope, block.Source).Season(value.From, value.To, length: null);
            if (value.From is not null && dates is null) continue;
            var line = new PriceLine(bound.Origin, value.Amount, value.Unit, value.Above, dates);
            if (lines.FirstOrDefault(other => Meet(other, line)) is { } first) ReportMeeting(first, line);
            else lines.Add(line);
        }

        return lines.DrainToImmutable();
    }

    private void ReportMeeting(PriceLine first, PriceLine second) =>
        scope.Report(Finding.At(ReadingRules.Contradiction, second.Origin, "two prices hold for the same water", "the second") with
        {
            Others = [new Label(first.Origin, "the first")],
            Help = second.Dates is null
                ? "Delete one of the two, or write from which volume on one holds, such as `above 20 m3`."
                : "Let their dates not meet.",
        });

    /// <summary>Whether two lines hold for the same water: a line with dates goes before one without, so those may stand beside each other.</summary>
    private static bool Meet(PriceLine one, PriceLine other)
    {
        if (one.AboveLitres != other.AboveLitres || one.Dates is null != other.Dates is null) return false;
        if (one.Dates is null || other.Dates is null) return true;
        var (firstYear, lastYear) = YearsOf(one.Dates.Span, other.Dates.Span);
        return Spans(one.Dates.Span, firstYear, lastYear).Any(span => Spans(other.Dates.Span, firstYear, lastYear)
            .Any(second => LocalDate.Max(span.First, second.First) <= LocalDate.Min(span.Last, second.Last)));
    }

    /// <summary>Years that show whether two spans meet: of a yearly one beside a dated one some from its beginning show all.</summary>
    private static (int First, int Last) YearsOf(DaySet one, DaySet other)
    {
        if ((one as DateRange ?? other as DateRange) is not { } dated) return (FirstYear, LastYear);
        return (dated.First.Year - 1, Math.Min(dated.Last.Year, dated.First.Year + LastYear - FirstYear));
    }

    private static IEnumerable<(LocalDate First, LocalDate Last)> Spans(DaySet span, int firstYear, int lastYear)
    {
        if (span is DateRange range) return [(range.First, range.Last)];
        return Enumerable.Range(firstYear, lastYear - firstYear + 1).Select(year => InYear((YearlyRange)span, year));
    }

    /// <summary>The span that begins in a year; over new year where its first day is the later one.</summary>
    private static (LocalDate First, LocalDate Last) InYear(YearlyRange range, int year)
    {
        var isOver = Rank(range.First) > Rank(range.Last);
        return (DateIn(range.First, year, isFirst: true), DateIn(range.Last, isOver ? year + 1 : year, isFirst: false));
    }

    private static int Rank(YearDay day) => (day.Month * 100) + (day.IsLast ? DateTime.DaysInMonth(LeapYear, day.Month) : day.Day);

    /// <summary>29 February begins on 1 March and ends on 28 February in a common year.</summary>
    private static LocalDate DateIn(YearDay day, int year, bool isFirst)
    {
        var length = DateTime.DaysInMonth(year, day.Month);
        if (day.IsLast) return new LocalDate(year, day.Month, length);
        return day.Day > length && isFirst ? new LocalDate(year, day.Month, length).PlusDays(1) : new LocalDate(year, day.Month, Math.Min(day.Day, length));
    }
}
