using System.Numerics;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Timetables.Keeping;

/// <summary>What a line limits in a day: whole parts that each second adds, of the site or of each zone. Exact, since flows are fractions.</summary>
internal sealed class DayAccount
{
    private const int SecondsInMinute = 60, SecondsInHour = 3_600;

    /// <summary>Far above what 28 digits leave out of a quotient, and far below a second.</summary>
    private const decimal Rounding = 0.000000000001m;

    private readonly BigInteger[] _parts;
    private readonly BigInteger[] _most;
    private readonly bool _countsTime;

    /// <param name="restriction">Index of its restriction among those that are kept to.</param>
    /// <param name="line">The line.</param>
    /// <param name="site">The site.</param>
    public DayAccount(int restriction, AtMost line, Site site)
    {
        Restriction = restriction;
        Line = line;
        IsPerZone = line.PerZone || line.Kind == LimitKind.DepthADay;
        _countsTime = line.Kind != LimitKind.Volume;
        (_parts, _most) = _countsTime
            ? ([.. site.Zones.Select(_ => BigInteger.One)], [.. site.Zones.Select(zone => SecondsOf(line, zone))])
            : Volumes(line, site);
        Acts = [.. site.Zones.Select(zone => line.Kind switch
        {
            LimitKind.TimeADay => true,
            LimitKind.DepthADay => zone.MillimetresPerHour is > 0,
            _ => zone.LitresPerMinute is not null,
        })];
    }

    /// <summary>Index of its restriction among those that are kept to.</summary>
    public int Restriction { get; }

    /// <summary>The line.</summary>
    public AtMost Line { get; }

    /// <summary>Whether each zone is counted for itself.</summary>
    public bool IsPerZone { get; }

    /// <summary>By zone: whether it has the number that the line needs; without it nothing is taken of it.</summary>
    public bool[] Acts { get; }

    /// <summary>What a second adds while zones are watered, each once.</summary>
    public BigInteger ShareOf(IReadOnlyList<int> zones)
    {
        if (_countsTime) return zones.Count > 0 ? BigInteger.One : BigInteger.Zero;
        var sum = BigInteger.Zero;
        foreach (var zone in zones) sum += _parts[zone];
        return sum;
    }

    /// <summary>The most that may be added up in a date.</summary>
    /// <param name="zone">The zone; any where they are counted together.</param>
    public BigInteger MostOf(int zone) => _most[zone];

    private static BigInteger SecondsOf(AtMost line, Zone zone)
    {
        if (line.Kind == LimitKind.TimeADay) return new BigInteger(decimal.Floor(line.Amount));
        return zone.MillimetresPerHour is { } rate and > 0
            ? new BigInteger(decimal.Floor(Math.Min((line.Amount * SecondsInHour / rate) + Rounding, long.MaxValue / 2)))
            : long.MaxValue / 2;
    }

    private static (BigInteger[] Parts, BigInteger[] Most) Volumes(AtMost line, Site site)
    {
        Fraction[] flows = [.. site.Zones.Select(zone => (zone.ExactLitresPerMinute ?? Fraction.Zero) / Fraction.Of(SecondsInMinute))];
        var common = flows.Aggregate(BigInteger.One, (all, flow) => all * (flow.Denominator / BigInteger.GreatestCommonDivisor(all, flow.Denominator)));
        var most = (Fraction.Of(line.Volume!.Value) * new Fraction(common, 1)).Floor;
        return ([.. flows.Select(flow => flow.Numerator * (common / flow.Denominator))], [.. flows.Select(_ => most)]);
    }
}
