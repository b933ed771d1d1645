using System.Globalization;
using WaterScript.Calendars;
using WaterScript.Diagnostics;
using WaterScript.Editing.Names;
using WaterScript.Editing.Nights;
using WaterScript.Model;
using WaterScript.Syntax;
using WaterScript.Text;
using WaterScript.Wording;

namespace WaterScript.Editing.Cards;

/// <summary>What a restriction allows, and whether the site keeps to it.</summary>
/// <param name="site">The site.</param>
internal sealed class RestrictionCards(EditedSite site)
{
    private const int MostLines = 3;

    /// <summary>The card of a restriction.</summary>
    public Card Of(Restriction restriction, NameDeclaration declared, TextSpan span)
    {
        var zones = restriction.Zones.IsEmpty ? "all zones" : Phrases.Names([.. restriction.Zones.Select(zone => zone.Name)]);
        var label = restriction.Label is { } text ? $" \"{text}\"" : "";
        return Card.Of(span, $"restriction {restriction.Name}", $"{label}, binds {zones}{InForce(restriction)}",
            [.. Lines(restriction, declared), Kept(declared), "Checked as written here; the authority's text governs."]);
    }

    /// <summary><c>, in force from Mon 1 Jun 2026</c></summary>
    private string InForce(Restriction restriction)
    {
        if (restriction.Season is not { } season || site.Nights is not { } nights) return "";
        var today = CivilDate.DayNumberOf(nights.Today);
        var pattern = DayPattern.Of([], season, [], nights.Site.Effective);
        if (pattern.IsDue(today)) return ", in force now";
        return pattern.NextDue(today, CivilDate.DayNumberOf(nights.Today.PlusYears(1))) is { } day ? $", in force from {NightWords.Date(day)}"
            : ", not in force within a year";
    }

    /// <summary>What it allows, as it is written.</summary>
    private static IEnumerable<string?> Lines(Restriction restriction, NameDeclaration declared)
    {
        var body = ((RestrictionNode)declared.Node).Body;
        var lines = body.Where(line => line is AllowHoursNode or AllowDaysNode or ExceptNode or AtMostNode or ExemptNode)
            .Select(line => SiteWords.Written(new Location(declared.Where.Source, line.Span))).ToList();
        if (lines.Count == 0) return [];
        var more = lines.Count > MostLines ? string.Create(CultureInfo.InvariantCulture, $"; {lines.Count - MostLines} more") : "";
        return [string.Join("; ", lines.Take(MostLines)) + more];
    }

    /// <summary>What the check says of it; nothing while that is not known.</summary>
    private string? Kept(NameDeclaration declared)
    {
        if (site.Lint is not { } lint) return null;
        var place = new Location(declared.Where.Source, declared.Node.Span);
        var broken = lint.Findings.Concat(lint.Accepted.Select(accepted => accepted.Finding)).Count(finding =>
            finding.Rule.Category == RuleCategory.Restrictions && finding.Others.Prepend(finding.Primary).Any(label =>
                ReferenceEquals(label.Location.Source, place.Source) && place.Span.Contains(label.Location.Span)));
        return broken == 0
            ? $"Kept on all dates to {MomentWords.Date(lint.Horizon.Until.PlusDays(-1))[4..]}"
            : $"Broken: {Phrases.Count(broken, "finding")}";
    }
}
