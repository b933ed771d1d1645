using System.Numerics;
using WaterScript.Answers.Usage;
using WaterScript.Diagnostics;
using WaterScript.Model;
using WaterScript.Quantities;
using WaterScript.Text.Lines;

namespace WaterScript.Fuzz.Stages;

/// <summary>How much water is used: the same sum whatever it is listed by, in tables that add up.</summary>
internal sealed class UsageStage : IStage
{
    private static readonly UsageAxis[] Axes = Enum.GetValues<UsageAxis>();

    private static readonly int?[] Widths = [null, 100, 70, 50, 30, 1];

    public string Name => "usage";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (site.Sound is not { } sound) return false;
        try
        {
            Add(site, sound);
            return true;
        }
        catch (WorkUsedUpException)
        {
            return false;
        }
    }

    private static void Add(SiteInHand site, Site sound)
    {
        var first = Axes[site.Salt % Axes.Length];
        var second = Axes[(site.Salt + 1) % Axes.Length];
        var usage = WaterUsage.Of(sound, site.Horizon, first.IsPeriod && second.IsPeriod ? [first, UsageAxis.Zone] : [first, second]);
        var all = Sum(usage);
        foreach (var axis in Axes) Must.Hold(Sum(usage.ByOnly(axis)) == all, "water is the same by whatever it is listed", axis.Word);
        var table = UsageTable.Of(usage, site.Salt % 2 == 0);
        AddsUp(table);
        var columns = Widths[site.Salt % Widths.Length];
        Must.Hold(CheckStage.Written(stream => PlainLines.WriteTo(stream, lines => UsageText.Write(usage, site.Salt % 2 == 0, columns, lines))).Length > 0,
            "water used is put in words");
        Must.Hold(CheckStage.Written(stream => MarkdownLines.WriteTo(stream, lines => UsageMarkdown.Write(usage, site.Salt % 2 == 0, lines))).Length > 0,
            "water used is put in Markdown");
        foreach (var meter in usage.Meters) AddsUp(meter, usage);
        CheckStage.IsJson(stream => UsageJson.Write(usage, stream), "water used in JSON is JSON");
    }

    private static void AddsUp(UsageTable table)
    {
        var (rows, columns) = (BigInteger.Zero, BigInteger.Zero);
        for (var i = 0; i < table.Rows.Length; i++)
        {
            rows += table.Rows[i].Sum.Volume;
            var row = Enumerable.Range(0, table.Columns.Length).Aggregate(BigInteger.Zero, (sum, j) => sum + table.Cells[i, j].Volume);
            Must.Hold(row == table.Rows[i].Sum.Volume, "a row of a table adds up");
        }

        foreach (var column in table.Columns) columns += column.Sum.Volume;
        Must.Hold(rows == table.Total.Volume && columns == table.Total.Volume, "the totals of a table add up");
    }

    /// <summary>Bills follow each other, shares add up to what they share, and no water costs nothing.</summary>
    private static void AddsUp(Meter meter, WaterUsage usage)
    {
        var next = meter.Bills[0].First;
        foreach (var bill in meter.Bills)
        {
            Must.Hold(bill.First == next && bill.Cut > bill.First, "bills follow each other");
            next = bill.End;
            Must.Hold(bill.Litres.Sign > 0 || bill.Cost.IsZero, "no water costs nothing");
            foreach (var shares in (IReadOnlyDictionary<int, BigInteger>[])[bill.ZoneShares, bill.ScheduleShares])
            {
                var sum = shares.Values.Aggregate(BigInteger.Zero, (all, share) => all + share);
                Must.Hold(sum == bill.Cost, "the shares of a cost add up to it");
            }
        }

        var date = Calendars.CivilDate.FromDayNumber(meter.Bills[^1].First).ToLocalDate();
        Must.Hold(CheckStage.Written(stream => PlainLines.WriteTo(stream, lines => UsageText.WriteBills(usage, date, lines))).Length > 0,
            "a bill is put in words");
    }

    private static Fraction Sum(WaterUsage usage) => usage.Rows.Aggregate(Fraction.Zero, (sum, row) => sum + row.Litres);
}
