using WaterScript.Documents.Charts;
using WaterScript.Tests.Cli;
using WaterScript.Tests.Documentation;
using WaterScript.Tests.Timetables;
using Xunit;

namespace WaterScript.Tests.Documents.Charts;

/// <summary>Pages as a browser shows them; the browser is started once for all of them.</summary>
public sealed class BrowserTests : Workshop
{
    private const string WithFindings = """
        site s "A site with <b>findings</b>" { timezone Europe/Lisbon; effective 2026-05-01; location 39.6 N 8.1 W }
        supply tap { flow 20 L/min }
        zone a "A zone whose name is much longer than there is room for in any picture" { output 1; flow 25 L/min }
        zone b { output 2; flow 5 L/min }
        restriction town { allow between 20:00 and 06:00 }
        schedule day { every day; start at 05:45, 14:00; steps { water a + b for 30 min } }
        """;

    [BrowserFact]
    public void Pages_work_on_a_wide_screen_and_on_a_phone_in_light_and_dark()
    {
        var pages = ExampleTests.Roots.Cast<object[]>().Select(row => (string)row[0]).Select(PageOfExample)
            .Append(Write("findings.html", Charts.TextOf(HtmlChart.Write, Charts.Of(WithFindings, "2026-10-23", days: 3))))
            .Append(Write("eighty-zones.html", Charts.TextOf(HtmlChart.Write, Charts.Of(LargeSites.EightyZones, "2026-05-06"))))
            .Append(Write("twelve-zones.html", Charts.TextOf(HtmlChart.Write, Charts.Of(LargeSites.TwelveZones, "2026-05-03", days: 7))))
            .Append(Write("empty.html", Charts.TextOf(HtmlChart.Write, Charts.Of(Sites.Garden(""), "2026-05-03"))));

        Assert.Equal(("", "", 0), Browser.Look(pages));
    }

    private string PageOfExample(string path)
    {
        var site = Example.Read(path).Site!;
        return Write($"{Path.GetFileNameWithoutExtension(path)}.html", Charts.TextOf(HtmlChart.Write, Charts.Of(site, ChartSpan.FromFirstWater(site, 2)!)));
    }
}
