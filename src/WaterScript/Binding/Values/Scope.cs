using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Syntax;
using WaterScript.Text;

namespace WaterScript.Binding.Values;

/// <summary>What every part of the binder needs: where findings go, and what a <c>let</c> stands for.</summary>
internal sealed class Scope(FindingList findings, IDateTimeZoneProvider timeZones)
{
    private readonly HashSet<string> _unread = new(StringComparer.Ordinal);
    private bool _hasUnnamed;
    private readonly HashSet<string> _illFormed = new(StringComparer.Ordinal);

    /// <summary>Where findings go.</summary>
    public FindingList Findings { get; } = findings;

    /// <summary>Where time zones come from.</summary>
    public IDateTimeZoneProvider TimeZones { get; } = timeZones;

    /// <summary>The named quantities and dates.</summary>
    public LetTable Lets { get; } = new();

    /// <summary>The named lists of days.</summary>
    public NamedDayTable NamedDays { get; } = new();

    /// <summary>Reports a finding.</summary>
    public void Report(Finding finding)
    {
        if (finding.Severity != Severity.Error || Findings.IsFull(finding.Primary.Location.Source)
            || !SameStatement.HasMistake(finding.Primary.Location, Findings)) Findings.Add(finding);
    }

    /// <summary>Reports a finding of a rule at a place.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="location">The place.</param>
    /// <param name="heading">What was found.</param>
    /// <param name="label">What is said at the place.</param>
    /// <param name="help">What to do about it.</param>
    public void Report(Rule rule, Location location, string heading, string label = "", string help = "") =>
        Report(Finding.At(rule, location, heading, label) with { Help = help });

    /// <summary>Takes the name of a thing whose description cannot be read. That is reported there, and not once more wherever the name is asked for.</summary>
    public void TakeUnread(string name) => _unread.Add(name);

    /// <summary>Takes it that a thing has no name, which is reported there: what is asked for may be that one.</summary>
    public void TakeUnnamed() => _hasUnnamed = true;

    /// <summary>Whether the description of a thing of that name, or of one whose name nobody knows, could not be read.</summary>
    public bool IsUnread(string name) => _hasUnnamed || _unread.Contains(name);

    /// <summary>Takes a name that is not formed as names are. It is read, and never offered.</summary>
    public void TakeIllFormed(string name) => _illFormed.Add(name);

    /// <summary>Reports a name that nothing has, with the nearest known one as the fix.</summary>
    /// <param name="location">The name.</param>
    /// <param name="heading">What was looked for.</param>
    /// <param name="written">The name as written.</param>
    /// <param name="known">The names that there are.</param>
    public void ReportUnknown(Location location, string heading, string written, params IEnumerable<string>[] known) =>
        ReportUnknown(location, heading, written, known, Fix.Spelt);

    /// <summary>Reports a word of which a near one is another thing, such as a unit, so that it is offered and never written unasked.</summary>
    /// <inheritdoc cref="ReportUnknown(Location, string, string, IEnumerable{string}[])"/>
    public void ReportUncertain(Location location, string heading, string written, params IEnumerable<string>[] known) =>
        ReportUnknown(location, heading, written, known, (at, nearest, _) => Fix.Unsafe($"write `{nearest}`", at, nearest));

    private void ReportUnknown(
        Location location, string heading, string written, IEnumerable<string>[] known, Func<Location, string, IEnumerable<string>, Fix> fix)
    {
        if (Findings.IsFull(location.Source) || IsUnread(written)) return;
        string[] names = [.. known.SelectMany(some => some).Where(name => !_illFormed.Contains(name))];
        var nearest = Spelling.Nearest(written, names);
        Report(Finding.At(ReadingRules.UnknownName, location, heading, nearest is null ? "" : $"did you mean `{nearest}`?") with
        {
            Help = nearest is not null ? $"Write `{nearest}`." : Listed(names),
            Fix = nearest is null ? null : fix(location, nearest, names),
        });
    }

    /// <summary>Whether something was found inside a stretch of a file, so that it need not be asked for more.</summary>
    public bool HasFindingIn(Location location) =>
        Findings.Any(finding => finding.Primary.Location.Source == location.Source && location.Span.Contains(finding.Primary.Location.Span));

    /// <summary>Whether a stretch of a file has a statement that nobody can read, so that what is missing in it may be just that one.</summary>
    public bool HasMisreadIn(Location location) => Findings.Any(finding => (finding.Rule == ReadingRules.UnknownProperty || finding.Rule == ReadingRules.Syntax)
        && finding.Primary.Location.Source == location.Source && location.Span.Contains(finding.Primary.Location.Span));

    private static string Listed(string[] names)
    {
        const int most = 12;
        if (names.Length == 0) return "";
        var shown = string.Join(", ", names.Take(most));
        if (names.Length == 1) return $"The only one is {shown}.";
        return names.Length > most ? $"Use one of {shown}, or of {names.Length - most} more." : $"Use one of {shown}.";
    }
}
