using WaterScript.Text.Lines;

namespace WaterScript.Tests.Answers;

/// <summary>Reports for people, as one text.</summary>
internal static class Reports
{
    /// <summary>As a terminal gets it.</summary>
    public static string Plain(Action<PlainLines> write)
    {
        var text = new StringWriter();
        write(new PlainLines(text));
        return text.ToString();
    }

    /// <summary>As Markdown.</summary>
    public static string Markdown(Action<MarkdownLines> write)
    {
        var text = new StringWriter();
        write(new MarkdownLines(text));
        return text.ToString();
    }
}
