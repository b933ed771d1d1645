using NodaTime;
using WaterScript.Model;

namespace WaterScript.Linting.Fixes;

/// <summary>A site of which all run times are a share of what they are.</summary>
internal static class ScaledSite
{
    private const decimal AsWritten = 100;

    /// <summary>Before any date that a scale names.</summary>
    private static readonly LocalDate Ever = new(1, 1, 1);

    /// <summary>The site with that share, whatever scales it has; null where one of them is calculated from the climate.</summary>
    /// <param name="site">The site.</param>
    /// <param name="percent">The share, in per cent.</param>
    public static Site? Of(Site site, decimal percent) => site.Scales.Any(scale => scale is ClimateScale)
        ? null
        : site with
        {
            Scale = Of(site.Scale, site, percent),
            Scales = [.. site.Scales.Select(scale => Of(scale, percent))],
            Schedules = [.. site.Schedules.Select(schedule => schedule with { Scale = ScaleOf(schedule, site, percent) })],
        };

    private static ScaleUse? ScaleOf(Schedule schedule, Site site, decimal percent) =>
        schedule.Scale is null && !schedule.IsManual && !schedule.IsExtra ? null : Of(schedule.Scale, site, percent);

    private static ScaleUse Of(ScaleUse? use, Site site, decimal percent) => use switch
    {
        null => new ScaleUse(site.Origin, Name: null, percent),
        { Percent: { } own } => use with { Percent = own * percent / AsWritten },
        _ => use,
    };

    private static Scale Of(Scale scale, decimal percent) => scale switch
    {
        MonthlyScale monthly => monthly with { Percents = [.. monthly.Percents.Select(own => (decimal?)((own ?? AsWritten) * percent / AsWritten))] },
        DatedScale dated => dated with { Since = [(Ever, percent), .. dated.Since.Select(since => (since.From, since.Percent * percent / AsWritten))] },
        _ => scale,
    };
}
