namespace WaterScript.Language;

/// <content>What water costs.</content>
internal static partial class Schema
{
    internal static class Tariff
    {
        private const int MonthsInYear = 12;
        public static readonly Property<CurrencyType> Currency =
            new("currency", "currency EUR", "The currency of its amounts, ISO 4217.", new()) { IsRequired = true, IsAlwaysDescribed = true };
        public static readonly Property<BillsType> Bills =
            new("bills", "bills every 2 months from 2026-01-15", "How long its bills are, and when one begins.", new(MonthsInYear))
            {
                Default = "every month, from the 1st",
                Keys =
            [
                new("bills_months", new CountShape(MonthsInYear), "Months of a bill."),
                new("bills_from", DefinedShape.Date, "A date on which one begins."),
            ],
            };
        public static readonly Property<ChargeType> Fixed =
            new("fixed", "fixed 4.50 a month", "What each bill has whatever is used, for a day, month, year or bill.", new())
            {
                Keys =
            [
                new("fixed", new NumberShape(Bounds.NotNegative), "What each bill has whatever is used, for a `fixed_per`."),
                new("fixed_per", new WordShape(["day", "month", "year", "bill"]), "What that is for."),
            ],
            };
        public static readonly Property<PriceType> Price =
            new("price", "price 2.60 per m3 above 20 m3", "What water costs, perhaps above a volume of the bill, perhaps from a date to a date.", new())
            {
                MayRepeat = true,
                Keys = [new("prices", new ListShape(new DefinedShape("price"), Least: 1), "What water costs.")],
            };
        public static readonly Property<PriceType> Sewer =
            new("sewer", "sewer 2.10 per m3", "What the same water costs as it leaves again.", new())
            {
                MayRepeat = true,
                Keys = [new("sewer", new ListShape(new DefinedShape("price"), Least: 1), "What the same water costs as it leaves again.")],
            };
        public static readonly Property<ShareType> Tax = new("tax", "tax 7 %", "Tax on all of it.", new(new Bounds(0, 1_000)));
        public static readonly BlockSchema Block =
            new("tariff", "What water costs.", [Currency, Bills, Fixed, Price, Sewer, Tax]) { Section = "tariffs" };
    }
}
