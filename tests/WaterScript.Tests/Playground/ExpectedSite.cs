using System.Text.Json.Serialization;

namespace WaterScript.Tests.Playground;

/// <summary>A site, and what the program says of it.</summary>
internal sealed record ExpectedSite(string Name, string Root, IReadOnlyDictionary<string, string> Files, string Report, string? Calendar);

/// <summary>How it is handed to the browser.</summary>
[JsonSerializable(typeof(List<ExpectedSite>))]
[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase)]
internal sealed partial class SiteContext : JsonSerializerContext;
