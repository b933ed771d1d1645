using System.Globalization;
using System.Text;
using NodaTime.Text;
using WaterScript.Answers.Why;
using WaterScript.Calendars;
using WaterScript.Calendars.TimeZones;
using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Documents.Charts;
using WaterScript.Documents.Charts.Pages;
using WaterScript.Documents.Reports;
using WaterScript.Editing.Names;
using WaterScript.Editing.Nights;
using WaterScript.Editing.Strips;
using WaterScript.Linting.Engine;
using WaterScript.Text;
using WaterScript.Text.Lines;

namespace WaterScript.Cli.LanguageServer.Features;

/// <summary>What an editor may ask beyond the protocol of all editors: the night beside the text, the chart, and texts to open beside a file.</summary>
internal static class NightFeatures
{
    /// <summary>Tells that what was asked may be asked again: a file has been checked.</summary>
    public const string Checked = "waterscript/checked";

    private const string Night = "waterscript/night";
    private const string Picture = "waterscript/picture";
    private const string Nights = "waterscript/nights";
    private const string Names = "waterscript/names";
    private const string Status = "waterscript/status";
    private const string List = "waterscript/list";
    private const string Why = "waterscript/why";
    private const string Explain = "waterscript/explain";

    private const string Plain = "plaintext";
    private const int LastYear = 9_000;

    /// <summary>What a client may ask.</summary>
    public static ExperimentalCapabilities Capabilities { get; } = new(new OwnCapabilities([Night, Picture, Nights, Names, Status, List, Why, Explain]));

    /// <summary>Registers the methods.</summary>
    public static void Register(Asker asker)
    {
        asker.OfDocument(Night, Asker.Types.NightParams, Asker.Types.NightAnswer, each => each.TextDocument.Uri, StripOf);
        asker.OfDocument(Picture, Asker.Types.NightParams, Asker.Types.PictureAnswer, each => each.TextDocument.Uri, PictureOf);
        asker.OfDocument(Nights, Asker.Types.DocumentParams, Asker.Types.NightChoiceAnswerArray, each => each.TextDocument.Uri, Choices);
        asker.OfWorkspace(Names, Asker.Types.DocumentParams, Asker.Types.NamesAnswer, (parameters, workspace, _, _) => NamesOf(parameters, workspace));
        asker.OfDocument(Status, Asker.Types.DocumentParams, Asker.Types.StatusAnswer, each => each.TextDocument.Uri, (_, asked) => StatusOf(asked));
        asker.OfDocument(List, Asker.Types.NightParams, Asker.Types.TextAnswer, each => each.TextDocument.Uri, ListOf);
        asker.OfDocument(Why, Asker.Types.WhyParams, Asker.Types.TextAnswer, each => each.TextDocument.Uri, Reasons);
        asker.OfWorkspace(Explain, Asker.Types.RuleParams, Asker.Types.TextAnswer, (parameters, _, _, _) => PageOf(parameters.Rule));
    }

    private static NightAnswer? StripOf(NightParams parameters, Asked asked)
    {
        if (SiteOf(asked) is not ({ } site, { } nights, _) || site.FileOf(asked.Source) is not { } file
            || DayOf(parameters.Date, nights) is not { } day || Strip.Of(site.Edited, file, day) is not { } strip) return null;
        return new NightAnswer(DateOf(day), NightWords.Date(day), strip.From, strip.Until,
        [
            .. strip.Lines.Select(line => new NightLineAnswer(
                line.Line - 1, [.. line.Bars.Select(bar => new[] { bar.From, bar.Until })], line.IsComb, line.Words)),
        ]);
    }

    /// <summary>The chart from the noon before the night's first water to the noon after its last.</summary>
    private static PictureAnswer? PictureOf(NightParams parameters, Asked asked)
    {
        if (SiteOf(asked) is not ({ } site, { } nights, _) || DayOf(parameters.Date, nights) is not { } day
            || site.Check(asked.Cancelled).Lint is not { } lint) return null;
        var span = nights.SpanOf(day);
        try
        {
            var chart = Compilation.ChartOf(nights.Site, lint, span);
            using var page = new MemoryStream();
            HtmlChart.Write(chart, new ChartOptions(LineOf: place => LineOf(place, asked)), page);
            return new PictureAnswer(Encoding.UTF8.GetString(page.GetBuffer().AsSpan(0, (int)page.Length)));
        }
        catch (ChartTooLargeException)
        {
            return null;
        }
    }

