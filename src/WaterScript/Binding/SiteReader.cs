using NodaTime;
using WaterScript.Text;

namespace WaterScript.Binding;

/// <summary>Text to model: parses the root file and all that it includes, and binds them.</summary>
public static class SiteReader
{
    /// <summary>Reads a site.</summary>
    /// <param name="root">The root file.</param>
    /// <param name="rootPath">Its path relative to the root folder, as <see cref="ISourceReader.Read"/> takes it.</param>
    /// <param name="files">Where included files come from.</param>
    /// <param name="timeZones">Where time zones come from.</param>
    public static SiteReading Read(SourceText root, string rootPath, ISourceReader files, IDateTimeZoneProvider timeZones) =>
        throw new NotImplementedException();
}
