using System.Text;
using System.Xml;
using System.Xml.Linq;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Linting.Engine;
using WaterScript.Model;

namespace WaterScript.Fuzz.Stages;

/// <summary>The chart as a drawing and as a page: both are XML, and neither has an element that a label put in.</summary>
internal sealed class ChartStage : IStage
{
    private static readonly string[] Scripts = ["script", "iframe", "object", "embed", "foreignObject"];

    public string Name => "chart";

    public bool Run(SiteInHand site, SiteInHand original)
    {
        if (site.Checked is not { Lint: { } lint, Reading.Site: { } sound }) return false;
        var days = 1 + (site.Salt % 3);
        if (Drawn(site, sound, lint, days) is not { } chart) return false;
        Must.Hold(ChartWords.Summary(chart).Length > 0, "a chart has a summary");
        Check(CheckStage.Written(stream => SvgChart.Write(chart, stream)), "a chart as SVG is XML");
        CheckPage(CheckStage.Written(stream => HtmlChart.Write(chart, stream)), "a chart as a page is XML");
        if (site.Salt % 4 == 0) RunYear(site, sound, lint);
        return true;
    }

    private static void RunYear(SiteInHand site, Site sound, LintReport lint)
    {
        try
        {
            var year = Compilation.YearOf(sound, lint, site.Horizon.From);
            var difference = year.Months().Sum(month => year.Litres(month.From, month.Until)) - year.Litres(0, year.Days);
            Must.Hold(Math.Round(difference, 6) == 0, "months add up to the year");
            CheckPage(CheckStage.Written(stream => YearPage.Write(year, new ChartOptions(), stream)), "a year as a page is XML");
            Check(CheckStage.Written(stream => SvgYear.Write(year, stream)), "a year as SVG is XML");
        }
        catch (WorkUsedUpException)
        {
            // The command says so in words, as for days.
        }
    }

    /// <summary>A page without its data and its script, which are the only two of their kind in it.</summary>
    private static void CheckPage(string page, string what)
    {
        const string end = "</script>";
        var scripts = 0;
        for (var start = page.IndexOf("<script", StringComparison.Ordinal); start >= 0; start = page.IndexOf("<script", StringComparison.Ordinal))
        {
            var until = page.IndexOf(end, start, StringComparison.Ordinal);
            Must.Hold(until > start, "a script ends");
            page = page[..start] + page[(until + end.Length)..];
            scripts++;
        }

        Must.Hold(scripts == 2, "a page has its data and its script, and no other");
        Check(page, what);
    }

    /// <summary>Null where that is more work than an answer may take, or more than a picture can show.</summary>
    private static Chart? Drawn(SiteInHand site, Site sound, LintReport lint, int days)
    {
        try
        {
            var span = (site.Salt % 2 == 0 ? ChartSpan.FromFirstWater(sound, days) : null) ?? new ChartSpan(site.Horizon.From, days);
            return ChartBuilder.Build(sound, FindingMoments.Of(sound, lint, span.Dates), span);
        }
        catch (ChartTooLargeException)
        {
            return null;
        }
        catch (WorkUsedUpException cause)
        {
            Must.Hold(AnswerCut.Words(sound, cause).Contains(ReadingRules.OverLimit.Slug, StringComparison.Ordinal),
                "a site that is too large for a chart is reported so");
            return null;
        }
    }

    private static void Check(string text, string what)
    {
        try
        {
            using var reader = XmlReader.Create(new MemoryStream(Encoding.UTF8.GetBytes(text)),
                new XmlReaderSettings { DtdProcessing = DtdProcessing.Ignore, XmlResolver = null });
            var document = XDocument.Load(reader);
            Must.Hold(!document.Descendants().Any(element => Scripts.Contains(element.Name.LocalName)), "a label puts no element in");
        }
        catch (XmlException problem)
        {
            throw new BrokenException(what, problem.Message);
        }
    }
}
