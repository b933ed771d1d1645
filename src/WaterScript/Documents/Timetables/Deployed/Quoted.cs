using WaterScript.Text;

namespace WaterScript.Documents.Timetables.Deployed;

/// <summary>Somebody else's text in a message.</summary>
internal static class Quoted
{
    private const int MostShown = 60;

    /// <summary>In quotes, on one line, and not all of a long one.</summary>
    public static string Of(string text) => $"\"{DisplayLine.CleanLine(text.Length <= MostShown ? text : text[..MostShown] + "…")}\"";
}
