using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Years;

namespace WaterScript.Answers.Diff.Pages;

/// <summary>Differences in words.</summary>
internal static class ChangeWords
{
    /// <summary><c>+240 L</c>, <c>−32 L</c>, <c>same</c></summary>
    public static string Difference(WaterFigures figures, decimal litres) =>
        litres == 0 ? "same" : $"{(litres > 0 ? "+" : "−")}{figures.Volume(Math.Abs(litres))}";

    /// <summary>What a zone gets in a night of both, and the difference; empty where no flow is known.</summary>
    public static (string Both, string Difference) Amounts(WaterFigures figures, ChangedLane lane) => lane is { Old: { } was, New: { } now }
        ? ($"{figures.Amount(was)} → {figures.Amount(now)}", Difference(figures, now - was))
        : ("", "");

    /// <summary><c>−31 %</c>; empty where nothing was before.</summary>
    public static string Share(decimal old, decimal @new)
    {
        if (old == 0) return "";
        var percent = Math.Round(100 * (@new - old) / old, MidpointRounding.AwayFromZero);
        return percent == 0 ? "0 %" : $"{(percent > 0 ? "+" : "−")}{WaterFigures.Number(Math.Abs(percent))} %";
    }

    /// <summary>What a year of both comes to.</summary>
    public static string Year(YearChart old, YearChart @new)
    {
        var (was, now, figures) = (old.Litres(0, old.Days), @new.Litres(0, @new.Days), new WaterFigures(@new.Site));
        if (was == now) return $"{figures.Volume(now)} a year, as before";
        var share = Share(was, now);
        return $"{figures.Volume(was)} a year become {figures.Volume(now)}{(share.Length > 0 ? $" ({share})" : "")}";
    }
}
