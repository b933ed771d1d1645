using NodaTime;
using WaterScript.Binding;

namespace WaterScript.Tests.Documentation;

/// <summary>Reads the sites under <c>examples/</c>.</summary>
internal static class Example
{
    /// <summary>Reads a site, given by the path of its root file from the root of the repository.</summary>
    public static SiteReading Read(string path)
    {
        var files = new RepositoryFiles();
        return SiteReader.Read(files.Read(path)!, path, files, DateTimeZoneProviders.Tzdb);
    }
}
