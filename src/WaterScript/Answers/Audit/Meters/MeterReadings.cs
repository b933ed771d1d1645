using System.Collections.Immutable;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Answers.Audit.Meters;

/// <summary>What a water meter showed.</summary>
/// <param name="At">When, in Unix seconds.</param>
/// <param name="Value">In the unit of its column.</param>
/// <param name="IsNew">Whether it is the first of a new meter.</param>
/// <param name="Place">The row.</param>
internal sealed record MeterReading(long At, decimal Value, bool IsNew, LogPlace Place);

/// <summary>The readings of the meter of a supply, in order of time; of one moment one.</summary>
/// <param name="Supply">The supply.</param>
/// <param name="Unit">The unit that they are in.</param>
/// <param name="Readings">They.</param>
/// <param name="Broken">Those of them that cannot be, so that the periods beside them are left out.</param>
internal sealed record MeterColumn(Supply Supply, Unit Unit, ImmutableArray<MeterReading> Readings, ImmutableHashSet<long> Broken)
{
    /// <summary>From each reading to the next, where both can be used, and both are of one meter.</summary>
    public IEnumerable<(MeterReading From, MeterReading Until)> Periods => Readings.Zip(Readings.Skip(1))
        .Where(pair => !Broken.Contains(pair.First.At) && !Broken.Contains(pair.Second.At) && !pair.Second.IsNew);
}

/// <summary>A file of readings, as far as it can be used.</summary>
/// <param name="Columns">One for each supply, in order of the site.</param>
/// <param name="Bad">What of it cannot be used, in order of the file.</param>
internal sealed record MeterReadings(ImmutableArray<MeterColumn> Columns, ImmutableArray<BadRow> Bad)
{
    /// <summary>The periods of all meters.</summary>
    public int PeriodCount => Columns.Sum(column => column.Periods.Count());
}
