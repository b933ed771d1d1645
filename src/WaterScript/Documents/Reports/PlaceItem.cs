using System.ComponentModel;
using System.Text.Json.Serialization;
using WaterScript.Diagnostics;
using WaterScript.Documents.Writers;
using WaterScript.Text;

namespace WaterScript.Documents.Reports;

/// <summary>A place in a source, in documents for programs: lines and columns from 1, the end just past the last letter.</summary>
[Description("A place in a source."), Shape(Of = "place")]
internal class PlaceItem(Location place)
{
    [Description("As it was named.")]
    public string File => place.Source.Path;

    [Description("From 1."), Shape(Least = 1)]
    public int Line => place.Start.Line;

    [Description("From 1, in UTF-16 units."), Shape(Least = 1)]
    public int Column => place.Start.Column;

    [Description("From 1."), Shape(Least = 1)]
    public int EndLine => place.End.Line;

    [Description("The column after the last."), Shape(Least = 1)]
    public int EndColumn => place.End.Column;
}

/// <summary>A place that is labelled.</summary>
[Description("A place in a source, with a word about it."), Shape(Of = "labelled")]
internal sealed class LabelledItem(Label label) : PlaceItem(label.Location)
{
    [Description("What there is to say about it."), JsonPropertyOrder(1)]
    public string? Label => label.Text.Length == 0 ? null : label.Text;
}

/// <summary>A place whose text is replaced.</summary>
internal sealed class EditItem(Location place, string replacement) : PlaceItem(place)
{
    [Description("What stands there afterwards."), JsonPropertyOrder(1)]
    public string Replacement => replacement;
}
