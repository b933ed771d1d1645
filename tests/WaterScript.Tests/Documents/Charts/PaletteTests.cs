using WaterScript.Documents.Charts.Drawing;
using WaterScript.Documents.Charts.Pages;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>
/// Colours differ from paper and from one another. Contrast: W3C, Web Content Accessibility Guidelines 2.2, "relative luminance" and "contrast ratio",
/// 1.4.3 and 1.4.11. Colour blindness: Machado, Oliveira and Fernandes, "A physiologically-based model for simulation of color vision deficiency", IEEE TVCG
/// 15(6), 2009, severity 1.0 (second-hand: from a transcription). Distance: CIE 1976 L*a*b*, white of D65.
/// </summary>
public class PaletteTests
{
    private const double OfWords = 4.5;
    private const double OfShapes = 3;

    /// <summary>Some ten times the least difference that can be seen (about 2.3; common practice).</summary>
    private const double Apart = 20;

    private static readonly double[][] Normal = [[1, 0, 0], [0, 1, 0], [0, 0, 1]];

    private static readonly double[][][] Seen =
    [
        Normal,
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]],
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]],
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]],
    ];

    /// <summary>Values of the formula itself: white on black is 21, as the guidelines say, and #767676 the lightest grey of 4.5 on white.</summary>
    [Theory]
    [InlineData("#ffffff", "#000000", 21.0)]
    [InlineData("#767676", "#ffffff", 4.54)]
    [InlineData("#17607f", "#17607f", 1.0)]
    public void The_formula_is_that_of_the_guidelines(string a, string b, double contrast) =>
        Assert.Equal(contrast, Contrast(Linear(a), Linear(b)), 2);

    [Theory]
    [InlineData("ink")]
    [InlineData("soft")]
    [InlineData("water")]
    [InlineData("less")]
    [InlineData("error")]
    [InlineData("warning")]
    [InlineData("advice")]
    public void Words_have_contrast(string name) => AssertContrast(name, ["paper"], OfWords);

    [Theory]
    [InlineData("on-water", "water")]
    [InlineData("ink", "wash")]
    [InlineData("ink", "pick")]
    [InlineData("soft", "pick")]
    public void Words_have_contrast_on_what_they_stand(string name, string ground) => AssertContrast(name, [ground], OfWords);

    [Theory]
    [InlineData("rule")]
    [InlineData("w1")]
    [InlineData("w2")]
    [InlineData("w3")]
    [InlineData("w4")]
    [InlineData("hatch")]
    public void Shapes_have_contrast(string name) => AssertContrast(name, ["paper"], OfShapes);

    [Theory]
    [InlineData("water", "wash")]
    [InlineData("less", "less-wash")]
    public void A_line_has_contrast_to_what_it_bounds(string name, string ground) => AssertContrast(name, ["paper", ground], OfShapes);

    [Fact]
    public void A_day_with_more_water_is_further_from_paper()
    {
        foreach (var isDark in new[] { false, true })
        {
            var contrasts = new[] { "w1", "w2", "w3", "w4" }.Select(name => Contrast(Linear(Of(name, isDark)), Linear(Of("paper", isDark)))).ToList();
            Assert.Equal(contrasts.Order(), contrasts);
        }
    }

    [Theory]
    [InlineData("water", "less")]
    [InlineData("wash", "less-wash")]
    public void Before_and_after_differ_for_the_colour_blind(string after, string before)
    {
        foreach (var isDark in new[] { false, true })
        {
            foreach (var eye in Seen)
                Assert.InRange(Distance(As(eye, Linear(Of(after, isDark))), As(eye, Linear(Of(before, isDark)))), Apart, 200);
        }
    }

    [Theory]
    [InlineData("water")]
    [InlineData("less")]
    [InlineData("error")]
    [InlineData("warning")]
    [InlineData("advice")]
    [InlineData("hatch")]
    public void What_is_drawn_keeps_its_contrast_for_the_colour_blind(string name)
    {
        foreach (var isDark in new[] { false, true })
        {
            foreach (var eye in Seen)
                Assert.InRange(Contrast(As(eye, Linear(Of(name, isDark))), As(eye, Linear(Of("paper", isDark)))), OfShapes, 21);
        }
    }

    /// <summary>To the colour-blind errors and warnings look alike but for their shape.</summary>
    [Fact]
    public void Findings_of_each_severity_have_a_shape_of_their_own()
    {
        var shapes = new[] { "error", "warning", "advice" }
            .Select(kind => NightDrawing.Sign(kind, 0, 0, 1).Replace(kind, "", StringComparison.Ordinal)).ToList();

        Assert.Equal(3, shapes.Distinct().Count());
    }

    private static void AssertContrast(string name, string[] grounds, double least)
    {
        foreach (var isDark in new[] { false, true })
        {
            foreach (var ground in grounds)
                Assert.InRange(Contrast(Linear(Of(name, isDark)), Linear(Of(ground, isDark))), least, 21);
        }

        // On paper of a printer the light ones stand on white.
        if (grounds is ["paper"]) Assert.InRange(Contrast(Linear(Of(name, isDark: false)), Linear("#ffffff")), least, 21);
    }

    private static string Of(string name, bool isDark)
    {
        var color = Assert.Single(Palette.Colors, color => color.Name == name);
        return isDark ? color.Dark : color.Light;
    }

    private static double[] Linear(string color) => [.. new[] { 1, 3, 5 }.Select(at => Convert.ToInt32(color.Substring(at, 2), 16) / 255.0)
        .Select(value => value <= 0.04045 ? value / 12.92 : Math.Pow((value + 0.055) / 1.055, 2.4))];

    private static double Luminance(double[] color) => (0.2126 * color[0]) + (0.7152 * color[1]) + (0.0722 * color[2]);

    private static double Contrast(double[] a, double[] b) =>
        (Math.Max(Luminance(a), Luminance(b)) + 0.05) / (Math.Min(Luminance(a), Luminance(b)) + 0.05);

    private static double[] As(double[][] eye, double[] color) =>
        [.. eye.Select(row => Math.Clamp((row[0] * color[0]) + (row[1] * color[1]) + (row[2] * color[2]), 0, 1))];

    private static double Distance(double[] a, double[] b) => Math.Sqrt(Lab(a).Zip(Lab(b)).Sum(pair => Math.Pow(pair.First - pair.Second, 2)));

    private static double[] Lab(double[] color)
    {
        var x = F(((0.4124564 * color[0]) + (0.3575761 * color[1]) + (0.1804375 * color[2])) / 0.95047);
        var y = F((0.2126729 * color[0]) + (0.7151522 * color[1]) + (0.0721750 * color[2]));
        var z = F(((0.0193339 * color[0]) + (0.1191920 * color[1]) + (0.9503041 * color[2])) / 1.08883);
        return [(116 * y) - 16, 500 * (x - y), 200 * (y - z)];
    }

    private static double F(double share) => share > 216.0 / 24389 ? Math.Cbrt(share) : ((24389.0 / 27 * share) + 16) / 116;
}
