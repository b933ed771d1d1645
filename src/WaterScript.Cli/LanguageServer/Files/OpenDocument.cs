using WaterScript.Text;

namespace WaterScript.Cli.LanguageServer.Files;

/// <summary>A document that an editor has open, in one version.</summary>
/// <param name="Uri">As the client writes it.</param>
/// <param name="Path">The file, absolute, every link followed; a name that no file has for one that was never saved.</param>
/// <param name="Version">Its number.</param>
/// <param name="Source">Its text, with the path that findings show.</param>
/// <param name="EditedAt">Where the last edit ended, which is where the cursor most likely is; null where nobody knows.</param>
internal sealed record OpenDocument(string Uri, string Path, int Version, SourceText Source, int? EditedAt);
