using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>Pages as a browser shows them; the browser is started once for all of them.</summary>
public sealed class BrowserTests : Workshop
{
    [BrowserFact]
    public void Pages_work_on_a_wide_screen_and_on_a_phone_in_light_and_dark()
    {
        var pages = ChartSites.All.Index()
            .Select(name => Write($"{name.Index}.html", Charts.TextOf(HtmlChart.Write, ChartSites.Of(name.Item))))
            .Concat(ExampleTests.Roots.Cast<object[]>().Select(row => YearOf((string)row[0])))
            .Concat(new[] { "findings", "held", "mist", "twelve" }.Select(name => YearOf(ChartSites.Of(name).Site, name)));

        Assert.Equal(("", "", 0), Browser.Look(pages));
    }

    [BrowserFact]
    public void On_a_phone_the_largest_years_can_be_used_within_a_second()
    {
        var pages = new[] { "examples/nursery.water", "examples/park/park.water" }.Select(YearOf).ToArray();

        Assert.Equal(("", "", 0), Browser.Run("phone.mjs", pages));
    }

    private string YearOf(string path)
    {
        var site = Example.Read(path).Site!;
        return YearOf(site, Path.GetFileNameWithoutExtension(path));
    }

    private string YearOf(Site site, string name)
    {
        using var stream = new MemoryStream();
        YearPage.Write(Compilation.YearOf(site, Linter.Check(site, CheckHorizon.Of(site)), site.Effective), new ChartOptions(), stream);
        return Write($"year-{name}.html", System.Text.Encoding.UTF8.GetString(stream.ToArray()));
    }
}
