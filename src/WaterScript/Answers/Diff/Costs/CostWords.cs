using System.Globalization;
using System.Numerics;
using WaterScript.Answers.Usage;
using WaterScript.Diagnostics.Reading;
using WaterScript.Language;
using WaterScript.Quantities;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Costs;

/// <summary>How it is said what is paid otherwise, and what of allowances is used otherwise.</summary>
internal static class CostWords
{
    private const string Arrow = " → ";
    private const int Percent = 100;

    /// <summary>What is paid otherwise, an item for each supply and year.</summary>
    /// <param name="costs">The changes.</param>
    /// <param name="isWateringChanged">Whether the watering is another.</param>
    public static IEnumerable<string> Costs(CostChanges costs, bool isWateringChanged)
    {
        ArgumentNullException.ThrowIfNull(costs);
        if (costs.IsOverLimit) yield return $"not compared, at the limit of work [{ReadingRules.OverLimit.Slug}]";
        foreach (var meter in costs.Meters)
        {
            var tariff = Tariff(meter) is { Length: > 0 } said ? said + ": " : "";
            var same = tariff.Length > 0 && !isWateringChanged ? "; the watering is the same" : "";
            foreach (var (index, year) in meter.Shown.Index()) yield return (index == 0 ? tariff : "") + Words(meter, year) + (index == 0 ? same : "");
        }
    }

    /// <summary>What of allowances is used otherwise, an item for each.</summary>
    public static IEnumerable<string> Allowances(CostChanges costs)
    {
        ArgumentNullException.ThrowIfNull(costs);
        return costs.Allowances.Select(Words);
    }

    /// <summary>The same as rows of a table: what, before, now, and whether the eye is drawn to it.</summary>
    public static IEnumerable<(string What, string Old, string New, bool IsMore)> Rows(CostChanges costs)
    {
        ArgumentNullException.ThrowIfNull(costs);
        foreach (var meter in costs.Meters)
        {
            var tariff = Tariff(meter) is { Length: > 0 } said ? $" ({said})" : "";
            foreach (var year in meter.Shown)
            {
                var bills = string.Create(CultureInfo.InvariantCulture, $"{meter.Supply.DisplayName}, bills of {year.Year}{tariff}");
                yield return Row(bills, meter, (year.Old?.Bills, year.New?.Bills));
                yield return Row(string.Create(CultureInfo.InvariantCulture, $"{meter.Supply.DisplayName}, watering in them, {year.Year}"), meter,
                    (year.Old?.Watering, year.New?.Watering));
            }
        }

        foreach (var change in costs.Allowances) yield return Row(change);
    }

    private static string Tariff(MeterChange meter) => meter.Tariff is var (name, place) ? $"tariff {name} changed ({SiteWords.Place(place)})" : "";

    /// <summary><c>Town water, bills of 2026: 1335.55 → 1392.35 EUR (+56.80); watering 762.08 → 818.88 (+7 %)</c></summary>
    private static string Words(MeterChange meter, YearChange year)
    {
        var head = string.Create(CultureInfo.InvariantCulture, $"{meter.Supply.DisplayName}, bills of {year.Year}: ");
        return (year.Old, year.New, meter.Old, meter.New) switch
        {
            ({ } old, null, { } currency, _) => $"{head}no tariff, was {Say(old.Bills, currency)} {currency.Code}; watering {Say(old.Watering, currency)}",
            (null, { } @new, _, { } currency) => $"{head}new, {Say(@new.Bills, currency)} {currency.Code}; watering {Say(@new.Watering, currency)}",
            ({ } old, { } @new, { } before, { } now) when before != now => $"{head}{Say(old.Bills, before)} {before.Code}{Arrow}{Say(@new.Bills, now)} "
                + $"{now.Code}; watering {Say(old.Watering, before)} {before.Code}{Arrow}{Say(@new.Watering, now)} {now.Code}",
            ({ } old, { } @new, _, { } currency) =>
                $"{head}{Turn(old.Bills, @new.Bills, currency, " " + currency.Code)}{More(@new.Bills - old.Bills, currency)}; "
                + $"watering {Turn(old.Watering, @new.Watering, currency, "")}{Share(old.Watering, @new.Watering)}",
            _ => head,
        };
    }

