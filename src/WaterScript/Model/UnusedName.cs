using WaterScript.Text;

namespace WaterScript.Model;

/// <summary>Something of a site that has a name and that nothing in it asks for.</summary>
/// <param name="Kind">What it is, as the language says it: <c>valve</c>, <c>let</c>.</param>
/// <param name="Name">Its name.</param>
/// <param name="Origin">Where the name is given.</param>
internal sealed record UnusedName(string Kind, string Name, Location Origin);
