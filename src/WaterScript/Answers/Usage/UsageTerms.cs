using System.Globalization;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Answers.Usage;

/// <summary>How an answer about water used says its dates and what stands below its tables.</summary>
internal static class UsageTerms
{
    private const int SecondsInHour = 3600;
    private const int WattHoursInKilowattHour = 1000;

    /// <summary><c>1 Mar (effective) to 31 Dec 2026</c>, or <c>2027</c> for a whole year.</summary>
    public static string Range(WaterUsage usage)
    {
        ArgumentNullException.ThrowIfNull(usage);
        var (first, last) = (usage.Horizon.From, usage.Horizon.Until.PlusDays(-1));
        if (first is { Month: 1, Day: 1 } && last == first.PlusYears(1).PlusDays(-1)) return first.Year.ToString(CultureInfo.InvariantCulture);
        var effective = first == usage.Site.Effective ? " (effective)" : "";
        return first == last
            ? MomentWords.PlainDate(first) + effective
            : $"{Written(first, first.Year != last.Year)}{effective} to {MomentWords.PlainDate(last)}";
    }

    /// <summary><c>15 May to 14 Jul</c>, with the year of the last where it is asked for.</summary>
    public static string Days(LocalDate first, LocalDate last, bool hasYear) =>
        $"{Written(first, first.Year != last.Year)} to {Written(last, hasYear || first.Year != last.Year)}";

    private static string Written(LocalDate date, bool hasYear) => hasYear ? MomentWords.PlainDate(date) : MomentWords.PlainDay(date);

    /// <summary><c>month and zone</c></summary>
    public static string Axes(WaterUsage usage) => string.Join(" and ", usage.By.Select(axis => axis.Word));

    /// <summary><c>No water in Mar, Oct to Dec.</c>; empty where every period has some, and for days, of which most have none.</summary>
    public static string Gaps(WaterUsage usage)
    {
        if (usage.Rows.All(row => row.Seconds == 0)) return "No water.";
        var axis = usage.By.FirstOrDefault(axis => axis.IsPeriod);
        if (axis is not (UsageAxis.Month or UsageAxis.Year)) return "";
        var watered = usage.Rows.Where(row => row.Seconds > 0).Select(row => usage.By[0] == axis ? row.First : row.Second).ToHashSet();
        var (first, end) = (CivilDate.DayNumberOf(usage.Horizon.From), CivilDate.DayNumberOf(usage.Horizon.Until));
        var gaps = new List<(int First, int Last)>();
        var isGap = false;
        for (var start = UsagePeriods.StartOf(axis, first); start < end; start = UsagePeriods.EndOf(axis, start))
        {
            if (isGap && !watered.Contains(start)) gaps[^1] = (gaps[^1].First, start);
            else if (!watered.Contains(start)) gaps.Add((start, start));
            isGap = !watered.Contains(start);
        }

        var hasYear = usage.Horizon.From.Year != usage.Horizon.Until.PlusDays(-1).Year;
        return gaps.Count == 0 ? "" : $"No water in {Phrases.Names([.. gaps.Select(gap => Gap(axis, gap.First, gap.Last, hasYear))])}.";
    }

    /// <summary><c>138.4</c>: seconds in hours.</summary>
    public static string Hours(long seconds) => new Fraction(seconds, SecondsInHour).ToString(1);

    /// <summary><c>Pump lift: on 138.4 h, 727 times.</c>, and so on, then the openings of valves.</summary>
    public static string Running(WaterUsage usage)
    {
        ArgumentNullException.ThrowIfNull(usage);
        var devices = usage.Devices.Select(use => use.Starts == 0 && use.Seconds == 0
            ? $"{Title(use)}: never on."
            : $"{Title(use)}: on {Hours(use.Seconds)} h, {MomentWords.Times(use.Starts)}{Energy(use)}.");
        return string.Join(' ', devices.Append($"Valves: {Phrases.Count(usage.Openings, "opening")}."));
    }

    /// <summary>The dates of all bills that a date lies in.</summary>
    /// <param name="site">A site with a tariff that a supply names.</param>
    /// <param name="date">The date.</param>
    public static Horizon DatesOfBills(Site site, LocalDate date)
    {
        ArgumentNullException.ThrowIfNull(site);
        var bills = site.Supplies.Where(supply => supply.Tariff is not null)
            .Select(supply => BillCalendar.Of(supply.Tariff!.Bills, CivilDate.DayNumberOf(date))).ToArray();
        return new Horizon(CivilDate.FromDayNumber(bills.Min(bill => bill.First)).ToLocalDate(),
            CivilDate.FromDayNumber(bills.Max(bill => bill.End)).ToLocalDate());
    }

    /// <summary>What a cost is, and where it stands.</summary>
    public static string CostsMean(WaterUsage usage)
    {
        ArgumentNullException.ThrowIfNull(usage);
        var period = usage.By.FirstOrDefault(axis => axis is UsageAxis.Month or UsageAxis.Year);
        var where = period == default ? "of bills that end in these days" : $"in the {period.Word} in which a bill ends";
        return $"{usage.Costs.Currency!.Code}: what the bills are more for the watering, {where}.";
    }

    /// <summary>What is not counted, and what to add.</summary>
    public static IEnumerable<string> NotCounted(WaterUsage usage)
    {
        ArgumentNullException.ThrowIfNull(usage);
        return usage.Unmeasured.Select(zone => $"Not counted: {zone.DisplayName} has no flow ({SiteWords.Place(zone.Origin)}); add flow to zone {zone.Name}.");
    }

    /// <summary><c>, 152.2 kWh</c>; empty where the power of its motor is not known.</summary>
    private static string Energy(DeviceUsage use) => use.WattHours is { } energy ? $", {energy.DividedBy(WattHoursInKilowattHour).ToString(1)} kWh" : "";

    private static string Title(DeviceUsage use) => char.ToUpperInvariant(use.Device.Word[0]) + use.Device.Word[1..] + " " + use.Device.DisplayName;

    private static string Gap(UsageAxis axis, int first, int last, bool hasYear) => first == last
        ? UsagePeriods.Say(axis, first, hasYear)
        : $"{UsagePeriods.Say(axis, first, hasYear)} to {UsagePeriods.Say(axis, last, hasYear)}";
}
