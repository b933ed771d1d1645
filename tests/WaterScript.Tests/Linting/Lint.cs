using WaterScript.Diagnostics;
using WaterScript.Linting.Engine;
using WaterScript.Simulation;
using WaterScript.Tests.Binding;
using Xunit;

namespace WaterScript.Tests.Linting;

/// <summary>Lints sites that are read without an error.</summary>
internal static class Lint
{
    /// <summary>The report on a site over its own horizon.</summary>
    public static LintReport Of(string text)
    {
        var reading = Expect.Read(text);
        Assert.Empty(reading.Findings.Where(finding => finding.Severity == Severity.Error).Select(Expect.Shown));
        return Linter.Check(reading.Site!, CheckHorizon.Of(reading.Site!));
    }

    /// <summary>What could not be judged in a site, each as a sentence.</summary>
    public static string[] NotChecked(string text) => [.. Of(text).NotChecked.Select(gap => gap.Sentence)];

    /// <summary>What a rule finds in a site.</summary>
    public static Finding[] Of(string text, string slug) => [.. Of(text).Findings.Where(finding => finding.Rule.Slug == slug)];
}
