using System.Collections.Immutable;
using NodaTime;
using WaterScript.Diagnostics;
using WaterScript.Diagnostics.Reading;
using WaterScript.Linting.Rules.Description;
using WaterScript.Model;

namespace WaterScript.Linting.Engine;

/// <summary>Takes out of the findings what the user accepts, and says which lines accept nothing.</summary>
internal static class Acceptances
{
    /// <summary>Judges findings by the acceptances of a site.</summary>
    /// <param name="acceptances">The lines.</param>
    /// <param name="findings">What was found.</param>
    /// <param name="first">First date that was looked at: a line until then or before has lapsed.</param>
    /// <returns>What counts still, with what is wrong with the lines themselves, and what is accepted.</returns>
    public static (ImmutableArray<Finding> Open, ImmutableArray<AcceptedFinding> Accepted) Apply(
        ImmutableArray<Acceptance> acceptances, ImmutableArray<Finding> findings, LocalDate first)
    {
        var open = ImmutableArray.CreateBuilder<Finding>();
        var accepted = ImmutableArray.CreateBuilder<AcceptedFinding>();
        foreach (var finding in findings)
        {
            if (acceptances.FirstOrDefault(line => Accepts(line, finding, first)) is { } line) accepted.Add(new AcceptedFinding(finding, line));
            else open.Add(finding);
        }

        var used = accepted.Select(entry => entry.Acceptance).ToHashSet();
        foreach (var line in acceptances)
        {
            if (Mistake(line) is { } mistake) open.Add(mistake);
            else if (!used.Contains(line)) open.Add(UnusedAccept.FindingFor(line, findings, first));
        }

        return (open.ToImmutable(), accepted.ToImmutable());
    }

    private static bool Accepts(Acceptance line, Finding finding, LocalDate first) =>
        finding.Rule.CanBeAccepted
        && finding.Rule.Slug == line.Rule.Text
        && !UnusedAccept.HasLapsed(line, first)
        && (line.Until is not { } until || finding.Happens is not { } occurrences || occurrences.First.Date < until)
        && LabelsOf(finding).Any(label => line.Scope.Source == label.Location.Source && line.Scope.Span.Contains(label.Location.Span));

    private static IEnumerable<Label> LabelsOf(Finding finding) => finding.Others.Prepend(finding.Primary);

    private static Finding? Mistake(Acceptance line)
    {
        var slug = line.Rule.Text;
        return RuleCatalogue.Find(slug) switch
        {
            null => Unknown(line),
            { CanBeAccepted: false } => Finding.At(ReadingRules.Contradiction, line.Rule, $"\"{slug}\" cannot be accepted", "is about reading the file") with
            {
                Help = "Fix what it finds, and delete this line.",
            },
            _ => null,
        };
    }

    private static Finding Unknown(Acceptance line)
    {
        var slug = line.Rule.Text;
        var nearest = Spelling.Nearest(slug, RuleCatalogue.Rules.Where(rule => rule.CanBeAccepted).Select(rule => rule.Slug));
        return Finding.At(ReadingRules.UnknownName, line.Rule, $"no rule is called \"{slug}\"", nearest is null ? "" : $"did you mean `{nearest}`?") with
        {
            Help = nearest is null ? "The list: waterscript explain" : $"Write `{nearest}`.",
            Fix = nearest is null ? null : Fix.Spelt(line.Rule, nearest, RuleCatalogue.Rules.Select(rule => rule.Slug)),
        };
    }
}
