using System.Collections.Immutable;
using WaterScript.Quantities;
using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>A soil of the file's own. What is not given is null.</summary>
public sealed record Soil(string Name, string? Label, Location Origin, Quantity? Intake, Quantity? Holds, Quantity? Ponds);

/// <summary>Plants of the file's own. What is not given is null.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Label">What people read, or null.</param>
/// <param name="Origin">Where its name stands.</param>
/// <param name="Coefficients">Crop coefficient for January to December: twelve values, or empty where none is given.</param>
/// <param name="Roots">Depth of the roots.</param>
/// <param name="DepletionPercent">Share of the water held that may be used, in per cent.</param>
public sealed record Plants(string Name, string? Label, Location Origin, ImmutableArray<decimal?> Coefficients, Quantity? Roots, decimal? DepletionPercent);

/// <summary>Monthly means of the weather.</summary>
/// <param name="Origin">Where it stands.</param>
/// <param name="Months">Twelve entries, January first; null where a month is not given.</param>
public sealed record Climate(Location Origin, ImmutableArray<ClimateMonth?> Months);

/// <summary>One month's means; rain is the month's total. What is not given is null.</summary>
public sealed record ClimateMonth(Location Origin)
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

    /// <summary>Mean wind speed 2 m above ground.</summary>
    public Quantity? Wind { get; init; }

    /// <summary>Mean bright sunshine a day.</summary>
    public Quantity? Sun { get; init; }
}

/// <summary>Shares of the written run times.</summary>
public abstract record Scale(string Name, string? Label, Location Origin);

/// <summary>A share for each month.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Label">What people read, or null.</param>
/// <param name="Origin">Where its name stands.</param>
/// <param name="Percents">Twelve values, January first; null where a month is not listed, which is 100.</param>
public sealed record MonthlyScale(string Name, string? Label, Location Origin, ImmutableArray<decimal?> Percents) : Scale(Name, Label, Origin);

/// <summary>A share from a date until the next.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Label">What people read, or null.</param>
/// <param name="Origin">Where its name stands.</param>
/// <param name="Since">In order of date, each date once; 100 per cent before the first.</param>
public sealed record DatedScale(string Name, string? Label, Location Origin, ImmutableArray<(NodaTime.LocalDate From, decimal Percent)> Since) : Scale(Name, Label, Origin);

/// <summary>A share reckoned from the site's climate.</summary>
public sealed record ClimateScale(string Name, string? Label, Location Origin) : Scale(Name, Label, Origin);
