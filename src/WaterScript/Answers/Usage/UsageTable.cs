using System.Collections.Immutable;
using System.Globalization;
using System.Numerics;
using WaterScript.Calendars;
using WaterScript.Quantities;
using WaterScript.Wording;

namespace WaterScript.Answers.Usage;

/// <summary>The water of a site as a table that adds up: the first axis down, the second across, each with what it is called.</summary>
internal sealed class UsageTable
{
    /// <summary>Zones, schedules or supplies that have an entry of their own; what comes after them is added up.</summary>
    private const int MostNames = 8;

    private const int LitresInLargeUnit = 1_000_000;
    private readonly WaterUsage _usage;
    private readonly bool _showsAll;

    private UsageTable(WaterUsage usage, bool showsAll)
    {
        (_usage, _showsAll) = (usage, showsAll);
        Volume = new WaterWords(usage.Site).Volume;
        var all = usage.Rows.Aggregate(Fraction.Zero, (sum, row) => sum + row.Litres);
        if (Volume.Symbol == "L" && all >= Fraction.Of(LitresInLargeUnit)) (Volume, Digits) = (Units.Find("m3", Dimension.Volume)!, 1);
        (Rows, var rowOf) = Entries(usage.By[0], row => row.First);
        (Columns, var columnOf) = usage.By.Length == 1 ? ([new UsageEntry("", [])], _ => 0) : Entries(usage.By[1], row => row.Second);
        Cells = new UsageCell[Rows.Length, Columns.Length];
        Fill(rowOf, columnOf);
    }

    /// <summary>The unit of all numbers.</summary>
    public Unit Volume { get; }

    /// <summary>Digits after their point.</summary>
    public int Digits { get; }

    /// <summary>The entries of the first axis.</summary>
    public ImmutableArray<UsageEntry> Rows { get; }

    /// <summary>The entries of the second axis; one without a label where there is no second.</summary>
    public ImmutableArray<UsageEntry> Columns { get; }

    /// <summary>The cells.</summary>
    public UsageCell[,] Cells { get; }

    /// <summary>All of it.</summary>
    public UsageCell Total { get; } = new();

    /// <summary>The table.</summary>
    /// <param name="usage">What it is of.</param>
    /// <param name="showsAll">Whether each zone, schedule and supply has an entry, however many there are.</param>
    public static UsageTable Of(WaterUsage usage, bool showsAll) => new(usage, showsAll);

    /// <summary>The number of a cell or a total; a dash where the flow of what is watered is not known, and for a refill.</summary>
    public string Say(UsageCell cell) => cell.IsUnknown || cell.IsRefill ? "–" : Fraction.Text(cell.Volume, Digits);

    /// <summary>The entries of an axis, and where on it a row of water belongs.</summary>
    private (ImmutableArray<UsageEntry> Entries, Func<int, int> EntryOf) Entries(UsageAxis axis, Func<UsageRow, int> placeOf)
    {
        int[] places = [.. axis.IsPeriod
            ? _usage.Rows.Where(row => row.Seconds > 0).Select(placeOf).Concat(_usage.Costs.PaidOn(axis)).Distinct().Order()
            : Named(axis, placeOf)];
        var most = axis.IsPeriod || _showsAll || places.Length <= MostNames + 1 ? places.Length : MostNames;
        var indexes = places.Index().ToDictionary(place => place.Item, place => Math.Min(place.Index, most));
        var labels = places.Take(most).Select((place, index) => LabelOf(axis, place, index == 0 ? null : places[index - 1]));
        if (most < places.Length) labels = labels.Append(string.Create(CultureInfo.InvariantCulture, $"others ({places.Length - most})"));
        var entries = labels.Select((label, index) => new UsageEntry(label, index < most ? [places[index]] : [.. places[most..]]));
        return ([.. entries], place => indexes.GetValueOrDefault(place));
    }

    private IEnumerable<int> Named(UsageAxis axis, Func<UsageRow, int> placeOf)
    {
        var site = _usage.Site;
        var watered = _usage.Rows.Where(row => row.Seconds > 0).Select(placeOf);
        var known = axis switch
        {
            UsageAxis.Zone => site.Zones.Where(zone => !zone.IsSpare).Select(zone => zone.Index),
            UsageAxis.Schedule => site.Schedules.Where(schedule => schedule is { IsManual: false, IsExtra: false }).Select(schedule => schedule.Index),
            _ => site.Zones.Where(zone => !zone.IsSpare).Select(zone => zone.Supply?.Index ?? site.Supplies.Length),
        };
        return known.Concat(watered).Concat(_usage.Costs.TanksOn(axis)).Distinct().Order();
    }

