using System.Collections.Immutable;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Timetables;

namespace WaterScript.Answers.Usage;

/// <summary>How much water the zones of a site get over some dates, and what runs for it.</summary>
internal sealed class WaterUsage
{
    private readonly Dictionary<int, Fraction?> _flows;

    private WaterUsage(Site site, Horizon horizon, ImmutableArray<UsageAxis> by, UsageLedger ledger, ImmutableArray<Meter> meters,
        ImmutableArray<AllowanceUse> allowances, ImmutableArray<BatteryUse> batteries)
    {
        (Site, Horizon, By, Ledger, Meters, Allowances, Batteries) = (site, horizon, by, ledger, meters, allowances, batteries);
        Costs = new UsageCosts(site, meters);
        _flows = site.Zones.ToDictionary(zone => zone.Index, zone => zone.ExactLitresPerMinute);
        Rows = [.. Gathered().OrderBy(row => row.First).ThenBy(row => row.Second)];
        Devices = [.. site.Devices.Select(DeviceOf)];
        Openings = ledger.Zones.Values.Sum(sums => sums.Openings);
        var watered = ledger.Zones.Where(entry => entry.Value.Seconds > 0).Select(entry => entry.Key.Zone).ToHashSet();
        Unmeasured = [.. site.Zones.Where(zone => watered.Contains(zone.Index) && _flows[zone.Index] is null)];
    }

    /// <summary>The site.</summary>
    public Site Site { get; }

    /// <summary>The dates.</summary>
    public Horizon Horizon { get; }

    /// <summary>What the water is listed by: one axis, or two.</summary>
    public ImmutableArray<UsageAxis> By { get; }

    /// <summary>The dates one by one.</summary>
    public UsageLedger Ledger { get; }

    /// <summary>The supplies with a tariff, and their bills.</summary>
    public ImmutableArray<Meter> Meters { get; }

    /// <summary>What the watering costs.</summary>
    public UsageCosts Costs { get; }

    /// <summary>What restrictions allow, and what of it is used.</summary>
    public ImmutableArray<AllowanceUse> Allowances { get; }

    /// <summary>What is drawn on batteries.</summary>
    public ImmutableArray<BatteryUse> Batteries { get; }

    /// <summary>Water by these axes, in their order; what gets none has no row.</summary>
    public ImmutableArray<UsageRow> Rows { get; }

    /// <summary>Pumps, masters and injectors, in order of the file.</summary>
    public ImmutableArray<DeviceUsage> Devices { get; }

    /// <summary>How often valves of zones open.</summary>
    public long Openings { get; }

    /// <summary>Zones that are watered and have no flow, so that their water is not counted.</summary>
    public ImmutableArray<Zone> Unmeasured { get; }

    /// <summary>Adds up what a site does.</summary>
    /// <param name="site">A site that was read without an error.</param>
    /// <param name="horizon">The dates.</param>
    /// <param name="by">One axis, or two that differ, of which at most one is a period.</param>
    /// <exception cref="WorkUsedUpException">There is too much to add up.</exception>
    public static WaterUsage Of(Site site, Horizon horizon, ImmutableArray<UsageAxis> by)
    {
        ArgumentNullException.ThrowIfNull(site);
        ArgumentNullException.ThrowIfNull(horizon);
        if (by.Length is not (1 or 2)) throw new ArgumentException("Water is listed by one axis or two.", nameof(by));
        var budget = new WorkBudget(Limits.CheckWorkOf(site.SourceLength));
        var ledger = UsageLedger.Of(site, horizon, budget);
        return new WaterUsage(site, horizon, by, ledger, Meter.Of(site, horizon, ledger, budget), AllowanceUse.Of(site, ledger, budget),
            BatteryUse.Of(site, horizon, budget));
    }

    /// <summary>The same by one of the axes alone.</summary>
    public WaterUsage ByOnly(UsageAxis axis) => new(Site, Horizon, [axis], Ledger, Meters, Allowances, Batteries);

