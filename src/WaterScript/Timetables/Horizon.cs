using NodaTime;

namespace WaterScript.Timetables;

/// <summary>The dates that a timetable covers, in the site's time zone. A pass is in it when its start is, and then whole.</summary>
/// <param name="From">First date, included from its first moment.</param>
/// <param name="Until">First date that is not included; after <paramref name="From"/>.</param>
internal sealed record Horizon(LocalDate From, LocalDate Until)
{
    /// <summary>One year from a date.</summary>
    public static Horizon YearFrom(LocalDate date) => new(date, date.PlusYears(1));

    /// <summary>So many days from a date.</summary>
    public static Horizon DaysFrom(LocalDate date, int days) => new(date, date.PlusDays(days));
}
