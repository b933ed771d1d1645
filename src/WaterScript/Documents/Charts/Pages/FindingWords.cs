using WaterScript.Documents.Charts.Drawing;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>Words about findings.</summary>
internal static class FindingWords
{
    /// <summary>The class of its mark, which is also the word for it.</summary>
    public static string Kind(PictureFinding finding) => finding.Severity switch
    {
        2 => "error",
        1 => "warning",
        _ => "advice",
    };
}
