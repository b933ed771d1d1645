using System.Collections.Immutable;
using NodaTime;
using WaterScript.Calendars;
using WaterScript.Quantities;
using WaterScript.Text.Lines;
using WaterScript.Wording;

namespace WaterScript.Answers.Usage;

/// <summary>Water used, for people: a table that adds up, as wide as there is room for, and below it what runs and what is not counted.</summary>
internal sealed class UsageText
{
    private const string Openings = "openings";
    private const string Hours = "hours";

    /// <summary>With fewer columns each entry has a line of its own.</summary>
    private const int LeastForTable = 60;

    /// <summary>With fewer columns each entry is a sentence.</summary>
    private const int LeastForLines = 40;

    /// <summary>Periods side by side where a table is turned.</summary>
    private static readonly int[] BlockSizes = [6, 3, 2, 1];

    private readonly WaterUsage _usage;
    private readonly UsageTable _table;
    private readonly DepthWords _depths;
    private readonly string _total;

    private UsageText(WaterUsage usage, bool showsAll)
    {
        _usage = usage;
        _table = UsageTable.Of(usage, showsAll);
        _depths = new DepthWords(usage.Site);
        _total = _table.Total.IsInPart ? "At least" : "Total";
    }

    /// <summary>Writes it.</summary>
    /// <param name="usage">The answer.</param>
    /// <param name="showsAll">Whether each zone, schedule and supply has an entry, however many there are.</param>
    /// <param name="columns">Columns that there are; null where nobody counts them.</param>
    /// <param name="lines">Where to.</param>
    public static void Write(WaterUsage usage, bool showsAll, int? columns, PlainLines lines)
    {
        ArgumentNullException.ThrowIfNull(usage);
        ArgumentNullException.ThrowIfNull(lines);
        new UsageText(usage, showsAll).Write(columns ?? int.MaxValue, lines);
    }

    /// <summary>Writes the bills that a date lies in, line by line.</summary>
    /// <param name="usage">The answer, of dates that have them.</param>
    /// <param name="date">The date.</param>
    /// <param name="lines">Where to.</param>
    public static void WriteBills(WaterUsage usage, LocalDate date, PlainLines lines)
    {
        ArgumentNullException.ThrowIfNull(usage);
        ArgumentNullException.ThrowIfNull(lines);
        var day = CivilDate.DayNumberOf(date);
        var found = false;
        foreach (var meter in usage.Meters)
        {
            foreach (var bill in meter.Bills.Where(bill => bill.First <= day && day < bill.Cut))
            {
                if (found) lines.Line();
                found = true;
                foreach (var line in new BillTable(meter).Lines(bill)) lines.Line(line);
            }

            foreach (var tank in meter.Tanks) lines.Line(BillTable.NotCounted(tank));
        }

        if (!found) lines.Line($"No bill of {UsageTerms.Range(usage)} has {SiteWords.Date(day)} in it.");
    }

    private void Write(int columns, PlainLines lines)
    {
        var head = $"{_usage.Site.DisplayName}, {UsageTerms.Range(_usage)}, {_table.Volume} by {UsageTerms.Axes(_usage)}. {UsageTerms.Gaps(_usage)}";
        Sentence(head.TrimEnd(), columns, lines);
        if (_table.Rows.Length > 0 && _table.Columns.Length > 0)
        {
            if (columns < LeastForTable) Lines(columns, lines);
            else Table(columns, lines);
        }

        if (HasCosts) Sentence(UsageTerms.CostsMean(_usage), columns, lines);
        Bills(columns, lines);
        foreach (var allowance in _usage.Allowances) Sentence(allowance.Sentence, columns, lines);
        Sentence(UsageTerms.Running(_usage), columns, lines);
        foreach (var battery in _usage.Batteries) Sentence(battery.Sentence, columns, lines);
        foreach (var missing in UsageTerms.NotCounted(_usage)) Sentence(missing, columns, lines);
    }

    private bool HasCosts => _usage.By.Any(_usage.Costs.Has);

    /// <summary>By supply, the bills of each that has a tariff.</summary>
    private void Bills(int columns, PlainLines lines)
    {
        if (_usage.By.Contains(UsageAxis.Supply))
        {
            foreach (var table in _usage.Meters.Select(meter => new BillTable(meter)))
            {
                lines.Line();
                Sentence(table.Heading, columns, lines);
                var grid = table.Grid();
                IEnumerable<string> rows = grid.Width > columns ? table.Sentences() : grid.Lines();
                foreach (var row in rows) lines.Line(row);
                foreach (var note in table.Notes()) Sentence(note, columns, lines);
            }

            if (!_usage.Meters.IsEmpty) lines.Line();
        }
        else
        {
            foreach (var tank in _usage.Meters.SelectMany(meter => meter.Tanks)) Sentence(BillTable.NotCounted(tank), columns, lines);
        }
    }

    /// <summary>What the watering costs at an entry.</summary>
    private string CostOf(UsageAxis axis, UsageEntry entry) => UsageCosts.Say(_usage.Costs.On(axis, entry.Places), _usage.Costs.Currency!);

    private string CostOfAll => UsageCosts.Say(_usage.Costs.Total, _usage.Costs.Currency!);

