using WaterScript.Text;

namespace WaterScript.Diagnostics;

/// <summary>A marked place in a source with a few words under it.</summary>
/// <param name="Location">What is underlined.</param>
/// <param name="Text">What is said beside the underline; empty where the heading says it all.</param>
internal sealed record Label(Location Location, string Text);
