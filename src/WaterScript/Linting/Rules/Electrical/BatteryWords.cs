using WaterScript.Diagnostics;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Simulation.Electrical;
using WaterScript.Wording;

namespace WaterScript.Linting.Rules.Electrical;

/// <summary>What there is to say of a battery.</summary>
internal sealed class BatteryWords(Site site, BatteryCharge charge)
{
    private const int JoulesInWattHour = 3600;
    private readonly Battery _battery = charge.Battery;

    /// <summary>What is in it when it is full.</summary>
    public string Holds => $"holds {WattHours(charge.Full)}";

    /// <summary>What is taken for granted.</summary>
    public string Assumed => string.Join("; ", new[]
    {
        "the battery is full at the start",
        _battery.Panel is { Value.EfficiencyPercent: null }
            ? $"{PanelYield.UsualEfficiencyPercent} % of the panel's yield arrive (common practice)" : "",
        _battery.Panel is not null ? "each day is the mean day of its month; dull weeks are not in it" : "",
        UsualUsable,
    }.Where(words => words.Length > 0)) + ".";

    /// <summary>What is taken for granted where no sun counts.</summary>
    public string AssumedOfDraw => string.Join("; ", new[] { "the battery is full before", UsualUsable }.Where(words => words.Length > 0)) + ".";

    private string UsualUsable => _battery.WrittenUsable is null ? "half of the battery may be used" : "";

    /// <summary>What stands at the rows that say what is drawn and what is brought.</summary>
    public IEnumerable<Label> Labels()
    {
        foreach (var controller in BatteryCharge.LivingOn(site, charge.Owner))
        {
            if (controller.Power!.Standby is { } standby)
                yield return new Label(standby.Place, $"draws {WattHours(standby.Value.InBase * _battery.Voltage.InBase * 24 * JoulesInWattHour)} a day");
        }

        if (_battery.Panel is { } panel && charge.Yield is { } yield && Poorest(yield) is { } month)
            yield return new Label(panel.Place, $"brings {WattHours(yield.JoulesADay[month - 1]!.Value)} a day in {MonthNames.All[month - 1]}");
    }

    /// <summary>How much may be used in a month, and how much has to stay.</summary>
    public string Usable(int month)
    {
        var kept = BatteryCharge.KeptIn(_battery, site.Climate, month);
        var cold = _battery.ColdLossPercent is not null && site.Climate?.Months[month - 1]?.Coldest is { } coldest
            ? $" at {coldest} in {MonthNames.All[month - 1]}" : "";
        return $"{_battery.Capacity} · {_battery.Voltage} = {WattHours(charge.Full)}, {WattHours(charge.Full - kept)} of them usable{cold}.";
    }

    /// <summary>What a day of a month takes and brings, as a mean of those that are looked at.</summary>
    public string DaysIn(int month)
    {
        var days = charge.Days.Where(day => Calendars.CivilDate.FromDayNumber(day.Day).Month == month).ToList();
        if (days.Count == 0) return "";
        var (drawn, brought) = (days.Sum(day => day.Drawn) / days.Count, days.Sum(day => day.Brought) / days.Count);
        return $"A day in {MonthNames.All[month - 1]} takes {WattHours(drawn)}{(charge.Yield is null ? "" : $" and brings {WattHours(brought)}")}.";
    }

    /// <summary>An energy in Wh.</summary>
    public static string WattHours(decimal joules) => $"{Phrases.Number(joules / JoulesInWattHour, joules < 100 * JoulesInWattHour ? 1 : 0)} Wh";

    private static int? Poorest(PanelYield yield)
    {
        var known = Enumerable.Range(1, 12).Where(month => yield.JoulesADay[month - 1] is not null).ToList();
        return known.Count == 0 ? null : known.MinBy(month => yield.JoulesADay[month - 1]);
    }
}