    private string LabelOf(UsageAxis axis, int place, int? before)
    {
        var site = _usage.Site;
        if (UsagePlaces.TankAt(axis, place, site) is { } tank) return $"{tank.DisplayName} (refill)";
        return axis switch
        {
            UsageAxis.Zone => site.Zones[place].DisplayName,
            UsageAxis.Schedule => site.Schedules[place].DisplayName,
            UsageAxis.Supply => place < site.Supplies.Length ? site.Supplies[place].DisplayName : "no supply",
            _ => UsagePeriods.Say(axis, place, before is null || CivilDate.FromDayNumber(before.Value).Year != CivilDate.FromDayNumber(place).Year),
        };
    }

    private void Fill(Func<int, int> rowOf, Func<int, int> columnOf)
    {
        var exact = new Fraction[Rows.Length, Columns.Length];
        for (var i = 0; i < Cells.Length; i++) Cells[i / Columns.Length, i % Columns.Length] = new UsageCell();
        foreach (var row in _usage.Rows.Where(row => row.Seconds > 0 || row.Openings > 0))
        {
            var (i, j) = (rowOf(row.First), columnOf(row.Second));
            exact[i, j] += row.Litres * new Fraction(BigInteger.Pow(10, Digits), 1) / Fraction.Of(Volume);
            foreach (var cell in (UsageCell[])[Cells[i, j], Rows[i].Sum, Columns[j].Sum, Total]) cell.Add(row);
        }

        var rounded = TableRounding.Of(exact);
        for (var i = 0; i < Rows.Length; i++) Rows[i].Sum.Volume = rounded.RowTotals[i];
        for (var j = 0; j < Columns.Length; j++) Columns[j].Sum.Volume = rounded.ColumnTotals[j];
        for (var i = 0; i < Cells.Length; i++)
            Cells[i / Columns.Length, i % Columns.Length].Volume = rounded.Cells[i / Columns.Length, i % Columns.Length];
        Total.Volume = rounded.Total;
        MarkRefills();
    }

    /// <summary>The water of a tank is counted at the zones that take it; its refill only costs something.</summary>
    private void MarkRefills()
    {
        bool IsTank(int axis, UsageEntry entry) => axis < _usage.By.Length && entry.Places.Length > 0
            && entry.Places.All(place => UsagePlaces.TankAt(_usage.By[axis], place, _usage.Site) is not null);
        for (var i = 0; i < Rows.Length; i++)
        {
            Rows[i].Sum.IsRefill = IsTank(0, Rows[i]);
            for (var j = 0; j < Columns.Length; j++) Cells[i, j].IsRefill = Rows[i].Sum.IsRefill || IsTank(1, Columns[j]);
        }

        foreach (var column in Columns) column.Sum.IsRefill = IsTank(1, column);
    }
}

/// <summary>An entry of an axis.</summary>
/// <param name="Label">What it is called.</param>
/// <param name="Places">The places on its axis that come together in it.</param>
internal sealed record UsageEntry(string Label, ImmutableArray<int> Places)
{
    /// <summary>What comes together in it.</summary>
    public UsageCell Sum { get; } = new();
}

/// <summary>A number of a table, and what else is known of it.</summary>
internal sealed class UsageCell
{
    private bool _isMeasured;

    /// <summary>Rounded; in steps of the last digit that is printed.</summary>
    public BigInteger Volume { get; set; }

    /// <summary>Seconds in which zones are open.</summary>
    public long Seconds { get; private set; }

    /// <summary>How often they open.</summary>
    public long Openings { get; private set; }

    /// <summary>Depth in millimetres where it is of one zone; null where it is not known, or of several.</summary>
    public Fraction? Depth
    {
        get => IsRefill ? null : field;
        private set;
    } = Fraction.Zero;

    /// <summary>Whether it is of the refill of a tank alone, which has no water of its own.</summary>
    public bool IsRefill { get; set; }

    /// <summary>Whether the flow of some of it is not known.</summary>
    public bool IsInPart { get; private set; }

    /// <summary>Whether the flow of all of it is not known.</summary>
    public bool IsUnknown => IsInPart && !_isMeasured;

    /// <summary>Adds water.</summary>
    public void Add(UsageRow row)
    {
        ArgumentNullException.ThrowIfNull(row);
        Seconds += row.Seconds;
        Openings += row.Openings;
        Depth = row.Depth is { } depth ? Depth + depth : null;
        IsInPart |= row.IsInPart;
        _isMeasured |= !row.IsUnknown;
    }
}