    /// <summary>The place of an entry on an axis: the index of a zone, a schedule or a supply, the first date of a period.</summary>
    public int PlaceOn(UsageAxis axis, int day, int zone, int schedule) => axis switch
    {
        UsageAxis.Zone => zone,
        UsageAxis.Schedule => schedule,
        UsageAxis.Supply => Site.Zones[zone].Supply?.Index ?? Site.Supplies.Length,
        _ => UsagePeriods.StartOf(axis, day),
    };

    private IEnumerable<UsageRow> Gathered()
    {
        var sums = new Dictionary<(int First, int Second), Dictionary<int, UsageSums>>();
        foreach (var ((day, zone, schedule), entry) in Ledger.Zones)
        {
            var key = (PlaceOn(By[0], day, zone, schedule), By.Length == 1 ? 0 : PlaceOn(By[1], day, zone, schedule));
            if (!sums.TryGetValue(key, out var zones)) sums[key] = zones = [];
            if (!zones.TryGetValue(zone, out var sum)) zones[zone] = sum = new UsageSums();
            sum.Seconds += entry.Seconds;
            sum.Openings += entry.Openings;
        }

        foreach (var ((first, second), zones) in sums) yield return RowOf(first, second, zones);
    }

    private UsageRow RowOf(int first, int second, Dictionary<int, UsageSums> zones)
    {
        var litres = Fraction.Zero;
        foreach (var (zone, sums) in zones) litres += (_flows[zone] ?? Fraction.Zero) * new Fraction(sums.Seconds, 60);
        var unknown = zones.Count(entry => _flows[entry.Key] is null && entry.Value.Seconds > 0);
        return new UsageRow(first, second, litres, zones.Values.Sum(sums => sums.Seconds), zones.Values.Sum(sums => sums.Openings))
        {
            IsUnknown = unknown > 0 && unknown == zones.Count,
            IsInPart = unknown > 0,
            Depth = By.Contains(UsageAxis.Zone) && Site.Zones[By[0] == UsageAxis.Zone ? first : second].ExactMillimetresPerHour is { } rate
                ? rate * new Fraction(zones.Values.Sum(sums => sums.Seconds), 3600) : null,
        };
    }

    private DeviceUsage DeviceOf(Device device)
    {
        var (seconds, starts) = (0L, 0L);
        foreach (var (key, sums) in Ledger.Devices)
        {
            if (key.Device == device.Index) (seconds, starts) = (seconds + sums.Seconds, starts + sums.Openings);
        }

        return new DeviceUsage(device, seconds, starts);
    }
}

/// <summary>Water at one place of each axis.</summary>
/// <param name="First">The place on the first axis, as <see cref="WaterUsage.PlaceOn"/> has it.</param>
/// <param name="Second">The place on the second; 0 where there is none.</param>
/// <param name="Litres">Flow times time, of the zones whose flow is known.</param>
/// <param name="Seconds">Seconds in which zones are open, of all of them together.</param>
/// <param name="Openings">How often zones open.</param>
internal sealed record UsageRow(int First, int Second, Fraction Litres, long Seconds, long Openings)
{
    /// <summary>Whether no flow is known of what is watered.</summary>
    public bool IsUnknown { get; init; }

    /// <summary>Whether the flow of some of it is not known.</summary>
    public bool IsInPart { get; init; }

    /// <summary>Depth in millimetres before any loss, of a row of one zone; null where the rate is not known.</summary>
    public Fraction? Depth { get; init; }
}

/// <summary>What a device does.</summary>
/// <param name="Device">The device.</param>
/// <param name="Seconds">Seconds in which it is on.</param>
/// <param name="Starts">How often it starts.</param>
internal sealed record DeviceUsage(Device Device, long Seconds, long Starts)
{
    private const int SecondsInHour = 3600;

    /// <summary>Energy that its motor draws, in Wh; null where its power is not known.</summary>
    public Fraction? WattHours => Device.Motor is { Value: var power } ? Fraction.Of(power) * new Fraction(Seconds, SecondsInHour) : null;
}
