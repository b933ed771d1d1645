using System.Security.Cryptography;
using WaterScript.Documents.Descriptions;
using WaterScript.Documents.Writers;
using WaterScript.Model;

namespace WaterScript.Documents.Timetables;

/// <summary>Says whether two files describe the same site.</summary>
internal static class SiteHash
{
    /// <summary>
    /// The SHA-256 of what was compiled, in hexadecimal: the description as JSON without spaces. The version of the time-zone data is
    /// part of it, since it decides when the clock changes. Layout, comments and paths are no part, nor are the dates covered.
    /// </summary>
    public static string Of(Site site)
    {
        ArgumentNullException.ThrowIfNull(site);
        var description = new SiteDescription(site);
        using var hash = SHA256.Create();
        using (var stream = new CryptoStream(Stream.Null, hash, CryptoStreamMode.Write))
        using (var json = new JsonWriter(stream, isIndented: false))
        {
            json.StartMap();
            json.Map("site", () =>
            {
                description.WriteSite(json);
                json.Entry("timezone_data", site.TimeZoneData);
            });
            description.WriteParts(json);
            json.EndMap();
        }

        return Convert.ToHexStringLower(hash.Hash!);
    }
}
