using System.ComponentModel;
using WaterScript.Documents.Writers;
using WaterScript.Linting.Engine;

namespace WaterScript.Documents.Reports;

/// <summary>What could not be judged, as JSON.</summary>
internal sealed class GapItem(Gap gap)
{
    [Description("What it is: `holding current`.")]
    public string What => gap.What;

    [Description("The kind of the parts of the site for which it holds; left out where it holds for the whole site.")]
    public string? Kind => gap.Of.IsEmpty ? null : gap.Of[0].Kind;

    [Description("Their names."), Shape(Of = ShapeAttribute.Name)]
    public IEnumerable<string>? Names => gap.Of.IsEmpty ? null : gap.Of.Select(thing => thing.Name);

    [Description("The statement to add; left out where none would do.")]
    public string? Add => gap.Add.Length > 0 ? gap.Add : null;

    [Description("Why none would do.")]
    public string? Because => gap.Because.Length > 0 ? gap.Because : null;
}
