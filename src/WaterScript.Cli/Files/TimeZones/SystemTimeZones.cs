using System.Text.RegularExpressions;
using NodaTime;
using NodaTime.TimeZones;
using WaterScript.Calendars.TimeZones;

namespace WaterScript.Cli.Files.TimeZones;

/// <summary>The time zones of the system, which its own updates keep up to date.</summary>
/// <param name="version">The version of its data.</param>
/// <param name="folder">Where it has them.</param>
internal sealed partial class SystemTimeZones(string version, string folder = SystemTimeZones.Folder) : IDateTimeZoneSource
{
    private const string Folder = "/usr/share/zoneinfo";
    private const string VersionMark = "# version ";

    /// <summary>More than the file of a zone has, by far: the longest has some 3 kB.</summary>
    private const int MostBytes = 1 << 20;

    /// <summary>Where systems keep the version; it is the first line of the one file, or all of the other.</summary>
    private static readonly string[] VersionFiles = [$"{Folder}/tzdata.zi", $"{Folder}/+VERSION"];

    /// <inheritdoc/>
    public string VersionId => version;

    /// <summary>Loads them.</summary>
    /// <exception cref="CommandException">The system has none of which the version is known.</exception>
    public static IDateTimeZoneProvider Load()
    {
        var version = VersionFiles.Where(File.Exists).Select(FirstLine).FirstOrDefault(line => line.Length > 0)
            ?? throw new CommandException($"the system has no time-zone data whose version is known: there is neither {string.Join(" nor ", VersionFiles)}");
        return new DateTimeZoneCache(new SystemTimeZones(version.StartsWith(VersionMark, StringComparison.Ordinal) ? version[VersionMark.Length..] : version));
    }

    /// <summary>The names that the program's own data has, as far as the system knows them too, and those that only the system lists.</summary>
    public IEnumerable<string> GetIds() => PackagedTimeZones.Provider.Ids.Union(Listed(), StringComparer.Ordinal).Where(id => File.Exists(PathOf(id)));

    /// <inheritdoc/>
    /// <exception cref="CommandException">The file of the zone cannot be read.</exception>
    public DateTimeZone ForId(string id)
    {
        ArgumentNullException.ThrowIfNull(id);
        try
        {
            using var file = File.OpenRead(PathOf(id));
            if (file.Length > MostBytes) throw new FormatException();
            var bytes = new byte[file.Length];
            file.ReadExactly(bytes);
            return ZoneFile.Read(id, bytes);
        }
        catch (Exception problem) when (problem is FormatException or IOException or UnauthorizedAccessException)
        {
            throw new CommandException($"the system's data of time zone {id} cannot be read ({PathOf(id)})");
        }
    }

    /// <inheritdoc/>
    public string? GetSystemDefaultId() => null;

    private string PathOf(string id) => $"{folder}/{id}";

    /// <summary>Names of zones and of links in the one file that has all of them; none where it is not there.</summary>
    private IEnumerable<string> Listed()
    {
        var path = PathOf("tzdata.zi");
        if (!File.Exists(path)) return [];
        return File.ReadLines(path).Select(line => line.Split(' ')).Where(words => words is ["Z", _, ..] or ["L", _, _])
            .Select(words => words[0] == "Z" ? words[1] : words[2]).Where(id => Name().IsMatch(id));
    }

    /// <summary>What a name of a zone is, and no path out of the folder.</summary>
    [GeneratedRegex(@"^[A-Za-z0-9_+-]+(/[A-Za-z0-9_+-]+){0,3}\z", RegexOptions.CultureInvariant)]
    private static partial Regex Name();

    private static string FirstLine(string path)
    {
        try
        {
            return File.ReadLines(path).FirstOrDefault("").Trim();
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return "";
        }
    }
}
