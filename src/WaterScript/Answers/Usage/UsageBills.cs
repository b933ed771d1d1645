using System.Numerics;
using NodaTime.Text;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Answers.Usage;

/// <summary>The bills of a meter, for programs.</summary>
internal static class UsageBills
{
    /// <summary>Digits after the point of what is not rounded as money is.</summary>
    private const int Digits = 6;

    /// <summary>A meter.</summary>
    public static UsageMeterItem Of(Meter meter, Site site)
    {
        ArgumentNullException.ThrowIfNull(meter);
        return new UsageMeterItem
        {
            Supply = meter.Supply.Name,
            Tariff = meter.Tariff.Name,
            Currency = meter.Tariff.Currency.Code,
            Bills = meter.Bills.Select(bill => Of(bill, meter.Tariff, site)),
            NotCounted = meter.Tanks.IsEmpty ? null : meter.Tanks.Select(tank => tank.Name),
        };
    }

    private static UsageBillItem Of(Bill bill, Tariff tariff, Site site)
    {
        string Money(BigInteger amount) => Fraction.Text(amount, tariff.Currency.Digits);
        return new UsageBillItem
        {
            From = DateOf(bill.First),
            Until = DateOf(bill.Cut),
            SoFar = bill.IsSoFar ? true : null,
            Watering = bill.Litres.ToDecimal(Digits),
            Other = bill.OtherLitres.ToDecimal(Digits),
            Bill = Money(bill.With.Total),
            Without = Money(bill.Without.Total),
            Cost = Money(bill.Cost),
            Lines = bill.With.Lines.Select(line => Of(line, tariff)),
            Tax = tariff.TaxPercent is null ? null : bill.With.Tax.ToDecimal(Digits),
            Shares =
            [
                .. bill.ZoneShares.Select(share => ShareOf(UsageAxis.Zone, share.Key, Money(share.Value), site)),
                .. bill.ScheduleShares.Select(share => ShareOf(UsageAxis.Schedule, share.Key, Money(share.Value), site)),
            ],
        };
    }

    private static UsageShareItem ShareOf(UsageAxis axis, int place, string amount, Site site)
    {
        var tank = UsagePlaces.TankAt(axis, place, site);
        return new UsageShareItem
        {
            Zone = tank is null && axis == UsageAxis.Zone ? site.Zones[place].Name : null,
            Schedule = tank is null && axis == UsageAxis.Schedule ? site.Schedules[place].Name : null,
            Tank = tank?.Name,
            Among = tank is null ? null : axis.Word + "s",
            Amount = amount,
        };
    }

    private static UsageBillLineItem Of(BillLine line, Tariff tariff) => new()
    {
        Kind = line.Kind switch { BillLineKind.Price => "price", BillLineKind.Sewer => "sewer", _ => "fixed" },
        Quantity = line.Quantity.ToDecimal(Digits),
        Unit = line.Line?.Unit.Symbol ?? tariff.Fixed!.Value.Value.Per switch
        {
            ChargePeriod.Day => "day",
            ChargePeriod.Month => "month",
            ChargePeriod.Year => "year",
            _ => "bill",
        },
        Price = line.Price,
        Amount = line.Amount.ToDecimal(Digits),
    };

    private static string DateOf(int day) => LocalDatePattern.Iso.Format(CivilDate.FromDayNumber(day).ToLocalDate());
}
