using NodaTime;
using NodaTime.TimeZones;
using NodaTime.Utility;
using WaterScript.Calendars.TimeZones;

namespace WaterScript.Cli.Files.TimeZones;

/// <summary>Time-zone data in place of that of this program, for changes that are announced at short notice.</summary>
internal static class TimeZoneData
{
    /// <summary>What stands for the data of the system in place of a file.</summary>
    public const string System = "system";

    /// <summary>More than a file of all zones has, by far: those of today have 150 kB.</summary>
    private const int MostBytes = 1 << 24;

    /// <summary>The time zones that <c>--tzdata</c> names; those of this program where it names none.</summary>
    /// <param name="name">A file in the format of Noda Time (NZD), <see cref="System"/>, or null.</param>
    /// <param name="surroundings">Where paths start from.</param>
    /// <exception cref="CommandException">It cannot be read.</exception>
    public static IDateTimeZoneProvider Of(string? name, Surroundings surroundings) => name switch
    {
        null => PackagedTimeZones.Provider,
        System => SystemTimeZones.Load(),
        _ => OfFile(name, surroundings),
    };

    private static DateTimeZoneCache OfFile(string path, Surroundings surroundings)
    {
        using var stream = RegularFile.OpenNamed(path, surroundings);
        if (stream.Length > MostBytes) throw NoData(path);
        try
        {
            return new DateTimeZoneCache(TzdbDateTimeZoneSource.FromStream(stream));
        }
        catch (Exception problem) when (problem is InvalidNodaDataException or IOException or ArgumentException or OverflowException
            or InvalidOperationException or InvalidDateTimeZoneSourceException or IndexOutOfRangeException or OutOfMemoryException)
        {
            throw NoData(path);
        }
    }

    private static CommandException NoData(string path) =>
        new($"{path} is not time-zone data in the format of Noda Time (.nzd); get it from https://nodatime.org/tzdb/");
}
