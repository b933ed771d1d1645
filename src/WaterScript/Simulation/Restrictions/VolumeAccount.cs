using System.Numerics;
using WaterScript.Calendars;
using WaterScript.Model;
using WaterScript.Quantities;

namespace WaterScript.Simulation.Restrictions;

/// <summary>
/// Adds up the volume that an <c>at most</c> line limits, for the site or for each zone, while pieces of runs pass in order of time: exactly, in parts of
/// a litre of which each zone gives a whole number in a second. A zone that two runs water at once is open once. A zone without a flow adds nothing.
/// </summary>
internal sealed class VolumeAccount
{
    private const int SecondsInMinute = 60;

    /// <summary>More digits of a litre are shown nowhere.</summary>
    private const int Digits = 6;

    private readonly Restriction _restriction;
    private readonly BigInteger[] _partsASecond;
    private readonly BigInteger _partsInLitre;
    private readonly BigInteger _most;
    private readonly Account[] _accounts;
    private readonly long[] _wetUntil;

    public VolumeAccount(AtMost line, Restriction restriction, Site site)
    {
        (Line, _restriction) = (line, restriction);
        Fraction[] flows = [.. site.Zones.Select(zone => (zone.ExactLitresPerMinute ?? Fraction.Zero) / Fraction.Of(SecondsInMinute))];
        _partsInLitre = flows.Aggregate(
            BigInteger.One, (common, flow) => common * (flow.Denominator / BigInteger.GreatestCommonDivisor(common, flow.Denominator)));
        _partsASecond = [.. flows.Select(flow => flow.Numerator * (_partsInLitre / flow.Denominator))];
        _most = (Fraction.Of(line.Volume!.Value) * new Fraction(_partsInLitre, 1)).Floor;
        _accounts = new Account[line.PerZone ? site.Zones.Length : 1];
        Array.Fill(_accounts, new Account { Period = int.MinValue });
        _wetUntil = new long[site.Zones.Length];
        Array.Fill(_wetUntil, long.MinValue);
    }

    /// <summary>The line.</summary>
    public AtMost Line { get; }

    /// <summary>Takes in the next piece.</summary>
    /// <param name="piece">A piece of a run of a zone that is bound.</param>
    /// <param name="isFirst">Whether its period has become too much with it.</param>
    /// <returns>Whether its period is too much; as much as allowed is not.</returns>
    public bool IsOver(in WateredPiece piece, out bool isFirst)
    {
        ref var account = ref AccountOf(piece);
        var period = StartOf(Line.Period, _restriction, piece.Day);
        if (account.Period != period) account = new Account { Period = period };
        var wasOver = account.Parts > _most;
        var from = Math.Max(piece.Start, _wetUntil[piece.Zone]);
        if (piece.End > from) account.Parts += _partsASecond[piece.Zone] * (piece.End - from);
        _wetUntil[piece.Zone] = Math.Max(_wetUntil[piece.Zone], piece.End);
        isFirst = !wasOver && account.Parts > _most;
        return account.Parts > _most;
    }

    /// <summary>Litres of the period of the piece that was taken in last, so far.</summary>
    public decimal LitresOf(in WateredPiece piece) => new Fraction(AccountOf(piece).Parts, _partsInLitre).ToDecimal(Digits);

    /// <summary>The first date of the period that a date lies in, in days since 1970-01-01; of a season it may lie before the first date in force.</summary>
    public static int StartOf(LimitPeriod period, Restriction restriction, int day)
    {
        var (year, month, _) = CivilDate.FromDayNumber(day);
        return period switch
        {
            LimitPeriod.Day => day,
            LimitPeriod.Week => new WeeksFrom(restriction.WeekStarts).WeekOf(day),
            LimitPeriod.Month => CivilDate.DayNumberOf(year, month, 1),
            LimitPeriod.Year => CivilDate.DayNumberOf(year, 1, 1),
            _ => SpansOfDays.Of(restriction.Season!.Span, day, day).Last(span => span.First <= day).First,
        };
    }

    private ref Account AccountOf(in WateredPiece piece) => ref _accounts[_accounts.Length == 1 ? 0 : piece.Zone];

    /// <summary>What a period has had.</summary>
    private struct Account
    {
        public int Period;
        public BigInteger Parts;
    }
}
