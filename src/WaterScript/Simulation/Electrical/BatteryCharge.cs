using NodaTime;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Timetables.Switchings;

namespace WaterScript.Simulation.Electrical;

/// <summary>
/// The charge of a battery while its controllers draw on it and its panel fills it, in joules. Between two moments at which anything changes it changes
/// evenly. It is full at the start, never above its capacity and never below nothing; what that takes and gives is booked.
/// </summary>
internal sealed class BatteryCharge
{
    private const decimal WarmDegrees = 25;
    private const int DaysAhead = 2;
    private const int MostDaysOfAYear = 366;
    private const int NoDay = int.MinValue;

    private readonly SimulationContext _context;
    private readonly EnergyDraw _draw;
    private readonly SunTimes? _sun;
    private readonly PriorityQueue<(decimal Watts, int? Midnight), (decimal At, int Order)> _coming = new();
    private readonly Dictionary<(int Controller, int Output), decimal> _open = [];
    private readonly decimal _standby;
    private readonly LocalDate _first;
    private readonly HashSet<int> _controllers;
    private decimal _now;
    private decimal _sunWatts;
    private decimal _heldWatts;
    private int _planned;
    private int _order;
    private DayOfBattery _day = new(NoDay);

    /// <param name="context">The site, and the dates that are looked at.</param>
    /// <param name="owner">The controller that has the battery.</param>
    public BatteryCharge(SimulationContext context, Controller owner)
    {
        (_context, Owner, Battery) = (context, owner, owner.Power!.Battery!);
        var living = LivingOn(context.Site, owner).ToList();
        _controllers = [.. living.Select(controller => controller.Index)];
        _draw = new EnergyDraw(context.Site, Battery);
        _standby = living.Sum(controller => controller.Power!.Standby?.Value.InBase ?? 0) * Battery.Voltage.InBase;
        Yield = Battery.Panel is { } panel ? PanelYield.Of(context.Site, panel.Value) : null;
        _sun = Yield is not null && context.Site.Position is { } position ? SunTimes.Of(position, context.WallClock) : null;
        Full = Charge = Least = Battery.Joules;
        _first = LocalDate.Max(context.Horizon.From, context.Site.Effective);
        var first = CivilDate.DayNumberOf(_first);
        (_now, _planned) = (context.WallClock.StartOfDay(first), first - 1);
        LeastAt = (long)_now;
        PlanUntil(first + DaysAhead);
    }

    /// <summary>The controller that has the battery.</summary>
    public Controller Owner { get; }

    /// <summary>The battery.</summary>
    public Battery Battery { get; }

    /// <summary>What the panel brings; null without one.</summary>
    public PanelYield? Yield { get; }

    /// <summary>When it is full.</summary>
    public decimal Full { get; }

    /// <summary>What is in it.</summary>
    public decimal Charge { get; private set; }

    /// <summary>What must stay in it in the month that it is.</summary>
    public decimal Kept { get; private set; }

    /// <summary>The least that was in it.</summary>
    public decimal Least { get; private set; }

    /// <summary>When that was, in Unix seconds.</summary>
    public long LeastAt { get; private set; }

    /// <summary>All that was drawn.</summary>
    public decimal Drawn { get; private set; }

    /// <summary>All that the panel brought.</summary>
    public decimal Brought { get; private set; }

    /// <summary>What the panel brought and the full battery did not take.</summary>
    public decimal Overflow { get; private set; }

    /// <summary>What was drawn and the empty battery did not have.</summary>
    public decimal Missing { get; private set; }

    /// <summary>What was added when it was charged or replaced.</summary>
    public decimal Renewed { get; private set; }

    /// <summary>Each date: what was drawn and brought, and how low it was.</summary>
    public List<DayOfBattery> Days { get; } = [];

    /// <summary>When it falls below what must stay in it.</summary>
    public OccurrenceCounter Flat { get; } = new();