    /// <summary>One line for each entry of the first axis.</summary>
    private void Lines(int columns, PlainLines lines)
    {
        var hasCosts = _usage.Costs.Has(_usage.By[0]);
        foreach (var (label, cell, cost) in _table.Rows.Select(row => (row.Label, row.Sum, hasCosts ? CostOf(_usage.By[0], row) : ""))
            .Append((_total, _table.Total, hasCosts ? CostOfAll : "")))
        {
            var isShort = columns < LeastForLines;
            var money = hasCosts && cost != "–" ? $"  {cost} {_usage.Costs.Currency!.Code}" : "";
            Sentence($"{label}{(isShort ? ":" : " ")} {_table.Say(cell)} {_table.Volume}{money}{(isShort ? "." : "")}", columns, lines);
        }
    }

    private void Table(int columns, PlainLines lines)
    {
        var grid = _usage.By.Length == 1 ? List() : Grid();
        foreach (var head in (string[])[_depths.Unit.Symbol, Hours, Openings])
        {
            if (_usage.By.Length == 1 && grid.Width > columns) grid = grid.Without(head);
        }

        IEnumerable<UsageGrid> grids = [grid];
        if (_usage.By.Length == 2 && grid.Width > columns)
        {
            var turned = _usage.By[0].IsPeriod ? grid.Turned() : grid;
            grids = BlockSizes.Select(size => turned.Blocks(size).ToArray())
                .First(blocks => blocks.All(block => block.Width <= columns) || blocks[0].Rows[0].Length == 2);
        }

        foreach (var (index, block) in grids.Index())
        {
            if (index > 0) lines.Line();
            foreach (var line in block.Lines()) lines.Line(line);
        }
    }

    /// <summary>One axis: volume, depth, hours, openings.</summary>
    private UsageGrid List()
    {
        var isZone = _usage.By[0] == UsageAxis.Zone;
        var hasCosts = _usage.Costs.Has(_usage.By[0]);
        var money = _usage.Costs.Currency?.Code ?? "";
        ImmutableArray<string> heads =
            [_usage.By[0].Word, _table.Volume.Symbol, .. Only(hasCosts, money), .. Only(isZone, _depths.Unit.Symbol), Hours, Openings];
        var rows = _table.Rows.Select(row => (Label: row.Label, Sum: row.Sum, Depth: DepthOf(row), Cost: hasCosts ? CostOf(_usage.By[0], row) : ""))
            .Append((Label: _total, Sum: _table.Total, Depth: "", Cost: hasCosts ? CostOfAll : ""))
            .Select(row => (ImmutableArray<string>)[row.Label, _table.Say(row.Sum), .. Only(hasCosts, row.Cost), .. Only(isZone, row.Depth),
                row.Sum.IsRefill ? "–" : UsageTerms.Hours(row.Sum.Seconds), row.Sum.IsRefill ? "–" : Fraction.Text(row.Sum.Openings, 0)]);
        return new UsageGrid([heads, .. rows]);
    }

    /// <summary>Two axes, with totals, and the depth of each zone.</summary>
    private UsageGrid Grid()
    {
        var (down, across) = (_usage.By[0] == UsageAxis.Zone, _usage.By[1] == UsageAxis.Zone);
        var (hasDown, hasAcross) = (_usage.Costs.Has(_usage.By[0]), _usage.Costs.Has(_usage.By[1]));
        var money = _usage.Costs.Currency?.Code ?? "";
        ImmutableArray<string> heads = [_usage.By[0].Word, .. _table.Columns.Select(column => column.Label), _total, .. Only(down, _depths.Unit.Symbol),
            .. Only(hasDown, money)];
        var rows = _table.Rows.Select((row, i) => (ImmutableArray<string>)[
            row.Label, .. _table.Columns.Select((_, j) => _table.Say(_table.Cells[i, j])), _table.Say(row.Sum), .. Only(down, DepthOf(row)),
            .. hasDown ? [CostOf(_usage.By[0], row)] : ImmutableArray<string>.Empty]);
        ImmutableArray<string> totals = [_total, .. _table.Columns.Select(column => _table.Say(column.Sum)), _table.Say(_table.Total), .. Only(down, ""),
            .. hasDown ? [CostOfAll] : ImmutableArray<string>.Empty];
        ImmutableArray<string> depths = [_depths.Unit.Symbol, .. _table.Columns.Select(DepthOf), "", .. Only(hasDown, "")];
        return new UsageGrid([heads, .. rows, totals, .. across ? [depths] : ImmutableArray<ImmutableArray<string>>.Empty,
            .. hasAcross ? [CostsAcross(money, down, hasDown)] : ImmutableArray<ImmutableArray<string>>.Empty]);
    }

    /// <summary>What each entry of the second axis costs; all of it in the last column where the first has costs too.</summary>
    private ImmutableArray<string> CostsAcross(string money, bool hasDepths, bool hasDown) =>
        [money, .. _table.Columns.Select(column => CostOf(_usage.By[1], column)), hasDown ? "" : CostOfAll, .. Only(hasDepths, ""),
            .. hasDown ? [CostOfAll] : ImmutableArray<string>.Empty];

    private string DepthOf(UsageEntry entry) => entry.Sum.Depth is { } depth && !entry.Label.StartsWith("others (", StringComparison.Ordinal)
        ? (depth / Fraction.Of(_depths.Unit)).ToString(_depths.Unit.Symbol == "mm" ? 0 : 1) : "–";

    private static IEnumerable<string> Only(bool isShown, string words) => isShown ? [words] : [];

    private static void Sentence(string words, int columns, PlainLines lines)
    {
        foreach (var line in WordWrap.Of(words, Math.Min(columns, 100))) lines.Line(line);
    }
}
