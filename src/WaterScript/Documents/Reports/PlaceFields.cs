using WaterScript.Documents.Writers;
using WaterScript.Text;

namespace WaterScript.Documents.Reports;

/// <summary>A place in a source as the reports write it.</summary>
internal static class PlaceFields
{
    /// <summary>Writes the entries of a place: lines and columns from 1, the end just past the last letter.</summary>
    public static void Write(DocumentWriter writer, Location place)
    {
        writer.Entry("file", place.Source.Path);
        writer.Entry("line", place.Start.Line);
        writer.Entry("column", place.Start.Column);
        writer.Entry("end_line", place.End.Line);
        writer.Entry("end_column", place.End.Column);
    }
}
