using System.Collections.Immutable;
using WaterScript.Wording;

namespace WaterScript.Answers.Diff.Words;

/// <summary>What zones get in a week, before and after.</summary>
internal sealed class WeekWords(WaterWords water)
{
    private const string Nothing = "–";
    private const int MostDigits = 3;
    private const decimal Few = 10;

    /// <summary>Zones that get so much more or less are said together from this number on.</summary>
    private const int LeastAlike = 4;

    /// <summary>A share at which a table draws the eye to a change.</summary>
    private const decimal Large = 50;

    /// <summary>All of them, for a line: those that change by the same share are one.</summary>
    public IEnumerable<string> Words(ImmutableArray<ZoneChange> zones)
    {
        foreach (var alike in zones.GroupBy(zone => Share(zone) is { Length: > 0 } share ? share : zone.Name).Select(group => group.ToList()))
        {
            if (alike.Count < LeastAlike || !alike.TrueForAll(zone => zone is { Old.Litres: not null, New.Litres: not null }))
            {
                foreach (var zone in alike) yield return $"{zone.DisplayName} {Words(zone)}";
                continue;
            }

            var (old, @new) = Amounts(alike.Sum(zone => zone.Old!.Litres!.Value), alike.Sum(zone => zone.New!.Litres!.Value));
            yield return $"{Phrases.Names([.. alike.Select(zone => zone.DisplayName)], most: 4)} {Phrases.Bare(old)} → {@new} in all ({Share(alike[0])})";
        }
    }

    /// <summary>Both sides for a table, and the unit where they have one.</summary>
    public (string Unit, string Old, string New) Sides(ZoneChange zone)
    {
        ArgumentNullException.ThrowIfNull(zone);
        var share = Share(zone) is { Length: > 0 } said ? $" ({said})" : "";
        var (old, @new) = Amounts(zone);
        var unit = IsDepthOnly(zone) ? "mm" : LitresOf(zone) is null ? "" : water.Volume.Symbol;
        string Cut(string text) => unit.Length > 0 && text.EndsWith(" " + unit, StringComparison.Ordinal) ? text[..^(unit.Length + 1)] : text;
        return (unit, Cut(old), Cut(@new) + share);
    }

    /// <summary>Whether a table draws the eye to it.</summary>
    public static bool IsLarge(ZoneChange zone) => ShareOf(zone) is { } share && Math.Abs(share - 1) * 100 >= Large;

    private string Words(ZoneChange zone)
    {
        var (old, @new) = Amounts(zone);
        if (zone.Old is null) return "new, " + @new;
        if (zone.New is null) return "removed, was " + old;
        var share = Share(zone);
        var unit = IsDepthOnly(zone) ? " mm" : " " + water.Volume.Symbol;
        var was = old.EndsWith(unit, StringComparison.Ordinal) && @new.EndsWith(unit, StringComparison.Ordinal) ? old[..^unit.Length] : old;
        return $"{was} → {@new}{(share.Length > 0 ? $" ({share})" : "")}";
    }

    private (string Old, string New) Amounts(ZoneChange zone)
    {
        if (IsDepthOnly(zone)) return ($"{Phrases.Number(zone.Old!.Millimetres!.Value, 1)} mm", $"{Phrases.Number(zone.New!.Millimetres!.Value, 1)} mm");
        var (old, @new) = LitresOf(zone) is { } litres
            ? Amounts(litres.Old, litres.New)
            : (Phrases.Length(zone.Old?.Seconds ?? 0), Phrases.Length(zone.New?.Seconds ?? 0));
        return (zone.Old is null ? Nothing : old, zone.New is null ? Nothing : @new);
    }

    /// <summary>Whether the same water stands deeper or less deep, on another area.</summary>
    private static bool IsDepthOnly(ZoneChange zone) => zone is { Old.Millimetres: not null, New.Millimetres: not null }
        && zone.Old.Seconds == zone.New.Seconds && zone.Old.Litres == zone.New.Litres;

    /// <summary>As water where that is known of both sides, else as run time.</summary>
    private static (decimal Old, decimal New)? LitresOf(ZoneChange zone)
    {
        var (old, @new) = (zone.Old ?? WeeklyWater.None, zone.New ?? WeeklyWater.None);
        return (old.Litres ?? (old.Seconds == 0 ? 0 : null), @new.Litres ?? (@new.Seconds == 0 ? 0 : null)) is ({ } before, { } after)
            && (old.Litres ?? @new.Litres) is not null ? (before, after) : null;
    }

    /// <summary>With as many digits as it takes to tell one from the other.</summary>
    private (string Old, string New) Amounts(decimal old, decimal @new)
    {
        var digits = Enumerable.Range(Math.Max(Least(old), Least(@new)), MostDigits + 1)
            .FirstOrDefault(digits => digits >= MostDigits || water.Say(old, digits) != water.Say(@new, digits));
        return (water.Say(old, digits), water.Say(@new, digits));
    }

    private int Least(decimal litres) => litres > 0 && litres * water.Volume.Denominator / water.Volume.Numerator < Few ? 1 : 0;

    private static string Share(ZoneChange zone)
    {
        if (ShareOf(zone) is not { } share) return "";
        var percent = Math.Abs(share - 1) * 100;
        return $"{(share >= 1 ? "+" : "−")}{Phrases.Number(percent, percent is > 0 and < 1 ? 1 : 0)} %";
    }

    private static decimal? ShareOf(ZoneChange zone)
    {
        if (zone is not { Old.Seconds: > 0, New.Seconds: > 0 }) return null;
        if (IsDepthOnly(zone) && zone.Old.Millimetres > 0) return zone.New.Millimetres / zone.Old.Millimetres;
        return zone.Old.Litres is { } old && zone.New.Litres is { } now && old > 0 ? now / old : (decimal)zone.New.Seconds / zone.Old.Seconds;
    }
}
