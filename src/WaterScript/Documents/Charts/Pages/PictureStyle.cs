using System.Globalization;

namespace WaterScript.Documents.Charts.Pages;

/// <summary>The style of drawings; the same in a picture of its own and in a page.</summary>
internal static class PictureStyle
{
    private const string Form = """

        .sheet text { font: 12px Arial, "Liberation Sans", Helvetica, sans-serif; }
        .sheet .title { font-size: 22px; }
        .sheet .heading { font-size: 14px; font-weight: bold; }
        .sheet .b { font-weight: bold; }
        .sheet .e { text-anchor: end; }
        .sheet .m { text-anchor: middle; }
        .sheet .halo { paint-order: stroke; stroke-width: 4px; stroke-linejoin: round; }
        .sheet .count { font-weight: bold; text-anchor: middle; }
        .sheet .day, .sheet .hair, .sheet .rule, .sheet .ax, .sheet .thread { stroke-width: 1; }
        .sheet .hair, .sheet .rule, .sheet .ax, .sheet .thread, .sheet .soak, .sheet .wl, .sheet .limit, .sheet .stem { fill: none; }
        .sheet .wl, .sheet .soak, .sheet .stem { stroke-width: 1.5; }
        .sheet .fold { stroke-dasharray: 2 4; }
        .sheet .pause { stroke-dasharray: 1.5 3; }
        .sheet .hold { stroke-width: 1.5; stroke-dasharray: 4 3; }
        .sheet .held { stroke-dasharray: 4 3; }
        .sheet .device { stroke-width: 1.2; }
        .sheet .limit { stroke-width: 1; stroke-dasharray: 6 4; }
        .sheet .pick { fill-opacity: 0; }
        .sheet .pick.wash { fill-opacity: 1; }
        .sheet .over { fill: url(#over); }
        .sheet .forbidden { fill: url(#forbidden); }
        .sheet .closed { fill: url(#closed); }
        .sheet .over-line { stroke-width: 2.6; }
        .sheet .forbidden-line { stroke-width: 1.1; }
        .sheet .closed-line { stroke-width: 0.8; }
        .sheet .cell, .sheet .rain, .sheet .chosen-day { stroke-width: 1; }
        .sheet .rain, .sheet .need, .sheet .chosen-day { fill: none; }
        .sheet .need { stroke-width: 1.2; }
        .sheet .chosen-day { stroke-width: 2; }
        .sheet .common, .common .sheet .own { display: none; }
        .common .sheet .common { display: inline; }
        .sheet .was, .sheet .same, .sheet .struck, .sheet .slant { stroke-width: 1.2; }
        .sheet .struck, .sheet .slant { fill: none; }
        .sheet .slant { stroke-dasharray: 3 3; }
        .sheet .run { cursor: pointer; outline: none; text-decoration: none; }
        .sheet .run:hover .w, .sheet .run.chosen .w, .sheet .run.lit .w, .sheet .run:hover .pick, .sheet .run.chosen .pick { stroke-width: 2; }
        .sheet .run:hover .pick ~ .w, .sheet .run.chosen .pick ~ .w { stroke: none; }

        """;

    private static readonly (string Selector, string Property, string Color)[] Inks =
    [
        (".sheet text", "fill", "ink"),
        (".sheet .s", "fill", "soft"),
        (".sheet .on", "fill", "on-water"),
        (".sheet .halo", "stroke", "paper"),
        (".sheet .count", "fill", "paper"),
        (".sheet .paper", "fill", "paper"),
        (".sheet .dark", "fill", "soft"),
        (".sheet .day", "fill", "paper"),
        (".sheet .day", "stroke", "rule"),
        (".sheet .hair", "stroke", "hair"),
        (".sheet .rule", "stroke", "rule"),
        (".sheet .thread", "stroke", "rule"),
        (".sheet .ax", "stroke", "soft"),
        (".sheet .w", "fill", "water"),
        (".sheet .wl", "stroke", "water"),
        (".sheet .soak", "stroke", "water"),
        (".sheet .wash", "fill", "wash"),
        (".sheet .hold", "fill", "paper"),
        (".sheet .hold", "stroke", "soft"),
        (".sheet .device", "fill", "paper"),
        (".sheet .device", "stroke", "soft"),
        (".sheet .limit", "stroke", "ink"),
        (".sheet .stem.error", "stroke", "error"),
        (".sheet .stem.warning", "stroke", "warning"),
        (".sheet .stem.advice", "stroke", "advice"),
        (".sheet .sign.error", "fill", "error"),
        (".sheet .sign.warning", "fill", "warning"),
        (".sheet .sign.advice", "fill", "advice"),
        (".sheet .cell", "fill", "paper"),
        (".sheet .cell", "stroke", "hair"),
        (".sheet .w1", "fill", "w1"),
        (".sheet .w2", "fill", "w2"),
        (".sheet .w3", "fill", "w3"),
        (".sheet .w4", "fill", "w4"),
        (".sheet .was", "fill", "paper"),
        (".sheet .was", "stroke", "less"),
        (".sheet .fewer", "fill", "less-wash"),
        (".sheet .struck", "stroke", "less"),
        (".sheet .slant", "stroke", "rule"),
        (".sheet .same", "fill", "wash"),
        (".sheet .same", "stroke", "water"),
        (".sheet .less-text", "fill", "less"),
        (".sheet .through", "fill", "less"),
        (".sheet .rain", "stroke", "soft"),
        (".sheet .need", "stroke", "ink"),
        (".sheet .chosen-day", "stroke", "ink"),
        (".sheet .over-line", "stroke", "error"),
        (".sheet .forbidden-line", "stroke", "hatch"),
        (".sheet .closed-line", "stroke", "rule"),
        (".sheet .run:hover .w", "stroke", "ink"),
        (".sheet .run.chosen .w", "stroke", "ink"),
        (".sheet .run.lit .w", "stroke", "ink"),
        (".sheet .run.chosen .hold", "stroke", "ink"),
        (".sheet .run:hover .pick", "stroke", "ink"),
        (".sheet .run.chosen .pick", "stroke", "ink"),
    ];

    /// <summary>All of it.</summary>
    public static string Text { get; } = Form + Palette.Style(Inks);

    /// <summary>The hatchings that drawings refer to; once in a document.</summary>
    public static string Patterns { get; } =
        "<defs>" +
        Pattern("over", 6, 45, "over-line") + Pattern("forbidden", 7, -45, "forbidden-line") + Pattern("closed", 5, 45, "closed-line") +
        "</defs>";

    private static string Pattern(string name, int size, int turn, string kind) => string.Create(CultureInfo.InvariantCulture,
        $"<pattern id=\"{name}\" width=\"{size}\" height=\"{size}\" patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate({turn})\">") +
        string.Create(CultureInfo.InvariantCulture, $"<path class=\"{kind}\" d=\"M1 0V{size}\"/></pattern>");
}
