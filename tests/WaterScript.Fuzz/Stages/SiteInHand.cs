using System.Runtime.CompilerServices;
using NodaTime;
using WaterScript.Binding;
using WaterScript.Cli.Files;
using WaterScript.Diagnostics;
using WaterScript.Fuzz.Inputs;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Text;
using WaterScript.Timetables;

namespace WaterScript.Fuzz.Stages;

/// <summary>A site on its way through the stages: each thing about it is worked out once, and only when a stage asks for it.</summary>
internal sealed class SiteInHand
{
    /// <summary>The most dates for which documents are written.</summary>
    public const int MostDays = 28;

    /// <summary>The most runs of documents that are held as trees, twice over.</summary>
    private const int MostRunsOfTrees = 50_000;

    private const int DaysBetweenSalts = 45;

    /// <summary>Sites that others are compared with come again and again.</summary>
    private static readonly ConditionalWeakTable<SiteFiles, CheckedSite> Known = [];

    private readonly SiteFiles _files;
    private readonly int _salt;
    private readonly Lazy<SiteReading> _reading;
    private readonly Lazy<CheckedSite> _checked;
    private readonly Lazy<Horizon> _horizon;
    private readonly Lazy<bool> _fitsInTrees;
    private readonly List<Finding> _undecoded = [];

    public SiteInHand(SiteFiles files, int salt)
    {
        (_files, _salt) = (files, salt);
        _reading = new(() => ReadWith(null));
        _checked = new(() => Known.GetValue(_files, _ => CheckedSite.Of(_files.Root, Reading)));
        _horizon = new(HorizonOf);
        _fitsInTrees = new(() => !Timetable.Runs().Skip(MostRunsOfTrees).Any());
    }

    /// <summary>The files.</summary>
    public SiteFiles Files => _files;

    /// <summary>Decides what a stage chooses.</summary>
    public int Salt => _salt;

    /// <summary>What was found about letters that are not UTF-8; complete after <see cref="Reading"/>.</summary>
    public IReadOnlyList<Finding> Undecoded => _undecoded;

    /// <summary>What reading gave.</summary>
    public SiteReading Reading => _reading.Value;

    /// <summary>What looking at it gave.</summary>
    public CheckedSite Checked => _checked.Value;

    /// <summary>The site where it was read without an error; else null.</summary>
    public Site? Sound => Reading is { Site: { } site, Findings.HasErrors: false } ? site : null;

    /// <summary>Dates for which documents are written: fewer where much happens.</summary>
    public Horizon Horizon => _horizon.Value;

    /// <summary>The timetable of those dates.</summary>
    public Timetable Timetable => Timetable.Of(Reading.Site!, Horizon);

    /// <summary>Whether the documents of those dates can be held as trees: a single date may have half a million runs.</summary>
    public bool FitsInTrees => _fitsInTrees.Value;

    /// <summary>The source of the root file.</summary>
    public SourceText Root => Decode(_files.Root, []);

    /// <summary>Reads it with another text in place of its root file.</summary>
    public SiteReading ReadWith(SourceText? root)
    {
        root ??= Decode(_files.Root, _undecoded);
        return SiteReader.Read(root, _files.Root, new Reader(this), DateTimeZoneProviders.Tzdb);
    }

    private SourceText Decode(string path, List<Finding> findings)
    {
        var (text, finding) = TextDecoder.Decode(path, _files.Files[path]);
        if (finding is not null) findings.Add(finding);
        return text;
    }

    private Horizon HorizonOf()
    {
        const int mostRuns = 1_000;
        var from = Reading.Site!.Effective.PlusDays(_salt * DaysBetweenSalts);
        var days = MostDays;
        while (days > 1 && Timetable.Of(Reading.Site!, Horizon.DaysFrom(from, days)).Runs().Skip(mostRuns).Any()) days /= 2;
        return Horizon.DaysFrom(from, days);
    }

    private sealed class Reader(SiteInHand site) : ISourceReader
    {
        public SourceText? Read(string path) => site._files.Files.ContainsKey(path) ? site.Decode(path, site._undecoded) : null;
    }
}
