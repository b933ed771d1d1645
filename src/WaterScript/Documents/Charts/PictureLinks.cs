using System.Globalization;
using WaterScript.Documents.Charts.Drawing;
using WaterScript.Model;
using WaterScript.Text;

namespace WaterScript.Documents.Charts;

/// <summary>The files of a site as a picture names them, and what leads to their lines.</summary>
/// <param name="site">The site.</param>
/// <param name="options">What leads to a line: the lines that the page itself shows, or a repository.</param>
internal sealed class PictureLinks(Site site, ChartOptions options)
{
    private readonly List<SourceText> _files = [site.Origin.Source];
    private readonly List<PicturePlace> _places = [];
    private readonly Dictionary<(int File, int Line), int> _numbers = [];

    /// <summary>The files, that of the site first.</summary>
    public IReadOnlyList<SourceText> Files => _files;

    /// <summary>The places that were asked for.</summary>
    public IReadOnlyList<PicturePlace> Places => _places;

    /// <summary>Whether a pattern of links names a line and is an address of the web.</summary>
    public static bool IsPattern(string pattern) => pattern.Contains("{line}", StringComparison.Ordinal)
        && Uri.TryCreate(Filled(pattern, "x", 1), UriKind.Absolute, out var uri) && (uri.Scheme == Uri.UriSchemeHttps || uri.Scheme == Uri.UriSchemeHttp);

    /// <summary>The number of a place.</summary>
    public int NumberOf(Location place)
    {
        var file = FileOf(place.Source);
        var line = place.Start.Line;
        if (_numbers.TryGetValue((file, line), out var number)) return number;
        _places.Add(new PicturePlace(file, line, options.SourceLink is { } pattern ? Filled(pattern, place.Source.Path, line) : $"#{IdOf(file, line)}")
        {
            Mark = options.LineOf?.Invoke(place),
        });
        return _numbers[(file, line)] = _places.Count - 1;
    }

    /// <summary>Takes in the files of all that the site has, so that the page can show them whole.</summary>
    public void AddAll()
    {
        foreach (var origin in site.Zones.Select(zone => zone.Origin).Concat(site.Schedules.Select(schedule => schedule.Origin))
            .Concat(site.Supplies.Select(supply => supply.Origin)).Concat(site.Restrictions.Select(restriction => restriction.Origin))) FileOf(origin.Source);
    }

    /// <summary>The id of a line in a page: <c>L48</c>, of further files <c>f2L48</c>.</summary>
    public static string IdOf(int file, int line) => file == 0
        ? string.Create(CultureInfo.InvariantCulture, $"L{line}")
        : string.Create(CultureInfo.InvariantCulture, $"f{file + 1}L{line}");

    private static string Filled(string pattern, string path, int line) =>
        pattern.Replace("{path}", string.Join('/', path.Split('/', '\\').Select(Uri.EscapeDataString)), StringComparison.Ordinal)
            .Replace("{line}", line.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal);

    private int FileOf(SourceText source)
    {
        var file = _files.IndexOf(source);
        if (file < 0) _files.Add(source);
        return file < 0 ? _files.Count - 1 : file;
    }
}