    /// <summary>A line of the file that the chart is asked for, or of another file by its address.</summary>
    private static string LineOf(Location place, Asked asked)
    {
        var line = place.Start.Line.ToString(CultureInfo.InvariantCulture);
        return ReferenceEquals(place.Source, asked.Source) ? line : $"{asked.Workspace.UriOf(place.Source)}#{line}";
    }

    private static NightChoiceAnswer[]? Choices(DocumentParams parameters, Asked asked) => SiteOf(asked) is (_, { } nights, { } words)
        ? [.. NightList.Coming(nights, words).Select(night => new NightChoiceAnswer(DateOf(night.Day), night.Words))]
        : null;

    /// <summary>Rules can be asked for without a file.</summary>
    private static NamesAnswer NamesOf(DocumentParams parameters, Snapshot workspace)
    {
        var document = workspace.Documents.Values.FirstOrDefault(open => open.Uri == parameters.TextDocument.Uri
            && open.Source.Text.Length <= Snapshot.MostCharacters);
        var zones = document is null ? [] : workspace.SitesOf(document.Path).Take(1).SelectMany(site => site.Names.Of(NameKind.Zone))
            .Where(declared => declared.Word == "zone");
        return new NamesAnswer(
            [.. zones.Select(zone => new ZoneNameAnswer(zone.Name, DisplayLine.CleanLine(zone.Label ?? "")))],
            [.. RuleCatalogue.Rules.Select(rule => new RuleNameAnswer(rule.Slug, rule.Title))]);
    }

    private static StatusAnswer? StatusOf(Asked asked)
    {
        SiteAnalysis[] sites = [.. asked.Sites];
        if (!asked.Workspace.IsPartOfSite(asked.Document.Path)) return new StatusAnswer("no site includes this file", "");
        if (sites.Length > 1)
        {
            return new StatusAnswer(string.Create(CultureInfo.InvariantCulture, $"part of {sites.Length} sites"),
                string.Join('\n', sites.Select(StatusOf).Select(status => status.Text)));
        }

        if (sites is not [var site]) return null;
        var status = StatusOf(site);
        return new StatusAnswer(status.Text, status.Tooltip);
    }

    private static SiteStatus StatusOf(SiteAnalysis site) => SiteStatus.Of(site.Edited, site.CheckIfKnown);

    private static TextAnswer? ListOf(NightParams parameters, Asked asked) =>
        SiteOf(asked) is (_, { } nights, { } words) && DayOf(parameters.Date, nights) is { } day
            ? Text(lines => NightList.Write(nights, words, day, lines))
            : null;

    private static TextAnswer? Reasons(WhyParams parameters, Asked asked)
    {
        if (SiteOf(asked) is not (_, { } nights, _) || DayOf(parameters.Date, nights) is not { } day) return null;
        var zone = nights.Site.Zones.FirstOrDefault(each => each.Name == parameters.Zone)
            ?? throw new RequestException(ErrorCode.InvalidParams, $"no zone is called \"{DisplayLine.CleanLine(parameters.Zone)}\"");
        var answer = DayAnswer.Of(nights.Site, zone, CivilDate.FromDayNumber(day).ToLocalDate());
        return Text(lines => DayAnswerText.Write(answer, lines));
    }

    private static TextAnswer PageOf(string slug) => RuleCatalogue.Find(slug) is { } rule
        ? new TextAnswer(RulePage.Of(rule, RuleExample.Finding(rule, PackagedTimeZones.Provider)), "markdown")
        : throw new RequestException(ErrorCode.InvalidParams, $"no rule is called \"{DisplayLine.CleanLine(slug)}\"");

    private static TextAnswer Text(Action<PlainLines> write)
    {
        var text = new StringWriter(CultureInfo.InvariantCulture);
        write(new PlainLines(text));
        return new TextAnswer(text.ToString(), Plain);
    }

    private static (SiteAnalysis?, SiteNights?, NightWords?) SiteOf(Asked asked) =>
        asked.Sites.FirstOrDefault() is { } site ? (site, site.Edited.Nights, site.Edited.Words) : default;

    private static string DateOf(int day) => LocalDatePattern.Iso.Format(CivilDate.FromDayNumber(day).ToLocalDate());

    /// <summary>The date that is asked for, else that of the next pass; null where there is none.</summary>
    private static int? DayOf(string? date, SiteNights nights)
    {
        if (date is null) return nights.Next;
        var read = LocalDatePattern.Iso.Parse(date);
        return read.Success && read.Value.Year is >= 1 and <= LastYear
            ? CivilDate.DayNumberOf(read.Value)
            : throw new RequestException(ErrorCode.InvalidParams, $"{DisplayLine.CleanLine(date)} is no date such as 2027-05-01");
    }
}
