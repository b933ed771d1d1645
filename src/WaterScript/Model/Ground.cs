using System.Collections.Immutable;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>A soil. What is not known is null.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Label">What people read, or null.</param>
/// <param name="Origin">Where its name stands; null for one that is built in.</param>
/// <param name="Intake">What it takes in, as a rate.</param>
/// <param name="Holds">Water that it holds for plants, as a depth held.</param>
/// <param name="Ponds">Water that may stand on it, as a depth: nothing, one for every slope, or four for slopes of up to 3, 6, 12 and more per cent.</param>
internal sealed record Soil(string Name, string? Label, Location? Origin, Quantity? Intake, Quantity? Holds, ImmutableArray<Quantity> Ponds)
{
    private static readonly decimal[] Slopes = [3, 6, 12];

    /// <summary>Water that may stand on it at a slope, or null.</summary>
    /// <param name="slope">Slope in per cent.</param>
    public Quantity? PondsOn(decimal slope) => Ponds switch
    {
        [] => null,
        [var always] => always,
        _ => Ponds[Slopes.Count(most => slope > most)],
    };
}

/// <summary>Plants. What is not known is null.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Label">What people read, or null.</param>
/// <param name="Origin">Where its name stands; null for plants that are built in.</param>
/// <param name="Coefficients">Crop coefficient for January to December: twelve values, null for a month in which the plants are not in the ground;
/// empty where none is given.</param>
/// <param name="Roots">Depth of the roots.</param>
/// <param name="DepletionPercent">Share of the water held that may be used, in per cent.</param>
internal sealed record Plants(string Name, string? Label, Location? Origin, ImmutableArray<decimal?> Coefficients, Quantity? Roots, decimal? DepletionPercent);

/// <summary>Monthly means of the weather.</summary>
/// <param name="Origin">Where it stands.</param>
/// <param name="Months">Twelve entries, January first; null where a month is not given.</param>
internal sealed record Climate(Location Origin, ImmutableArray<ClimateMonth?> Months)
{
    /// <summary>Whether it is that of a coast.</summary>
    public bool IsByTheSea { get; init; }
}

/// <summary>One month's means; rain is the month's total. What is not given is null.</summary>
internal sealed record ClimateMonth(Location Origin)
{
    /// <summary>Mean daily minimum of the air temperature.</summary>
    public Quantity? Coldest { get; init; }

    /// <summary>Mean daily maximum of the air temperature.</summary>
    public Quantity? Warmest { get; init; }

    /// <summary>Reference evapotranspiration as given.</summary>
    public Quantity? Et { get; init; }

    /// <summary>Rain of the whole month, as a depth.</summary>
    public Quantity? Rain { get; init; }

    /// <summary>Mean daily least relative humidity in per cent.</summary>
    public decimal? HumidityLeast { get; init; }

    /// <summary>Mean daily greatest relative humidity in per cent.</summary>
    public decimal? HumidityGreatest { get; init; }

    /// <summary>Mean wind speed.</summary>
    public Quantity? Wind { get; init; }

    /// <summary>Height above ground at which the wind was measured; null for 2 m.</summary>
    public Quantity? WindHeight { get; init; }

    /// <summary>Mean bright sunshine a day.</summary>
    public Quantity? Sun { get; init; }

    /// <summary>Mean temperatures in °C; null where none are given.</summary>
    public MeanTemperatures? Means => this is { Coldest: { } coldest, Warmest: { } warmest } ? new((double)coldest.InBase, (double)warmest.InBase) : null;
}

/// <summary>Mean daily extremes of the air temperature.</summary>
/// <param name="Coldest">In °C.</param>
/// <param name="Warmest">In °C, no less.</param>
internal readonly record struct MeanTemperatures(double Coldest, double Warmest)
{
    /// <summary>The middle of the two, in °C.</summary>
    public double Mean => (Coldest + Warmest) / 2;
}

/// <summary>Shares of the written run times.</summary>
internal abstract record Scale(string Name, string? Label, Location Origin);

/// <summary>A share for each month.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Label">What people read, or null.</param>
/// <param name="Origin">Where its name stands.</param>
/// <param name="Percents">Twelve values, January first; null where a month is not listed, which is 100.</param>
internal sealed record MonthlyScale(string Name, string? Label, Location Origin, ImmutableArray<decimal?> Percents) : Scale(Name, Label, Origin)
{
    /// <summary>Where the months are written, January first; null where one is not listed. Empty where they are calculated.</summary>
    public ImmutableArray<Location?> Lines { get; init; } = [];
}

/// <summary>A share from a date until the next.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Label">What people read, or null.</param>
/// <param name="Origin">Where its name stands.</param>
/// <param name="Since">In order of date, each date once; 100 per cent before the first.</param>
internal sealed record DatedScale(string Name, string? Label, Location Origin, ImmutableArray<(NodaTime.LocalDate From, decimal Percent)> Since)
    : Scale(Name, Label, Origin);

/// <summary>A share calculated from the site's climate.</summary>
internal sealed record ClimateScale(string Name, string? Label, Location Origin) : Scale(Name, Label, Origin);
