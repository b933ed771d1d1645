using NodaTime;
using WaterScript.Answers.Audit.Lists;
using WaterScript.Cli.Files;
using WaterScript.Cli.Files.Git;
using WaterScript.Diagnostics;
using WaterScript.Documents.Timetables;
using WaterScript.Documents.Timetables.Deployed;
using WaterScript.Model;
using WaterScript.Timetables;

namespace WaterScript.Cli.Commands.Auditing;

/// <summary>What a file means in several revisions, each on the dates on which the device had it: lists, as <c>compile</c> writes them.</summary>
/// <param name="path">The file, from the current folder, with a dot before it.</param>
/// <param name="terminal">Where it lies.</param>
internal sealed class RevisionLists(string path, Terminal terminal)
{
    /// <summary>So long a list is where nothing says when its dates end: what is meant after the last row of a log is not asked.</summary>
    private const int OpenDays = 366;

    /// <summary>The lists, and the site of the last revision, whose zones they are about; null where one has an error, which is shown.</summary>
    /// <param name="revisions">The revisions, in any order.</param>
    /// <param name="until">The first date that is not asked for; null where the log says.</param>
    public (Site Site, SiteSource Source, List<GivenList> Lists)? Read(IReadOnlyList<DatedRevision> revisions, LocalDate? until)
    {
        var read = new List<(DatedRevision Revision, SiteSource Source, Site Site, LocalDate From)>();
        foreach (var revision in revisions)
        {
            var source = SiteSource.OpenVersion($"{revision.Revision}:{path}", null, terminal);
            if (SiteLoader.Read(source, terminal) is not { } site) return null;
            read.Add((revision, source, site, revision.From ?? CommittedOn(revision.Revision, site)));
        }

        read.Sort((one, other) => one.From.CompareTo(other.From));
        var (lists, last) = (new List<GivenList>(), read[^1]);
        foreach (var (index, each) in read.Index())
        {
            var next = read.Skip(index + 1).Select(other => (LocalDate?)other.From).FirstOrDefault(date => date > each.From);
            var end = each.Revision.Until ?? next ?? (until > each.From ? until.Value : each.From.PlusDays(OpenDays));
            if (next is null && index < read.Count - 1 && each.Revision.Until is null)
            {
                throw new CommandException($"--revision {each.Revision.Revision} and {last.Revision.Revision} begin on one date; "
                    + "give their dates, as in REV=2026-05-04/2026-05-11");
            }

            lists.AddRange(ListsOf(each.Site, each.Source.Root.Path, new Horizon(each.From, end), last.Site));
        }

        return (last.Site, last.Source, lists);
    }

    /// <summary>Of each controller its own, since that is what its device carries out; the hash is that of its switchings.</summary>
    private IEnumerable<GivenList> ListsOf(Site site, string name, Horizon dates, Site last)
    {
        if (Period.DaysBetween(dates.From, dates.Until) > Limits.HorizonDays) throw new CommandException($"{name}: more than {Limits.HorizonDays} days");
        foreach (var controller in site.Controllers.Length > 1 ? site.Controllers.Cast<Controller?>() : [null])
        {
            DeployedList Written(TimetableList kind) => SiteLoader.Answer(site, "Compiling", () => Compiled(site, dates, kind, controller), terminal);
            GivenList given;
            try
            {
                given = GivenList.Of(name, Written(TimetableList.Runs), last);
            }
            catch (DeployedException problem)
            {
                throw new CommandException($"{name}: {problem.Message}: in the last revision it has another name; audit the dates before by themselves");
            }
            catch (SwitchingContractException breach)
            {
                throw new CommandException($"{name} gives no list of switchings: {breach.Message}");
            }

            yield return given with { Hash = Written(TimetableList.Switchings).Hash };
        }
    }

    private static DeployedList Compiled(Site site, Horizon dates, TimetableList kind, Controller? controller)
    {
        using var output = new MemoryStream();
        var timetable = Timetable.Of(site, dates, new WorkBudget(2 * Limits.CheckWorkOf(site.SourceLength)));
        TimetableOutput.Write(timetable, OutputFormat.Csv, new OutputOptions { Only = kind, Controller = controller }, output);
        output.Position = 0;
        using var text = new StreamReader(output);
        return DeployedList.Read(text.ReadToEnd());
    }

    private LocalDate CommittedOn(string revision, Site site) =>
        new GitCommits(GitRepository.At($"{revision}:{path}", terminal.Surroundings), site.TimeZone).Of(revision)?.Date
            ?? throw new CommandException($"git does not say when {revision} was committed; give its dates, as in {revision}=2026-05-04/2026-05-11");
}
