using System.Collections.Immutable;
using System.Numerics;
using WaterScript.Answers.Diff.Written;
using WaterScript.Answers.Usage;
using WaterScript.Language;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Answers.Diff.Costs;

/// <summary>A supply with a tariff whose bills are not what they were.</summary>
/// <param name="Supply">As it is in the new version; in the old one where it has no tariff any more.</param>
/// <param name="Old">Its currency before; null where it had no tariff.</param>
/// <param name="New">Its currency now; null where it has no tariff any more.</param>
/// <param name="Years">Each year that the comparison has whole, in order.</param>
internal sealed record MeterChange(Supply Supply, Currency? Old, Currency? New, ImmutableArray<YearChange> Years)
{
    /// <summary>Years of which watering costs more or less by more than one part in so many are shown beside the first.</summary>
    private const int Alike = 100;

    /// <summary>The tariff, where it says something else than it did, and where.</summary>
    public (string Name, Location Place)? Tariff { get; private init; }

    /// <summary>The first year, and those in which watering costs otherwise than in it by more than 1 %.</summary>
    public IEnumerable<YearChange> Shown => Years.Where((year, index) => index == 0
        || Differs(Years[0].Old?.Watering, year.Old?.Watering) || Differs(Years[0].New?.Watering, year.New?.Watering));

    /// <summary>All that are.</summary>
    public static IEnumerable<MeterChange> Between(
        CostSide old, CostSide @new, ImmutableArray<int> years, Renames names, ImmutableArray<WrittenChange> written)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(@new);
        if (years.IsEmpty) yield break;
        var before = old.Meters.ToDictionary(meter => names.Of("supply", meter.Supply.Name), StringComparer.Ordinal);
        foreach (var now in @new.Meters)
        {
            var change = Of(before.GetValueOrDefault(now.Supply.Name), now, years);
            before.Remove(now.Supply.Name);
            if (change.IsChanged) yield return change with { Tariff = TariffOf(now, written) };
        }

        foreach (var gone in old.Meters.Where(meter => before.ContainsValue(meter))) yield return Of(gone, null, years);
    }

    private bool IsChanged => Old != New || Years.Any(year => year.Old != year.New);

    private static MeterChange Of(Meter? old, Meter? @new, ImmutableArray<int> years) =>
        new((@new ?? old!).Supply, old?.Tariff.Currency, @new?.Tariff.Currency,
            [.. years.Select(year =>
                new YearChange(year, old is null ? null : CostSide.YearOf(old, year), @new is null ? null : CostSide.YearOf(@new, year)))]);

    private static (string Name, Location Place)? TariffOf(Meter meter, ImmutableArray<WrittenChange> written) =>
        written.Where(change => change.Thing == "tariff" && change.Name == meter.Tariff.Name && change.What is not ("" or "label"))
            .Select(change => ((string, Location)?)(change.Name, change.Place)).FirstOrDefault();

    private static bool Differs(BigInteger? first, BigInteger? other) =>
        first is { } one && other is { } two && BigInteger.Abs(two - one) * Alike > BigInteger.Abs(one);
}

/// <summary>The bills that end in a year, before and now.</summary>
/// <param name="Year">The year.</param>
/// <param name="Old">Before; null where there were none.</param>
/// <param name="New">Now; null where there are none any more.</param>
internal sealed record YearChange(int Year, YearOfBills? Old, YearOfBills? New);
