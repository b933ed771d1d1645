using System.Text;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>
/// The colours of pictures, light and dark. Contrast on paper is at least 4.5 for words and 3 for shapes (WCAG 2.2, 1.4.3 and 1.4.11); a test works it out.
/// </summary>
internal static class Palette
{
    /// <summary>Each colour by name, on light paper and on dark.</summary>
    public static readonly (string Name, string Light, string Dark)[] Colors =
    [
        ("paper", "#fbfbf8", "#14181b"),
        ("ink", "#1d2529", "#e3e8ea"),
        ("soft", "#56626a", "#a4b0b7"),
        ("rule", "#7d8990", "#6d7a82"),
        ("hair", "#d3d8dc", "#323b41"),
        ("water", "#17607f", "#6db8d8"),
        ("on-water", "#ffffff", "#0c181e"),
        ("wash", "#c3dae5", "#27465a"),
        ("w1", "#6399b3", "#3f86a5"),
        ("w2", "#3f80a0", "#58a2c2"),
        ("w3", "#226384", "#83c6e2"),
        ("w4", "#0f4a63", "#c4e6f4"),
        ("less", "#8a4b10", "#e2a468"),
        ("less-wash", "#ecd6bd", "#4a3521"),
        ("error", "#a8341b", "#f28d70"),
        ("warning", "#7a5a00", "#dcb650"),
        ("advice", "#4d5a8e", "#a9b5ec"),
        ("hatch", "#8b6d4d", "#b39a78"),
        ("pick", "#f2e3a8", "#3d3819"),
    ];

    /// <summary>
    /// Rules that give selectors their colours, then the dark ones for screens that are dark. They have the colours themselves, not variables: a picture
    /// of its own is also read by what knows no variables.
    /// </summary>
    /// <param name="rules">Selector, property, name of the colour.</param>
    public static string Style(IReadOnlyList<(string Selector, string Property, string Color)> rules)
    {
        var style = new StringBuilder();
        foreach (var (selector, property, color) in rules) style.Append($"{selector} {{ {property}: {Of(color).Light}; }}\n");
        style.Append("@media screen and (prefers-color-scheme: dark) {\n");
        foreach (var (selector, property, color) in rules) style.Append($"{selector} {{ {property}: {Of(color).Dark}; }}\n");
        style.Append("}\n@media print {\n");
        foreach (var (selector, property, _) in rules.Where(rule => rule.Color == "paper")) style.Append($"{selector} {{ {property}: #ffffff; }}\n");
        return style.Append("}\n").ToString();
    }

    /// <summary>The same as variables, for the page around the pictures.</summary>
    public static string Variables()
    {
        string All(Func<(string Name, string Light, string Dark), string> of) => string.Concat(Colors.Select(color => $" --{color.Name}: {of(color)};"));
        return $":root {{ color-scheme: light dark;{All(color => color.Light)} }}\n" +
            $"@media screen and (prefers-color-scheme: dark) {{ :root {{{All(color => color.Dark)} }} }}\n" +
            "@media print { :root { color-scheme: light; --paper: #ffffff; } }\n";
    }

    private static (string Name, string Light, string Dark) Of(string name) => Array.Find(Colors, color => color.Name == name);
}
