using System.Globalization;
using System.Text.RegularExpressions;

namespace WaterScript.Fuzz.Mutation;

/// <summary>Changes numbers, units, times of day and dates.</summary>
internal static partial class Numbers
{
    private static readonly string[] Extremes =
    [
        "0", "00", "1", "-1", "0.1", "0.000001", "1.5", "007", "59", "60", "61", "86399", "86400", "86401", "99999", "1000000", "2147483647", "2147483648",
            "4294967296", "9223372036854775807",
        "9223372036854775808", "79228162514264337593543950335", "99999999999999999999999999999999", "0.0000000000000000000000000001", "1e5", "1,5", "1_000",
            "²", "٣", "½", "3½", "1.", ".5", "1.2.3", "0x10", "NaN",
    ];

    private static readonly string[] Dates =
    [
        "2026-02-28", "2026-02-29", "2028-02-29", "2026-12-31", "2027-01-01", "9999-12-31", "0001-01-01", "0000-00-00", "2120-01-01", "2026-03-29",
            "2026-10-25", "1970-01-01", "1969-12-31", "2038-01-19", "2025-06-31",
    ];

    private static readonly string[] Times = ["00:00", "24:00", "23:59", "23:59:59", "02:30", "01:30", "12:00", "03:00", "00:00:01", "25:00", "06:60",
        "sunrise", "sunset", "sunrise - 3 h", "sunset + 5 h"];

    private static readonly string[][] Units =
    [
        ["s", "ms", "min", "h", "days", "weeks"], ["L/min", "L/h", "m3/h", "gpm", "gph"], ["mm", "cm", "m", "in", "ft"],
        ["L", "m3", "gal", "HCF", "kgal", "mL"], ["V"], ["Ah", "mAh"], ["deg"],
            ["mA", "A"], ["mm/h", "in/h"], ["C", "F"], ["W", "kW"], ["%"], ["ohm"], ["uF", "mF", "F"], ["mm2", "AWG"], ["m2", "ft2", "ha"],
    ];

    /// <summary>Ten times as much is a number still.</summary>
    private const decimal Most = decimal.MaxValue / 10;

    /// <summary>Makes a number a little other.</summary>
    public static void Nudge(Draft draft) => Replace(draft, Number(), number =>
    {
        if (!decimal.TryParse(number, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) || value > Most) return number;
        var other = draft.Dice.Below(7) switch
        {
            0 => value + 1,
            1 => Math.Max(0, value - 1),
            2 => value * 2,
            3 => Math.Round(value / 2, 2),
            4 => draft.Dice.Below(60),
            5 => 1 + draft.Dice.Below(9),
            _ => value * 10,
        };
        return other.ToString(CultureInfo.InvariantCulture);
    });

    /// <summary>Makes a number one that nobody would write.</summary>
    public static void Extreme(Draft draft) => Replace(draft, Number(), _ => draft.Dice.Of(Extremes));

    /// <summary>Gives a number another unit, mostly of the same kind.</summary>
    public static void OtherUnit(Draft draft) => Replace(draft, Unit(), unit =>
        draft.Dice.Of(!draft.Dice.OneIn(6) ? Units.FirstOrDefault(kind => kind.Contains(unit), [unit]) : draft.Dice.Of(Units)));

    /// <summary>Puts another date or time of day, near a clock change or the end of a month.</summary>
    public static void OtherMoment(Draft draft)
    {
        if (draft.Dice.OneIn(2)) Replace(draft, Date(), _ => draft.Dice.Of(Dates));
        else Replace(draft, Time(), _ =>
            draft.Dice.OneIn(2) ? draft.Dice.Of(Times) : string.Create(CultureInfo.InvariantCulture, $"{draft.Dice.Below(24):00}:{draft.Dice.Below(60):00}"));
    }

    private static void Replace(Draft draft, Regex pattern, Func<string, string> other) => draft.Change(text =>
    {
        var all = pattern.Matches(text);
        if (all.Count == 0) return text;
        var match = all[draft.Dice.Below(all.Count)];
        return text[..match.Index] + other(match.Value) + text[(match.Index + match.Length)..];
    });

    [GeneratedRegex(@"(?<![A-Za-z0-9_.:-])[0-9]+(\.[0-9]+)?(?![0-9.:-])", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Number();

    [GeneratedRegex(@"(?<=[0-9] ?)(?<![A-Za-z])[A-Za-z%][A-Za-z0-9/%]*", RegexOptions.CultureInvariant)]
    private static partial Regex Unit();

    [GeneratedRegex(@"[0-9]{4}-[0-9]{2}-[0-9]{2}", RegexOptions.CultureInvariant)]
    private static partial Regex Date();

    [GeneratedRegex(@"[0-9]{2}:[0-9]{2}(:[0-9]{2})?|sunrise|sunset", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Time();
}