    private static (string, string, string, bool) Row(string what, MeterChange meter, (BigInteger? Old, BigInteger? New) amount)
    {
        var old = amount.Old is { } was ? $"{Say(was, meter.Old!)} {meter.Old!.Code}" : "";
        var @new = amount.New is { } now ? $"{Say(now, meter.New!)} {meter.New!.Code}" : "";
        return (what, old, @new, meter.Old == meter.New && amount.New > amount.Old);
    }

    private static (string, string, string, bool) Row(AllowanceChange change)
    {
        string Cell(AllowanceUse? use, Quantity? limit) =>
            limit is { } of ? $"{Say(use, change)} of {of}{(HasOnePeriod(change) || use is null ? "" : $" in {use.Period}")}" : "";
        var @new = $"{Cell(change.New, change.Line.Volume)}{(IsTooMuch(change.New) ? ", " + Left(change) : "")}";
        return (Name(change), Cell(change.Old, change.OldLine?.Volume), @new, IsTooMuch(change.New));
    }

    /// <summary><c>Town rule, Jul 2026: 29.77 → 32.01 of 30 m3, 2.01 too much</c></summary>
    private static string Words(AllowanceChange change)
    {
        var (old, @new, limit) = (Say(change.Old, change), Say(change.New, change), change.Line.Volume!.Value);
        var used = change.OldLine?.Volume switch
        {
            null => $"{@new} of {limit}",
            { } was when was != limit => $"{old} of {was}{Arrow}{@new} of {limit}",
            _ => HasOnePeriod(change)
                ? $"{old}{Arrow}{@new} of {limit}"
                : $"{old} in {change.Old!.Period}{Arrow}{@new} in {change.New!.Period}, of {limit}",
        };
        return $"{Name(change)}: {used}, {Left(change)}";
    }

    private static string Name(AllowanceChange change)
    {
        var zone = change is { Old.Zone: { } was, New.Zone: { } now } && was.Name != now.Name ? null : (change.New ?? change.Old)!.Zone;
        var name = zone is null ? change.Restriction.DisplayName : $"{change.Restriction.DisplayName}, {zone.DisplayName}";
        return HasOnePeriod(change) ? $"{name}, {(change.New ?? change.Old)!.Period}" : name;
    }

    /// <summary>Whether most is used in the same period as before, so that it is said once.</summary>
    private static bool HasOnePeriod(AllowanceChange change) => change is not { Old: { } old, New: { } @new } || old.Start == @new.Start;

    private static string Say(AllowanceUse? use, AllowanceChange change) => AllowanceUse.Say(use?.Litres ?? Fraction.Zero, change.Line.Volume!.Value.Unit);

    private static bool IsTooMuch(AllowanceUse? use) => use?.Left.Sign < 0;

    private static string Left(AllowanceChange change)
    {
        var limit = change.Line.Volume!.Value;
        var left = Fraction.Of(limit) - (change.New?.Litres ?? Fraction.Zero);
        return left.Sign < 0 ? $"{AllowanceUse.Say(-left, limit.Unit)} too much" : $"{AllowanceUse.Say(left, limit.Unit)} left";
    }

    private static string Say(BigInteger amount, Currency currency) => UsageCosts.Say(amount, currency);

    private static string Turn(BigInteger old, BigInteger @new, Currency currency, string unit) =>
        old == @new ? $"{Say(old, currency)}{unit}, the same" : Say(old, currency) + Arrow + Say(@new, currency) + unit;

    private static string More(BigInteger amount, Currency currency) =>
        amount.IsZero ? "" : $" ({(amount.Sign > 0 ? "+" : "")}{Say(amount, currency)})";

    private static string Share(BigInteger old, BigInteger @new)
    {
        if (old.Sign <= 0 || @new.Sign < 0 || old == @new) return "";
        var percent = new Fraction(BigInteger.Abs(@new - old) * Percent, old);
        return $" ({(@new > old ? "+" : "−")}{percent.ToString(percent < Fraction.Of(1) ? 1 : 0)} %)";
    }
}
