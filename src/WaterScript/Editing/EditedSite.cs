using NodaTime;
using WaterScript.Binding;
using WaterScript.Calendars;
using WaterScript.Editing.Names;
using WaterScript.Editing.Nights;
using WaterScript.Linting.Engine;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Editing;

/// <summary>
/// A site as an editor has it at one time: its trees and names always, what it does only where reading it gave no error. Parts are worked out when somebody
/// asks, once. It may be used from several threads.
/// </summary>
internal sealed class EditedSite
{
    private readonly Lazy<NameIndex> _names;
    private readonly Lazy<YearFigures?> _year;
    private readonly Func<LintReport?> _lint;

    /// <summary>A site.</summary>
    /// <param name="reading">What reading it gave.</param>
    /// <param name="lint">What checking it gave, as far as it is known.</param>
    /// <param name="now">What time it is.</param>
    public EditedSite(SiteReading reading, Func<LintReport?> lint, Instant now)
    {
        ArgumentNullException.ThrowIfNull(reading);
        (Reading, _lint) = (reading, lint);
        _names = new Lazy<NameIndex>(() => NameIndex.Of(reading.Files));
        if (reading is not { Site: { } site, Findings.HasErrors: false })
        {
            _year = new Lazy<YearFigures?>(() => null);
            return;
        }

        Nights = new SiteNights(site, now);
        Words = new NightWords(site);
        _year = new Lazy<YearFigures?>(() => YearFigures.Around(site, Nights.Next is { } day ? CivilDate.FromDayNumber(day).ToLocalDate() : Nights.Today));
    }

    /// <summary>What reading it gave.</summary>
    public SiteReading Reading { get; }

    /// <summary>Its names.</summary>
    public NameIndex Names => _names.Value;

    /// <summary>What it waters; null where reading it gave an error.</summary>
    public SiteNights? Nights { get; }

    /// <summary>How its amounts are said; null where reading it gave an error.</summary>
    public NightWords? Words { get; }

    /// <summary>What it waters in a year; null where that is not known.</summary>
    public YearFigures? Year => _year.Value;

    /// <summary>The site as it was understood, with or without errors; null where too little of it was.</summary>
    public Site? Site => Reading.Site;

    /// <summary>What checking it gave; null where that is not known.</summary>
    public LintReport? Lint => _lint();

    /// <summary>The tree of one of its files; null where it has no such file.</summary>
    public FileNode? FileOf(SourceText source) => Reading.Files.FirstOrDefault(file => ReferenceEquals(file.Source, source));
}
