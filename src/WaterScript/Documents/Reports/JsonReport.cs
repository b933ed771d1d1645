using NodaTime;
using NodaTime.Text;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Documents.Writers;
using WaterScript.Linting.Engine;
using WaterScript.Linting.Proof;
using WaterScript.Model;
using WaterScript.Simulation;
using WaterScript.Timetables;
using WaterScript.Wording;

namespace WaterScript.Documents.Reports;

/// <summary>What was found in some sites, as JSON for programs.</summary>
internal static class JsonReport
{
    /// <summary>Writes what was found.</summary>
    /// <param name="sites">In the order in which they are to stand.</param>
    /// <param name="showsAccepted">Whether what is accepted is listed too.</param>
    /// <param name="output">Stays open.</param>
    public static void Write(IEnumerable<CheckedSite> sites, bool showsAccepted, Stream output)
    {
        ArgumentNullException.ThrowIfNull(sites);
        var document = new ReportDocument { Sites = sites.Select(site => Of(site, showsAccepted)) };
        JsonDocuments.Write(output, document, new ReportContext(JsonDocuments.Options()).ReportDocument);
    }

    private static SiteItem Of(CheckedSite site, bool showsAccepted)
    {
        var item = Found(site, showsAccepted);
        if (site is not { Lint: { IsCut: false } lint, Reading.Site: { } sound }) return item;
        var clock = new ZoneClock(sound.TimeZone);
        item = item with { Sun = SunOf(sound, lint.Horizon, clock) };
        try
        {
            var timetable = Timetable.Of(sound, lint.Horizon, new WorkBudget(Limits.CheckWorkOf(sound.SourceLength)));
            var (runs, more) = HeldRun.First(timetable, Limits.TakenRuns, _ => true);
            return item with { Taken = runs.Select(run => new TakenItem(run, timetable, clock)), TakenLeftOut = more > 0 ? more : null };
        }
        catch (WorkUsedUpException)
        {
            return item;
        }
    }

    private static IEnumerable<SunItem>? SunOf(Site site, Horizon horizon, ZoneClock clock)
    {
        if (site.Position is not { } position) return null;
        var (sun, days) = (SunTimes.Of(position, clock), Period.DaysBetween(horizon.From, LocalDate.Min(horizon.Until, horizon.From.PlusYears(1))));
        return Enumerable.Range(CivilDate.DayNumberOf(horizon.From), days).Select(day => new SunItem(day, sun, clock));
    }

    private static SiteItem Found(CheckedSite site, bool showsAccepted) => new()
    {
        Name = site.Name,
        File = site.Path,
        Files = site.Reading.Files.Select(file => file.Source.Path),
        TimeZoneData = site.Reading.Site?.TimeZoneData,
        Checked = site.Lint is { } lint ? Of(lint) : null,
        Tally = new TallyItem
        {
            Errors = site.Findings.Count(finding => finding.Severity == Severity.Error),
            Warnings = site.Findings.Count(finding => finding.Severity == Severity.Warning),
            Advice = site.Findings.Count(finding => finding.Severity == Severity.Advice),
            Accepted = site.Accepted.Length,
            InBaseline = site.InBaseline,
            Shared = site.Shared > 0 ? site.Shared : null,
        },
        Findings = site.Findings.Select(finding => new FindingItem(finding)),
        Accepted = showsAccepted ? site.Accepted.Select(accepted => new AcceptedItem(accepted)) : null,
    };

    private static CheckedItem Of(LintReport lint) => new()
    {
        From = LocalDatePattern.Iso.Format(lint.Horizon.From),
        Until = LocalDatePattern.Iso.Format(lint.Horizon.Until),
        Areas = RuleCategories.All.Select(RuleCategories.NameOf),
        NotChecked = lint.NotChecked.Select(gap => new GapItem(gap)),
        Decided = lint.ConflictProof is { } conflictProof ? Of(conflictProof) : null,
    };

    private static DecidedItem Of(ConflictProof conflictProof) => new()
    {
        Until = LocalDatePattern.Iso.Format(conflictProof.Until),
        ButFor = conflictProof.Moving,
        AllPairs = conflictProof.IsWhole,
    };
}
