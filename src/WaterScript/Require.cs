using WaterScript.Model;

namespace WaterScript;

/// <summary>What the arguments of public members have to be.</summary>
internal static class Require
{
    private const int FirstYear = 1;
    private const int LastYear = 9_000;

    /// <summary>A year that every calendar and clock can be worked out for.</summary>
    /// <exception cref="ArgumentOutOfRangeException">It lies outside of them.</exception>
    public static void Year(int year, string argument)
    {
        if (year is < FirstYear or > LastYear) throw new ArgumentOutOfRangeException(argument, year, $"Years go from {FirstYear} to {LastYear}.");
    }

    /// <summary>The controller of a name; null for null.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static Controller? Controller(Site site, string? controller) => controller is null
        ? null
        : site.Controllers.FirstOrDefault(one => one.Name == controller)
            ?? throw new ArgumentException($"No controller is called \"{controller}\".", nameof(controller));

    /// <summary>The schedule of a name.</summary>
    /// <exception cref="ArgumentException">There is none.</exception>
    public static Schedule Schedule(Site site, string schedule) =>
        site.Schedules.FirstOrDefault(one => one.Name == schedule) ?? throw new ArgumentException($"No schedule is called \"{schedule}\".", nameof(schedule));

    /// <summary>The path of a root file: from the root folder, and inside of it.</summary>
    /// <exception cref="ArgumentException">It is none.</exception>
    public static void Path(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        if (path.IndexOfAny(['\\', ':', '\0']) >= 0 || path.Split('/').Any(part => part is "" or "." or ".."))
            throw new ArgumentException(
                "A path goes down from the root folder, with / between folders, without \"\\\", \":\", \".\" and \"..\".", nameof(path));
    }
}
