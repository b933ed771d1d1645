using NodaTime;
using WaterScript.Calendars;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Simulation.Electrical;
using WaterScript.Timetables;

namespace WaterScript.Tests.Simulation;

/// <summary>
/// A battery second by second: what is open is held, what switches in the second takes its pulse, and the sun brings a second's part of its day.
/// </summary>
internal sealed class BatteryBySeconds
{
    private readonly Site _site;
    private readonly Battery _battery;
    private readonly double[] _held;
    private readonly double[] _pulses;
    private readonly double[] _sun;
    private readonly long _from;

    public BatteryBySeconds(Site site, Horizon horizon, PanelYield? yield)
    {
        _site = site;
        _battery = site.Controllers.Select(controller => controller.Power?.Battery).OfType<Battery>().Single();
        var clock = new ZoneClock(site.TimeZone);
        var days = Enumerable.Range(0, Period.DaysBetween(horizon.From, horizon.Until)).Select(day => horizon.From.PlusDays(day)).ToList();
        _from = StartOf(days[0]);
        var seconds = (int)(StartOf(horizon.Until) - _from);
        (_held, _pulses, _sun) = (new double[seconds], new double[seconds], new double[seconds]);
        Switch(Timetable.Of(site, horizon));
        if (yield is not null) foreach (var day in days.Prepend(days[0].PlusDays(-1))) Shine(day, yield, SunTimes.Of(site.Position!, clock));
        Follow(days);
    }

    public double Charge { get; private set; }

    public double Least { get; private set; } = double.MaxValue;

    public double Drawn { get; private set; }

    public double Brought { get; private set; }

    public long FirstFlat { get; private set; }

    public List<int> FlatDays { get; } = [];

    private void Switch(Timetable timetable)
    {
        var open = new Dictionary<(int, int), long>();
        var stores = new Dictionary<int, (double Joules, double Free)>();
        foreach (var switching in timetable.Switchings())
        {
            var at = switching.Milliseconds / 1000 - _from;
            var (valve, load) = switching.Zone >= 0
                ? (_site.Zones[switching.Zone].Valve, default(decimal?))
                : (_site.Devices[switching.Device].Valve, _site.Devices[switching.Device].Load?.Value.InBase);
            var controller = _site.Controllers[switching.Controller];
            var volts = (double)(controller.Power?.ContinuousVoltage?.InBase ?? _battery.Voltage.InBase);
            if (valve is LatchingValve latching) Add(_pulses, at, Pulse(controller, latching, volts, switching.Milliseconds / 1000.0, stores));
            if (switching.IsOpen) open[(switching.Controller, switching.Output)] = at;
            else if (open.Remove((switching.Controller, switching.Output), out var since))
            {
                var amperes = (double)(load ?? (valve as NonLatchingValve)?.Holding?.Value.InBase ?? 0);
                for (var second = since; second < at; second++) Add(_held, second, amperes * volts);
            }
        }
    }

    /// <summary>Half the capacitance times the square of the voltage, before and after: what it gives, it takes again from the battery.</summary>
    private static double Pulse(Controller controller, LatchingValve valve, double volts, double at, Dictionary<int, (double Joules, double Free)> stores)
    {
        var (ohm, seconds) = ((double)valve.Coil!.Value.InBase, valve.Pulse!.Value.Value.TotalSeconds);
        if (controller.Power?.Capacitor is not { } capacitor) return volts * volts / ohm * seconds;
        var farad = (double)capacitor.InBase / 1e6;
        var full = farad * Math.Pow((double)controller.Power.CapacitorVoltage!.Value.InBase, 2) / 2;
        var share = (double)(controller.Power.RechargeEfficiencyPercent?.Value ?? 100) / 100;
        var (joules, free) = stores.TryGetValue(controller.Index, out var store) ? store : (full, double.MinValue);
        var begins = Math.Max(at, free);
        joules = controller.Power.Recharge is { } watt ? Math.Min(full, joules + ((double)watt.InBase * share * (begins - free)))
            : begins - free >= 1 ? full : joules;
        var left = joules * Math.Exp(-2 * seconds / (ohm * farad));
        stores[controller.Index] = (left, begins + seconds);
        return (joules - left) / share;
    }

    private void Shine(LocalDate date, PanelYield yield, SunTimes sun)
    {
        var day = CivilDate.DayNumberOf(date);
        var joules = (double)yield.JoulesADay[date.Month - 1]!.Value;
        var (rise, set) = (sun.EventOn(day, SunEvent.Sunrise)!.Value - _from, sun.EventOn(day, SunEvent.Sunset)!.Value - _from);
        for (var second = rise; second < set; second++) Add(_sun, second, joules / (set - rise));
    }

    private void Follow(List<LocalDate> days)
    {
        var full = (double)(_battery.Capacity.InBase * _battery.Voltage.InBase * 3600);
        var standby = _site.Controllers.Sum(controller => (double)(controller.Power?.Standby?.Value.InBase ?? 0)) * (double)_battery.Voltage.InBase;
        Charge = full;
        foreach (var date in days)
        {
            if (_battery.Renewals.Any(renewal => IsOn(renewal, date))) Charge = full;
            var kept = KeptIn(full, date.Month);
            var isFlat = Charge < kept;
            if (isFlat && FlatDays.Count == 0 && FirstFlat == 0) FirstFlat = StartOf(date);
            for (var second = StartOf(date) - _from; second < StartOf(date.PlusDays(1)) - _from; second++)
            {
                // Pulses come first: they are over in a moment.
                Charge = Math.Max(0, Charge - _pulses[second]);
                (isFlat, Least) = (isFlat || Charge < kept, Math.Min(Least, Charge));
                Charge = Math.Clamp(Charge + _sun[second] - _held[second] - standby, 0, full);
                Drawn += _pulses[second] + _held[second] + standby;
                Brought += _sun[second];
                (isFlat, Least) = (isFlat || Charge < kept, Math.Min(Least, Charge));
                if (isFlat && FirstFlat == 0) FirstFlat = _from + second;
            }

            if (isFlat) FlatDays.Add(CivilDate.DayNumberOf(date));
        }
    }

    private static bool IsOn(Renewal renewal, LocalDate date) =>
        renewal.Date == date || (renewal.Date is null && (renewal.Day.Month, renewal.Day.Day) == (date.Month, date.Day));

    private double KeptIn(double full, int month)
    {
        var usable = (double)(_battery.WrittenUsable?.Value ?? 50) / 100;
        var cold = _battery.ColdLossPercent is { } loss && _site.Climate?.Months[month - 1]?.Coldest is { } coldest
            ? Math.Clamp(1 - ((double)loss.Value / 100 * (25 - (double)coldest.InBase)), 0, 1) : 1;
        return full * (1 - (usable * cold));
    }

    private long StartOf(LocalDate date) => _site.TimeZone.AtStartOfDay(date).ToInstant().ToUnixTimeSeconds();

    private static void Add(double[] all, long second, double amount)
    {
        if (second >= 0 && second < all.Length) all[second] += amount;
    }
}
