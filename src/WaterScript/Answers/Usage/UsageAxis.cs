namespace WaterScript.Answers.Usage;

/// <summary>What water is listed by.</summary>
internal enum UsageAxis
{
    /// <summary>Where it goes.</summary>
    Zone,

    /// <summary>What asks for it.</summary>
    Schedule,

    /// <summary>Where it comes from.</summary>
    Supply,

    /// <summary>Local dates.</summary>
    Day,

    /// <summary>Weeks from Monday.</summary>
    Week,

    /// <summary>Months of the calendar.</summary>
    Month,

    /// <summary>Years of the calendar.</summary>
    Year,
}

/// <summary>What is said of an axis.</summary>
internal static class UsageAxes
{
    extension(UsageAxis axis)
    {
        /// <summary>Whether its entries are stretches of time.</summary>
        public bool IsPeriod => axis >= UsageAxis.Day;

        /// <summary>As it is typed and printed.</summary>
        public string Word => axis switch
        {
            UsageAxis.Zone => "zone",
            UsageAxis.Schedule => "schedule",
            UsageAxis.Supply => "supply",
            UsageAxis.Day => "day",
            UsageAxis.Week => "week",
            UsageAxis.Month => "month",
            _ => "year",
        };
    }
}
