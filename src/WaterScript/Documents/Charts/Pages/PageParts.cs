using System.Security.Cryptography;
using System.Text;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>The scripts of pages, which stand beside this file and are built into the program.</summary>
internal static class PageParts
{
    /// <summary>What draws nights, and what a reader does with them.</summary>
    public static string NightScript { get; } = Script("layout", "ground", "labels", "night", "page");

    /// <summary>The same, and what a reader does with a year.</summary>
    public static string YearScript { get; } = Script("layout", "ground", "labels", "night", "page", "year");

    /// <summary>What shows the weeks of a change.</summary>
    public static string ChangeScript { get; } = Script("layout", "ground", "page", "year", "change", "change-page");

    /// <summary>Some of the scripts, one after the other.</summary>
    public static string Script(params ReadOnlySpan<string> names)
    {
        var text = new StringBuilder("\n");
        foreach (var name in names)
        {
#pragma warning disable RS0030 // What is built into the program is found by its name, without a look at any type.
            using var stream = typeof(PageParts).Assembly.GetManifestResourceStream($"chart.{name}.js")!;
#pragma warning restore RS0030
            using var reader = new StreamReader(stream, Encoding.UTF8);
            text.Append(reader.ReadToEnd().ReplaceLineEndings("\n"));
        }

        return text.ToString();
    }

    /// <summary>The only style and script that a page lets run are its own (W3C Content Security Policy, level 2).</summary>
    public static string HashOf(string text) => $"'sha256-{Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(text)))}'";

    /// <summary>The line at the bottom, which says what is chosen and shows where it is written.</summary>
    public static void WriteFoot(MarkupWriter markup, string hint)
    {
        markup.Open("div", ("class", "foot")).Open("div", ("class", "say"), ("role", "status")).Text(hint).Close();
        markup.Open("pre", ("aria-hidden", "true")).Close().Close();
    }

    /// <summary>The head of a page.</summary>
    /// <param name="markup">The page.</param>
    /// <param name="title">Its title.</param>
    /// <param name="style">Its style.</param>
    /// <param name="script">Its script.</param>
    public static void WriteHead(MarkupWriter markup, string title, string style, string script)
    {
        markup.Open("head");
        markup.Empty("meta", ("charset", "utf-8"));
        markup.Empty("meta", ("http-equiv", "Content-Security-Policy"), ("content",
            $"default-src 'none'; img-src data:; style-src {HashOf(style)}; script-src {HashOf(script)}; base-uri 'none'; form-action 'none'"));
        markup.Empty("meta", ("name", "viewport"), ("content", "width=device-width, initial-scale=1"));
        markup.Empty("meta", ("name", "referrer"), ("content", "no-referrer"));
        markup.Empty("link", ("rel", "icon"), ("href", "data:,"));
        markup.Element("title", title);
        markup.Open("style").Raw(style).Close();
        markup.Close();
    }
}