    /// <summary>The controllers of a site that have a battery of their own.</summary>
    public static IEnumerable<Controller> OwnersIn(Site site) => site.Controllers.Where(controller => controller.Power?.Battery is not null);

    /// <summary>The controllers that live on the battery of one.</summary>
    public static IEnumerable<Controller> LivingOn(Site site, Controller owner) => site.Controllers.Where(controller =>
        controller.Index == owner.Index || controller.Power?.BatteryOf?.Value.Controller == owner.Name);

    /// <summary>
    /// What must stay in a battery in a month: C · (1 − usable · d), where d takes the loss of each degree of the mean minimum below 25 °C off the whole.
    /// </summary>
    public static decimal KeptIn(Battery battery, Climate? climate, int month)
    {
        var left = battery.ColdLossPercent is { } loss && climate?.Months[month - 1]?.Coldest is { } coldest
            ? Math.Clamp(1 - (loss.Value / 100 * (WarmDegrees - coldest.InBase)), 0, 1)
            : 1;
        return battery.Joules * (1 - (battery.UsablePercent / 100 * left));
    }

    /// <summary>Months that are looked at, of which neither sunshine nor temperatures are known, so that nobody knows what its panel brings.</summary>
    public int[] MonthsWithoutYield()
    {
        if (Yield is null) return [];
        var days = Math.Min(Period.DaysBetween(_first, _context.Horizon.Until), MostDaysOfAYear);
        var months = Enumerable.Range(0, days).Select(day => _first.PlusDays(day).Month).Distinct();
        return [.. months.Where(month => Yield.JoulesADay[month - 1] is null).Order()];
    }

    /// <summary>Takes in a switching; those of controllers on other batteries change nothing.</summary>
    public void Visit(in Switching switching)
    {
        if (!_controllers.Contains(switching.Controller)) return;
        GoTo((decimal)switching.Milliseconds / Switching.MillisecondsInSecond);
        Take(_draw.Pulse(switching));
        var output = (switching.Controller, switching.Output);
        if (_open.Remove(output, out var before)) _heldWatts -= before;
        if (!switching.IsOpen) return;
        _heldWatts += _open[output] = _draw.Watts(switching);
    }

    /// <summary>Goes on to the end of the dates.</summary>
    public void Finish()
    {
        var end = Math.Max(_now, _context.WallClock.StartOfDay(CivilDate.DayNumberOf(_context.Horizon.Until)));
        while (_coming.TryPeek(out _, out var next) && next.At < end) GoTo(next.At);
        Flow(end);
        Days.Add(_day);
    }

    private void GoTo(decimal until)
    {
        while (_coming.TryPeek(out _, out var next) && next.At <= until)
        {
            Flow(next.At);
            Change(_coming.Dequeue());
        }

        Flow(until);
    }

    private void Change((decimal Watts, int? Midnight) coming)
    {
        _sunWatts += coming.Watts;
        if (coming.Midnight is { } day) Begin(day);
    }

    private void Begin(int day)
    {
        if (_day.Day != NoDay) Days.Add(_day);
        _day = new DayOfBattery(day);
        PlanUntil(day + DaysAhead);
        var month = CivilDate.FromDayNumber(day).Month;
        Kept = KeptIn(Battery, _context.Site.Climate, month);
        _day.Kept = Kept;
        if (IsRenewedOn(day))
        {
            Renewed += Full - Charge;
            Charge = Full;
        }

        Note(Charge, (long)_now);
    }

    /// <summary>What changes on the dates up to one: midnights, and the hours of sun.</summary>
    private void PlanUntil(int last)
    {
        for (; _planned <= last; _planned++)
        {
            Plan(_context.WallClock.StartOfDay(_planned), 0, _context.WallClock.StartOfDay(_planned) >= _now ? _planned : null);
            var joules = Yield?.JoulesADay[CivilDate.FromDayNumber(_planned).Month - 1] ?? 0;
            if (joules == 0) continue;
            var (rise, set) = HoursOfSun(_planned);
            Plan(rise, joules / (set - rise), null);
            Plan(set, -joules / (set - rise), null);
        }
    }

    private void Plan(long at, decimal watts, int? midnight) => _coming.Enqueue((watts, midnight), (Math.Max(at, _now), _order++));

    /// <summary>From the sunrise of a date to the next sunset; the whole date where one is missing.</summary>
    private (long Rise, long Set) HoursOfSun(int day)
    {
        var set = default(long?);
        if (_sun?.EventOn(day, SunEvent.Sunrise) is { } rise)
        {
            set = _sun.EventOn(day, SunEvent.Sunset) is { } own && own > rise ? own : _sun.EventOn(day + 1, SunEvent.Sunset);
            if (set > rise) return (rise, set.Value);
        }

        return (_context.WallClock.StartOfDay(day), _context.WallClock.StartOfDay(day + 1));
    }

    /// <summary>Lets draw and sun go on evenly until then.</summary>
    private void Flow(decimal until)
    {
        var seconds = until - _now;
        if (seconds <= 0) return;
        var (drawn, brought) = ((_standby + _heldWatts) * seconds, _sunWatts * seconds);
        Drawn += drawn;
        Brought += brought;
        _day.Drawn += drawn;
        _day.Brought += brought;
        Move(brought - drawn, until);
    }

    private void Take(decimal joules)
    {
        if (joules == 0) return;
        Drawn += joules;
        _day.Drawn += joules;
        Move(-joules, _now);
    }

    private void Move(decimal change, decimal until)
    {
        var (before, after) = (Charge, Charge + change);
        Overflow += Math.Max(0, after - Full);
        Missing += Math.Max(0, -after);
        Charge = Math.Clamp(after, 0, Full);
        // Where it falls below what must stay, evenly: the second in which it does.
        var crossing = before >= Kept && after < Kept && until > _now ? _now + ((before - Kept) / (before - after) * (until - _now)) : until;
        _now = until;
        Note(after, (long)decimal.Floor(crossing));
    }

    /// <summary>Takes note of a charge, which is less than nothing where all of what was drawn was not there.</summary>
    private void Note(decimal charge, long at)
    {
        _day.Least = Math.Min(_day.Least, Charge);
        if (Charge < Least) (Least, LeastAt) = (Charge, (long)_now);
        if (charge >= Kept) return;
        Flat.Reach(Kept - Charge);
        if (_day.IsFlat) return;
        _day.IsFlat = true;
        Flat.Add(at, _day.Day);
    }

    private bool IsRenewedOn(int day)
    {
        var date = CivilDate.FromDayNumber(day).ToLocalDate();
        return Battery.Renewals.Any(renewal => renewal.Date is { } one ? one == date : IsOn(renewal.Day, date));
    }

    /// <summary>29 February stands for 1 March in a common year.</summary>
    private static bool IsOn(YearDay day, LocalDate date)
    {
        var length = CivilDate.DaysInMonth(date.Year, day.Month);
        if (day.IsLast) return date.Month == day.Month && date.Day == length;
        return day.Day <= length ? (date.Month, date.Day) == (day.Month, day.Day) : (date.Month, date.Day) == (day.Month + 1, 1);
    }
}

/// <summary>A date of a battery.</summary>
/// <param name="day">The date, in days since 1970-01-01.</param>
internal sealed class DayOfBattery(int day)
{
    /// <summary>The date.</summary>
    public int Day => day;

    /// <summary>What was drawn, in joules.</summary>
    public decimal Drawn { get; set; }

    /// <summary>What the panel brought.</summary>
    public decimal Brought { get; set; }

    /// <summary>The least that was in it.</summary>
    public decimal Least { get; set; } = decimal.MaxValue;

    /// <summary>What must stay in it.</summary>
    public decimal Kept { get; set; }

    /// <summary>Whether it fell below that.</summary>
    public bool IsFlat { get; set; }
}
